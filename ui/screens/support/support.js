// @ts-check
import { app, failureText } from '../../bridge.js'
import { choices, fieldText } from '../../fields.js'
import { h, put } from '../../parts/dom.js'
import { choice, text } from '../../parts/field.js'
import { mass, number, time } from '../../parts/numbers.js'
import { linkTo } from '../../parts/problems.js'
import { shareFile } from '../../parts/share.js'
import { flush, jobFields, readAgain, site } from '../../parts/site.js'
import { standingView } from '../../parts/standing.js'
import { termsRow } from '../../parts/terms.js'
import { fold, ofCheck, openAgain, openKeys, opens, worstOfEach } from '../../parts/why.js'
import { aboveWords, supportWords, words } from '../../words.js'
import { briefView } from './brief.js'
import { deliveredForm } from './delivered.js'
import { drawingsView } from './drawings.js'
import { helpsView } from './helps.js'
import { catalogueForm } from './hire.js'
import { decider, optionHead, optionView, pickOf } from './option.js'
import { optionsView } from './options.js'
import { engineerForm, engineerView } from './plans.js'
import { planForm } from './plan-form.js'
import { tile } from './tile.js'
import { gustForm } from './today.js'
import { trialForm } from './trial.js'

/** @typedef {import('../../parts/types.js').Proposal} Proposal */
/** @typedef {import('../../parts/types.js').Option} Option */

/** The answer, and what it stands on. @param {HTMLElement} $main @param {() => void} again @returns {() => void} */
export function supportScreen($main, again) {
  const $answer = h('div', { 'aria-live': 'polite' })
  const $helps = h('div', {})
  const $first = h('div', {})
  const $drawn = h('div', { class: 'drawings' })
  const $rest = h('div', {})
  const trial = trialForm(again)
  const plan = planForm(again)
  const delivered = deliveredForm(again)
  const gust = gustForm()
  const $tries = h('section', {}, h('h2', {}, supportWords.tries), trial.$el, gust.$el, delivered.$el, catalogueForm(again))
  const $others = h('section', { class: 'others' }, h('h2', {}, supportWords.others), plan.$el, engineerForm(), checkView())
  const $end = h('div', {})
  const $said = h('p', { role: 'status' })
  const $saved = h('p', { role: 'status' })
  const $late = h('div', { class: 'after' }, $rest, $tries, $others, $end, $said)
  $main.append(h('div', { class: 'halves' }, h('div', { class: 'answer' }, $answer, $helps, $first), $drawn, $late))

  const keep = async (/** @type {string} */ aim) => {
    try {
      await flush()
      await app.keep(/** @type {string} */ (site.id), jobFields(), aim)
      await readAgain()
      say($said, supportWords.kept)
    } catch (failure) { say($said, failureText(failure), true) }
  }
  const save = async () => {
    try {
      await flush()
      const { path } = await app.saveBrief(/** @type {string} */ (site.id), jobFields())
      say($saved, supportWords.briefAt(path))
      $saved.append(shareFile(path))
    } catch (failure) { say($saved, failureText(failure), true) }
  }

  return () => {
    const { proposal, sketches = {}, hire = null, derived = [], brief } = site.figures ?? {}
    for (const $part of [$others, $tries, $drawn, $rest]) $part.hidden = !proposal
    // What somebody has opened stays open when a figure changes, and the caret stays on the aim.
    const open = openKeys($main)
    const held = document.activeElement instanceof HTMLInputElement && document.activeElement.name === 'aim'
    if (!proposal) {
      put($answer, standingView('needs_own_design', supportWords.notYetLine, supportWords.notYet))
      for (const $part of [$helps, $first, $drawn, $rest, $end]) put($part)
      return
    }
    const from = (/** @type {string} */ of) => derived.find((one) => one.of === of) ?? null
    const { option, standing } = shownOf(proposal)
    const passes = Boolean(option && proposal.options.includes(option))
    put($answer, answerView(proposal, standing, option))
    put($helps, helpsView(proposal))
    put($first, weightView(proposal, option, from), option?.kind === 'needles' && termsRow(['needle', 'prop']), optionsView(proposal.options), option && passes && !site.kept && toKeep())
    put($drawn, option && drawingsView(sketches, option, words.standing[standing], from))
    put($rest, option && optionView(option, passes ? hire : null, from), bracketsView(proposal, from))
    trial.update(option ?? null)
    plan.update(proposal)
    delivered.update(option ?? null)
    gust.update()
    put($end, engineerView(proposal), assumedView(proposal), restsView(proposal), brief && briefView(brief, save, $saved),
      site.kept && h('p', { class: 'soft' }, supportWords.lastKept(time(site.kept.at))),
      option && passes && h('button', { class: 'do', type: 'button', onclick: () => keep(pickOf(option)) }, supportWords.keep))
    openAgain($main, open)
    const $aim = $first.querySelector('input[name=aim]:checked')
    if (held && $aim instanceof HTMLElement) $aim.focus({ preventScroll: true })
  }
}

/** The next step lies at the end of a long page: what it is, and the way there. */
function toKeep() {
  const there = () => { const $keep = document.querySelector('.after .do'); $keep?.scrollIntoView({ block: 'center' }); if ($keep instanceof HTMLElement) $keep.focus({ preventScroll: true }) }
  return h('div', { class: 'tokeep' }, h('p', { class: 'hint' }, supportWords.notKept), h('button', { class: 'small', type: 'button', onclick: there }, supportWords.toKeep))
}

