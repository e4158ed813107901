// @ts-check
import { choices, inWords } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { choice, quantity, text } from '../../parts/field.js'
import { below, site } from '../../parts/site.js'
import { fold, opens, partHead, whyView, worstOfEach } from '../../parts/why.js'
import { supportWords } from '../../words.js'

/** The engineer's answer, entered and held against the checks. */

const ENGINEER = '/engineer/'

/** What the engineer answered; empty figures leave the tool's own. */
export function engineerForm() {
  const name = site.fields[`${ENGINEER}name`]
  return fold(name ? supportWords.engineerSaid(name) : supportWords.engineerTitle, [
    h('p', { class: 'hint' }, supportWords.engineerHint),
    text(`${ENGINEER}name`), text(`${ENGINEER}date`), text(`${ENGINEER}section`), quantity(`${ENGINEER}spacing_m`), quantity(`${ENGINEER}load_kn_m`), choice(`${ENGINEER}may_sleep`, choices.flag), text(`${ENGINEER}notes`),
  ], below(ENGINEER).length > 0)
}

/** The engineer's figures beside the tool's. @param {import('../../parts/types.js').Proposal} proposal */
export function engineerView({ engineer }) {
  if (!engineer) return null
  // An arrangement that passes stands among the options; one that fails is shown here with what it fails on.
  const failed = engineer.option
  const source = { document: supportWords.engineerSaid(site.fields[`${ENGINEER}name`] ?? ''), locator: site.fields[`${ENGINEER}date`] ?? supportWords.noDate, seen: '' }
  const steps = [supportWords.engineerHeld, ...engineer.compared.map(inWords)]
  return h('section', {}, h('h2', {}, supportWords.engineer), engineer.compared.map((line, i) => opens(inWords(line), { steps, source }, `engineer line ${i}`)),
    failed && fold(supportWords.engineerFigures(failed.checks.length), () => [partHead(), worstOfEach(failed.checks).map((check) => whyView(check, `engineer ${check.name}`))]))
}
