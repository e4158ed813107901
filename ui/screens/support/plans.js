// @ts-check
import { choices, inWords } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { choice, pick, quantity, text } from '../../parts/field.js'
import { number } from '../../parts/numbers.js'
import { below, clearBelow, flush, site, write } from '../../parts/site.js'
import { fold, partHead, whyView, worstOfEach } from '../../parts/why.js'
import { supportWords, words } from '../../words.js'

/** What others say of this support: the builder's plan and the engineer's answer, entered and held against the checks. */

const PLAN = '/builders_plan/'
const ENGINEER = '/engineer/'

/** What the builder proposes, as he says it. @param {() => void} again */
export function planForm(again) {
  const kind = site.fields[`${PLAN}kind`]
  const drop = () => { clearBelow(PLAN); flush(); again() }
  return fold(supportWords.planTitle, [
    h('p', { class: 'hint' }, supportWords.planHint),
    choice(`${PLAN}kind`, choices.planKind, { changed: (value) => { clearBelow(PLAN); write(`${PLAN}kind`, value); again() } }),
    kind && [quantity(`${PLAN}count`), placesView(kind), fieldsOf(kind), h('button', { class: 'small', type: 'button', onclick: drop }, supportWords.planDrop)],
  ], kind !== undefined)
}

/** Where they stand: typed, or laid out evenly from their number. @param {string} kind */
function placesView(kind) {
  const $places = text(`${PLAN}needles_x_m`)
  const $input = /** @type {HTMLInputElement} */ ($places.querySelector('input'))
  const width = Number((site.fields['/opening/width_m'] ?? '').replace(',', '.').replace(/\s*m$/, ''))
  const lay = (/** @type {number} */ count) => {
    $input.value = Array.from({ length: count }, (_, i) => number((width * (i + 0.5)) / count, 3)).join('; ')
    write(`${PLAN}needles_x_m`, $input.value)
    flush()
  }
  const known = width > 0 && width < 20
  return [$places, known && h('div', { role: 'group', 'aria-label': supportWords.evenly },
    h('p', { class: 'hint' }, supportWords.evenly),
    h('div', { class: 'answers', 'data-count': 6 }, [1, 2, 3, 4, 5, 6].map((count) => h('button', { type: 'button', class: 'count', onclick: () => lay(count), 'aria-label': supportWords.layOut(count, kind) }, String(count)))))]
}

/** @param {string} kind */
function fieldsOf(kind) {
  const own = { needles: needleFields, brackets: bracketFields, props: () => propPick() }[kind] ?? (() => null)
  return [own(), text(`${PLAN}feet`)]
}

function needleFields() {
  return [text(`${PLAN}section`), quantity(`${PLAN}inside_y_mm`), quantity(`${PLAN}outside_y_mm`), propPick(), runnerView()]
}

/** A beam along the wall under the needles, on fewer props. */
function runnerView() {
  const at = `${PLAN}runner/`
  return fold(supportWords.runnerTitle, [text(`${at}section`), quantity(`${at}spacing_m`), text(`${at}props_x_m`)], below(at).length > 0)
}

/** Trade sizes only: whatever else is at hand is said on the Wall screen. */
function propPick() {
  const size = site.fields[`${PLAN}prop/size`] ?? ''
  return pick(`${PLAN}prop/size`, choices.sizes, {
    value: size,
    changed: (value) => {
      clearBelow(`${PLAN}prop/`)
      if (value === '') return
      write(`${PLAN}prop/name`, `size ${value}`)
      write(`${PLAN}prop/data`, 'tn79')
      write(`${PLAN}prop/size`, value)
    },
  })
}

function bracketFields() {
  return [quantity(`${PLAN}rated_kn`), quantity(`${PLAN}arm_mm`), text(`${PLAN}plate_mm`), propPick()]
}

/** The builder's plan, judged in words and with every figure. @param {import('../../parts/types.js').Proposal} proposal */
export function planView({ builders_plan: plan }) {
  if (!plan) return null
  const checks = plan.checks ?? []
  return h('section', {}, h('h2', {}, supportWords.plan), h('p', {}, h('strong', {}, words.standing[plan.standing])), [plan.words].flat().map((line) => h('p', {}, inWords(line))),
    (plan.filled ?? []).length > 0 && h('p', {}, supportWords.planFilled),
    (plan.filled ?? []).length > 0 && h('ul', { class: 'plainlist' }, (plan.filled ?? []).map((line) => h('li', {}, inWords(line)))),
    checks.length > 0 && fold(supportWords.planFigures(checks.length), () => [partHead(), worstOfEach(checks).map((check) => whyView(check, `plan ${check.name}`))]))
}

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
  return h('section', {}, h('h2', {}, supportWords.engineer), h('ul', { class: 'plainlist' }, engineer.compared.map((line) => h('li', {}, inWords(line)))),
    failed && fold(supportWords.engineerFigures(failed.checks.length), () => [partHead(), worstOfEach(failed.checks).map((check) => whyView(check, `engineer ${check.name}`))]))
}