/** @param {HTMLElement} $said @param {string} words @param {boolean} [wrong] */
function say($said, words, wrong = false) {
  $said.className = wrong ? 'wrong' : 'said'
  $said.textContent = words
}

/**
 * Which option is shown, and what stands over it: never a better word than the whole proposal has when that is no pass.
 * @param {Proposal} proposal
 */
export function shownOf(proposal) {
  const option = proposal.options[site.option] ?? proposal.options[0] ?? proposal.nearest
  const noPass = proposal.standing === 'needs_own_design' || proposal.standing === 'does_not_hold'
  return { option, standing: noPass ? proposal.standing : option?.standing ?? proposal.standing }
}

/** A length, force, weight or pressure in a sentence. */
const FIGURE = /\d[\d.,]*\s?(kN|kPa|mm|m|kg|t)\b/

/** @param {Proposal} proposal @param {import('../../parts/types.js').Standing} standing @param {Option|null|undefined} option */
function answerView(proposal, standing, option) {
  // A sentence with a figure opens to the check that it is about, else to what decides.
  const checks = option ? worstOfEach(option.checks) : []
  const about = (/** @type {string} */ code) => ofCheck(checks.find((check) => check.name === code) ?? (option ? decider(option) : null)) ?? { steps: [supportWords.fromWall2, supportWords.notTried], source: { document: supportWords.ownRule, locator: code.replaceAll('_', ' '), seen: '' } }
  const line = (/** @type {import('../../parts/types.js').Reason} */ reason) => (FIGURE.test(reason.words) ? opens(reason.words, about(reason.code), `reason ${reason.code}`) : reason.words)
  const [first, ...rest] = proposal.reasons
  const repeated = proposal.reasons.some((reason) => reason.code === 'independent_check')
  return [
    standingView(standing, [first && h('div', { class: 'reason' }, line(first)), rest.length > 0 && h('ul', {}, rest.map((reason) => h('li', {}, line(reason))))]),
    proposal.refusal === 'engineer_first' && h('p', { class: 'warn' }, supportWords.engineerFirst),
    proposal.options.length > 0 && proposal.independent_check_needed && !repeated && !site.fields['/check/name'] && h('p', { class: 'warn' }, supportWords.checkNeeded),
    proposal.options.length === 0 && proposal.nearest && h('p', { class: 'warn' }, supportWords.nearest),
  ]
}

/** @param {Proposal} proposal @param {Option|null|undefined} option @param {import('./option.js').From} from */
function weightView({ load }, option, from) {
  return h('div', { class: 'pair' },
    tile(number(load.mean_service_kn_m), aboveWords.perMetre, supportWords.weight(mass(load.mean_service_kn_m)), from('weight_mean'), 'weight mean'),
    tile(number(load.total_service_kn, 0), 'kN', supportWords.whole(mass(load.total_service_kn)), from('weight_total'), 'weight total'),
    option && optionHead(option, from))
}

/** @param {Proposal} proposal @param {import('./option.js').From} from */
function bracketsView({ brackets }, from) {
  if (!brackets) return null
  return h('section', {}, h('h2', {}, supportWords.brackets),
    opens([h('strong', {}, brackets.allowed ? supportWords.bracketsYes : supportWords.bracketsNo), ' ', supportWords.bracketsLine(`${number(brackets.one_carries_kn)} kN`, `${number(brackets.one_can_kn)} kN`)], from('brackets'), 'brackets',
      { inside: brackets.reasons.length > 0 && h('ul', { class: 'plainlist' }, brackets.reasons.map((reason) => h('li', {}, reason.words))) }))
}

/** What was taken because nobody said it; each leads to its field. @param {Proposal} proposal */
function assumedView({ assumptions }) {
  if (assumptions.length === 0) return null
  return fold(supportWords.assumed(assumptions.length), h('ul', { class: 'assumed' }, assumptions.map((taken) => {
    const { full } = fieldText(taken.path, site.fields)
    return h('li', {}, opens(taken.words, { steps: [supportWords.notSaid(full), supportWords.soTaken(taken.words)], source: { document: taken.source, locator: full, seen: '' } }, `taken ${taken.path}`),
      h('a', { href: linkTo(taken.path), 'aria-label': `${taken.words}. ${supportWords.change(full)}` }, supportWords.change(full)))
  })))
}

/** @param {Proposal} proposal */
function restsView({ cautions, basis }) {
  return fold(supportWords.rests, h('ul', { class: 'plainlist' }, [...cautions, ...basis].map((line, i) => h('li', {}, FIGURE.test(line) ? opens(line, { steps: [supportWords.restsOn, line], source: { document: supportWords.basisOf, locator: supportWords.asPrinted, seen: '' } }, `rests ${i}`) : line))))
}

/** Whoever checked it independently; typed by hand, so it stays while figures change. */
function checkView() {
  const $fields = [text('/check/name'), text('/check/date'), choice('/check/category', choices.category)]
  const name = site.fields['/check/name']
  return fold(name ? supportWords.checkedBy(name) : supportWords.checkTitle, [h('p', { class: 'hint' }, supportWords.checkHint), $fields])
}
