// @ts-check
import { app } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { time } from '../../parts/numbers.js'
import { site } from '../../parts/site.js'
import { questionsLetter } from '../../parts/letter.js'
import { shareButton } from '../../parts/share.js'
import { termsRow } from '../../parts/terms.js'
import { fold, openAgain, openKeys } from '../../parts/why.js'
import { tongue } from '../../said.js'
import { closeWords, orderWords } from '../../words.js'
import { curingView } from './curing.js'
import { keyed, passedOf, sourceView, stopView } from './stop.js'

/** @typedef {import('../../parts/types.js').Step} Step */
/** @typedef {{code: string, name: string, set_out: boolean|null, at: string, stands: boolean, withdrawn: string[]}} Permit */
/** @typedef {{open: number, stop: boolean, permits: Permit[], bars: string[]}} State */

/** Terms that stand in the steps of a group. @type {Readonly<Record<string, any[]>>} */
const TERMS_OF = Object.freeze({ set_up: ['jamb', 'sole_board', 'underside'], holes: ['needle', 'prop', 'leaf', 'wedge', 'brace'], cutting: ['jamb', 'needle'], beam: ['prop', 'brace'], taking_out: ['prop', 'needle'] })

/** The steps of this job, and its stops: each waits for the yes of somebody with a name. @param {HTMLElement} $main @returns {() => void} */
export function orderScreen($main) {
  const $page = h('div', {})
  const $curing = h('div', {})
  $main.append($page)
  let drawn = ''
  /** @type {State|null} */
  let state = null
  const draw = () => {
    const { kept, figures } = site
    const steps = /** @type {Step[]} */ (kept?.proposal?.order ?? figures?.proposal?.order ?? [])
    // A change of the description draws anew only what it changed, or a name being typed would be lost.
    const { questions = [] } = figures ?? {}
    const now = JSON.stringify([steps, site.stops, Boolean(kept), questions, state])
    if (now === drawn) return
    drawn = now
    const open = openKeys($page)
    if (!$curing.hasChildNodes()) put($curing, curingView())
    put($page, questionsView(questions), orderView(steps, state, $curing))
    openAgain($page, open)
  }
  const read = async () => {
    try {
      state = site.kept ? await app.state(/** @type {string} */ (site.id)) : null
    } catch { state = null }
    draw()
  }
  return () => { draw(); read() }
}

/** The option whose list goes with the questions: the kept one, else the one shown; never one that does not pass. */
function hired() {
  const { kept, figures, option } = site
  return kept?.proposal?.options?.[kept.option] ?? figures?.proposal?.options[option] ?? null
}

/** @param {import('../../parts/types.js').Question[]} questions */
function questionsView(questions) {
  if (questions.length === 0) return null
  return fold(`${orderWords.questions} (${questions.length})`, [
    h('p', { class: 'hint' }, orderWords.questionsLine),
    shareButton(hired() ? orderWords.shareBoth : orderWords.shareQuestions, orderWords.questions, () => questionsLetter(questions, hired())),
    h('ol', { class: 'steplist' }, questions.map((question) => h('li', {}, h('p', {}, h('strong', {}, question.words)), h('p', { class: 'soft' }, orderWords.because, ' ', question.why)))),
  ])
}

/** @param {Step[]} steps @param {State|null} state @param {HTMLElement} $curing */
function orderView(steps, state, $curing) {
  if (steps.length === 0) return h('p', {}, orderWords.none)
  const keys = keyed(steps)
  const open = [...keys].filter(([, key]) => !passedOf(key).length)
  const groups = [...new Set(steps.map((step) => step.group))]
  const next = site.kept ? open[0] : undefined
  const night = steps.find((step) => step.code === 'before_night')
  const permits = [...keys].filter(([step]) => step.code.startsWith('permit'))
  const stop = (/** @type {Step} */ step) => stopView(step, keys.get(step) ?? '', keys)
  return [
    !site.kept && [h('p', { class: 'warn' }, site.figures?.proposal && site.figures.proposal.options.length === 0 ? orderWords.nothingToKeep : orderWords.notKept), h('a', { class: 'ask aslink', href: `#${site.id}/support` }, orderWords.toSupport)],
    h('div', { class: 'halves' },
      h('div', { class: 'answer' },
        site.kept && h('p', { class: 'figure' }, h('b', {}, open.length), h('span', {}, orderWords.waiting(open.length))),
        next && h('section', {}, h('h2', {}, orderWords.next), stop(next[0])),
        state && state.bars.length > 0 && h('section', {}, h('h2', {}, orderWords.bars), h('div', { class: 'stop' }, h('p', {}, h('strong', { class: 'stopword' }, orderWords.barred)), h('ul', { class: 'plainlist' }, state.bars.map((line) => h('li', {}, line))), h('a', { class: 'ask aslink', href: `#${site.id}/findings` }, orderWords.toFindings)))),
      h('div', { class: 'drawings steps' }, groups.map((group) => (group === 'papers' ? papersView(steps, keys) : groupView(group, steps, keys, next?.[0].group === group)))),
      h('div', { class: 'after' },
        permits.length > 0 && h('section', {}, h('h2', {}, orderWords.permits), permits.map(([step, key]) => permitView(step, key, state, keys)), h('a', { class: 'ask aslink', href: `#${site.id}/close` }, closeWords.to)),
        night && h('section', {}, h('h2', {}, orderWords.night), stop(night)),
        $curing)),
  ]
}

