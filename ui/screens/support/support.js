// @ts-check
import { app, failureText } from '../../bridge.js'
import { choices, fieldText } from '../../fields.js'
import { h, put } from '../../parts/dom.js'
import { choice, text } from '../../parts/field.js'
import { mass, number, percent, time } from '../../parts/numbers.js'
import { linkTo } from '../../parts/problems.js'
import { figureNow, flush, jobFields, readAgain, site } from '../../parts/site.js'
import { standingView } from '../../parts/standing.js'
import { fold, openAgain, openKeys } from '../../parts/why.js'
import { supportWords, words } from '../../words.js'
import { optionView, optionHead, pickOf, sketches } from './option.js'
import { engineerForm, engineerView, planForm, planView } from './plans.js'

/** @typedef {import('../../parts/types.js').Proposal} Proposal */
/** @typedef {import('../../parts/types.js').Option} Option */

/** The answer, and what it stands on. @param {HTMLElement} $main @param {() => void} again @returns {() => void} */
export function supportScreen($main, again) {
  const $answer = h('div', { 'aria-live': 'polite' })
  const $body = h('div', {})
  const $others = h('section', {}, h('h2', {}, supportWords.others), planForm(again), engineerForm(), checkView())
  const $end = h('div', {})
  const $said = h('p', { role: 'status' })
  const $saved = h('p', { role: 'status' })
  $main.append($answer, $body, $others, $end, $said)

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
      say($saved, supportWords.briefAt((await app.saveBrief(/** @type {string} */ (site.id), jobFields())).path))
    } catch (failure) { say($saved, failureText(failure), true) }
  }

  return () => {
    const { proposal } = site.figures ?? {}
    $others.hidden = !proposal
    // What somebody has opened stays open when a figure changes, and the caret stays on the aim.
    const open = openKeys($main)
    const held = document.activeElement instanceof HTMLInputElement && document.activeElement.name === 'aim'
    if (!proposal) {
      put($answer, standingView('needs_own_design', supportWords.notYetLine, supportWords.notYet))
      put($body)
      put($end)
      return
    }
    const { option, standing } = shownOf(proposal)
    put($answer, answerView(proposal, standing))
    put($body, weightView(proposal, option), option && sketches(site.figures?.sketches ?? {}, option.kind), aimView(proposal), option && optionView(option, proposal.options.includes(option)), bracketsView(proposal), planView(proposal), engineerView(proposal))
    const { brief } = site.figures ?? {}
    put($end, assumedView(proposal), restsView(proposal), brief && briefView(brief, save, $saved),
      site.kept && h('p', { class: 'soft' }, supportWords.lastKept(time(site.kept.at))),
      option && proposal.options.length > 0 && h('button', { class: 'do', type: 'button', onclick: () => keep(pickOf(option)) }, supportWords.keep))
    openAgain($main, open)
    const $aim = $body.querySelector('input[name=aim]:checked')
    if (held && $aim instanceof HTMLElement) $aim.focus({ preventScroll: true })
  }
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

/** @param {Proposal} proposal @param {import('../../parts/types.js').Standing} standing */
function answerView(proposal, standing) {
  const [first, ...rest] = proposal.reasons.map((reason) => reason.words)
  const repeated = proposal.reasons.some((reason) => reason.code === 'independent_check')
  return [
    standingView(standing, [first && h('p', {}, first), rest.length > 0 && h('ul', {}, rest.map((line) => h('li', {}, line)))]),
    proposal.refusal === 'engineer_first' && h('p', { class: 'warn' }, supportWords.engineerFirst),
    proposal.independent_check_needed && !repeated && !site.fields['/check/name'] && h('p', { class: 'warn' }, supportWords.checkNeeded),
    proposal.options.length === 0 && proposal.nearest && h('p', { class: 'warn' }, supportWords.nearest),
  ]
}

/** @param {Proposal} proposal @param {Option|null} option */
function weightView({ load }, option) {
  return h('div', { class: 'pair' },
    h('div', {}, h('div', { class: 'figure' }, h('b', {}, number(load.mean_service_kn_m)), h('span', {}, 'kN per m')), supportWords.weight(mass(load.mean_service_kn_m))),
    h('div', {}, h('div', { class: 'figure' }, h('b', {}, number(load.total_service_kn, 0)), h('span', {}, 'kN')), supportWords.whole(mass(load.total_service_kn))),
    option && optionHead(option))
}

/** @param {Proposal} proposal */
function aimView({ options }) {
  if (options.length < 2) return null
  return h('fieldset', { class: 'field aims' }, h('legend', {}, supportWords.aim), h('div', { class: 'answers', 'data-count': options.length }, options.map((one, i) => h('label', {},
    h('input', { type: 'radio', name: 'aim', value: String(i), checked: i === Math.min(site.option, options.length - 1), onchange: () => { site.option = i; figureNow() } }),
    h('span', {}, supportWords.aims[pickOf(one)], h('small', {}, `${one.needles.length > 0 ? `${one.needles.length} × ${one.needles[0]?.section.split(' ')[0] ?? ''}` : `${one.props.length} ${supportWords.onBrackets(one.props.length)}`}, ${supportWords.used(percent(one.worst_utilisation))}`))))))
}

/** @param {Proposal} proposal */
function bracketsView({ brackets }) {
  if (!brackets) return null
  return h('section', {}, h('h2', {}, supportWords.brackets),
    h('p', {}, h('strong', {}, brackets.allowed ? supportWords.bracketsYes : supportWords.bracketsNo), ' ', supportWords.bracketsLine(`${number(brackets.one_carries_kn)} kN`, `${number(brackets.one_can_kn)} kN`)),
    brackets.reasons.length > 0 && h('ul', { class: 'plainlist' }, brackets.reasons.map((reason) => h('li', {}, reason.words))))
}

/** What was taken because nobody said it; each leads to its field. @param {Proposal} proposal */
function assumedView({ assumptions }) {
  if (assumptions.length === 0) return null
  return fold(supportWords.assumed(assumptions.length), h('ul', { class: 'assumed' }, assumptions.map((taken) => h('li', {},
    h('a', { href: linkTo(taken.path), 'aria-label': `${taken.words}. ${supportWords.change(fieldText(taken.path, site.fields).full)}` }, taken.words), h('span', { class: 'source' }, taken.source)))))
}

/** @param {Proposal} proposal */
function restsView({ cautions, basis }) {
  return fold(supportWords.rests, h('ul', { class: 'plainlist' }, [...cautions, ...basis].map((line) => h('li', {}, line))))
}

/** @param {import('../../parts/types.js').Brief} brief @param {() => void} save @param {HTMLElement} $saved */
function briefView(brief, save, $saved) {
  return h('section', {}, h('h2', {}, supportWords.brief), fold(brief.title, brief.sections.map((section) => h('section', {}, h('h3', {}, section.heading), section.lines.map((line) => h('p', {}, line))))),
    h('button', { class: 'ask', type: 'button', onclick: save }, supportWords.saveBrief), $saved)
}

/** Whoever checked it independently; typed by hand, so it stays while figures change. */
function checkView() {
  const $fields = [text('/check/name'), text('/check/date'), choice('/check/category', choices.category)]
  const name = site.fields['/check/name']
  return fold(name ? supportWords.checkedBy(name) : supportWords.checkTitle, [h('p', { class: 'hint' }, supportWords.checkHint), $fields])
}