/** How far a group has come, in words. @param {Step[]} own @param {Map<Step, string>} keys */
function stopsLeft(own, keys) {
  const stops = own.filter((step) => step.stop)
  const left = stops.filter((step) => !passedOf(keys.get(step) ?? '').length)
  return stops.length === 0 ? '' : `: ${site.kept ? orderWords.left(left.length, stops.length) : orderWords.stops(stops.length)}`
}

/** Every paper on a line with who said yes to it; it opens to what is asked. @param {Step[]} steps @param {Map<Step, string>} keys */
function papersView(steps, keys) {
  const own = steps.filter((step) => step.group === 'papers')
  return h('section', {}, h('h2', {}, orderWords.groups.papers, stopsLeft(own, keys)), h('p', { class: 'hint' }, own[0]?.when),
    own.map((step) => {
      const [said] = step.stop ? passedOf(keys.get(step) ?? '').slice(-1) : []
      const title = h('span', { class: 'paper' }, h('span', {}, orderWords.papers[step.code] ?? step.code.replaceAll('_', ' ')), h('small', { class: said ? 'yes' : 'open' }, said ? orderWords.said(said.name, time(said.at)) : orderWords.openStill(tongue(step.who))))
      return h('details', { class: 'fold' }, h('summary', { 'data-key': `paper ${step.code}`, 'data-open': orderWords.look, 'data-close': orderWords.shut }, title), step.stop ? stopView(step, keys.get(step) ?? '', keys) : stepView(step))
    }))
}

/** @param {string} group @param {Step[]} steps @param {Map<Step, string>} keys @param {boolean} open */
function groupView(group, steps, keys, open) {
  const own = steps.filter((step) => step.group === group)
  return fold(`${orderWords.groups[group] ?? group}${stopsLeft(own, keys)}`, [h('p', { class: 'hint' }, own[0]?.when),
    h('ol', { class: 'steplist', start: own[0]?.step }, own.map((step) => h('li', { value: step.step }, step.stop ? stopView(step, keys.get(step) ?? '', keys) : stepView(step)))), group in TERMS_OF && termsRow(TERMS_OF[group] ?? [])], open, `group ${group}`)
}

/** A permit with its state by name: who gave it, what withdrew it, what bars it. @param {Step} step @param {string} key @param {State|null} state @param {Map<Step, string>} keys */
function permitView(step, key, state, keys) {
  const given = state?.permits.filter((permit) => permit.code === step.code) ?? []
  const withdrawn = given.filter((permit) => !permit.stands)
  return h('div', { class: 'permit' }, h('h3', {}, orderWords.permitNames[step.code] ?? step.code),
    given.filter((permit) => permit.stands && permit.set_out !== null).map((permit) => h('p', {}, orderWords.didSetOut(permit.name, permit.set_out === true))),
    withdrawn.slice(-1).map((permit) => h('p', { class: 'wrong' }, orderWords.withdrawn(permit.name), ' ', permit.withdrawn.join(' '))),
    state && state.bars.length > 0 && !passedOf(key).length && h('p', { class: 'wrong' }, orderWords.notWhile(state.bars.length)),
    stopView(step, key, keys))
}

/** @param {Step} step */
function stepView(step) {
  return [h('p', {}, step.words), sourceView(step)]
}
