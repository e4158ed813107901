// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { time } from '../../parts/numbers.js'
import { photos } from '../../parts/photo.js'
import { readAgain, site } from '../../parts/site.js'
import { questionsLetter } from '../../parts/letter.js'
import { shareButton } from '../../parts/share.js'
import { fold } from '../../parts/why.js'
import { orderWords } from '../../words.js'

/** @typedef {import('../../parts/types.js').Step} Step */

/** Who said the last yes: offered again, since on most jobs it is the same few people. */
let lastName = ''

/** The steps of this job, and its stops: each waits for the yes of somebody with a name. @param {HTMLElement} $main @returns {() => void} */
export function orderScreen($main) {
  const $page = h('div', {})
  $main.append($page)
  let drawn = ''
  return () => {
    const steps = /** @type {Step[]} */ (site.kept?.proposal?.order ?? site.figures?.proposal?.order ?? [])
    // A change of the description draws anew only what it changed, or a name being typed would be lost.
    const { questions = [] } = site.figures ?? {}
    const now = JSON.stringify([steps, site.stops, Boolean(site.kept), questions])
    if (now === drawn) return
    drawn = now
    put($page, questionsView(questions), orderView(steps, keyed(steps)))
  }
}

/** The key of each stop: its code and, where several share it, its number. @param {Step[]} steps */
function keyed(steps) {
  /** @type {Map<string, number>} */
  const seen = new Map()
  /** @type {Map<Step, string>} */
  const keys = new Map()
  for (const step of steps.filter((one) => one.stop)) {
    const n = (seen.get(step.code) ?? 0) + 1
    seen.set(step.code, n)
    keys.set(step, `${step.code}/${n}`)
  }
  return keys
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

/** @param {Step[]} steps @param {Map<Step, string>} keys */
function orderView(steps, keys) {
  if (steps.length === 0) return h('p', {}, orderWords.none)
  const open = [...keys].filter(([, key]) => !passedOf(key).length)
  const groups = [...new Set(steps.map((step) => step.group))]
  return [
    !site.kept && h('p', { class: 'warn' }, orderWords.notKept),
    site.kept && h('p', { class: 'figure' }, h('b', {}, open.length), h('span', {}, orderWords.waiting(open.length))),
    site.kept && open[0] && h('p', {}, h('strong', {}, orderWords.next), ' ', open[0][0].words),
    groups.map((group) => {
      const own = steps.filter((step) => step.group === group)
      return h('section', {}, h('h2', {}, orderWords.groups[group] ?? group), h('p', { class: 'hint' }, own[0]?.when),
        h('ol', { class: 'steplist', start: own[0]?.step }, own.map((step) => h('li', { value: step.step }, step.stop ? stopView(step, keys.get(step) ?? '') : stepView(step)))))
    }),
  ]
}

/** @param {string} key */
const passedOf = (key) => site.stops.filter((stop) => stop.key === key)

/** @param {Step} step */
function stepView(step) {
  return [h('p', {}, step.words), sourceView(step)]
}

/** @param {Step} step */
function sourceView({ source, country_source: law }) {
  const line = (/** @type {any} */ one) => h('p', { class: 'source' }, [one.document, one.locator, one.seen].filter(Boolean).join(', '), '.')
  return fold(orderWords.source, () => [line(source), law && line(law)])
}

/** A stop: what is asked, who has said yes, and the way to say it. @param {Step} step @param {string} key */
function stopView(step, key) {
  const said = passedOf(key)
  const again = step.code === 'before_night'
  return h('div', { class: `stop ${said.length ? 'stop--said' : ''}` },
    h('p', {}, h('strong', { class: 'stopword' }, said.length ? orderWords.passed : orderWords.stop), ' ', step.words),
    said.map((one) => h('p', { class: 'said' }, orderWords.saidBy(one.name, time(one.at)))),
    site.kept && (said.length === 0 || again) && fold(orderWords.sayYes, () => yesForm(step, key)),
    sourceView(step))
}

/** @param {Step} step @param {string} key */
function yesForm(step, key) {
  const id = `yes-${key.replace('/', '-')}`
  const permit = step.code.startsWith('permit')
  const $name = h('input', { id, type: 'text', class: 'wide', autocomplete: 'off', value: lastName })
  const $said = h('p', { role: 'status' })
  const setOut = () => /** @type {HTMLInputElement|null} */ ($form.querySelector('input[type=radio]:checked'))?.value
  const say = async () => {
    const chosen = setOut()
    if (permit && chosen === undefined) {
      put($said, h('span', { class: 'wrong' }, orderWords.setOutOpen))
      return
    }
    try {
      await app.passStop(/** @type {string} */ (site.id), key, $name.value, chosen === undefined ? null : chosen === 'true')
      lastName = $name.value
      await readAgain()
    } catch (failure) {
      put($said, h('span', { class: 'wrong' }, failureText(failure)))
    }
  }
  const $form = h('div', {},
    h('div', { class: 'field' }, h('label', { for: id }, orderWords.name), $name),
    permit && h('fieldset', { class: 'field' }, h('legend', {}, orderWords.setOut), h('div', { class: 'answers', 'data-count': 2 },
      [['true', orderWords.yes], ['false', orderWords.no]].map(([value, label]) => h('label', {}, h('input', { type: 'radio', name: id, value }), label)))),
    step.photo && photos(`stop ${step.code}`, 'detail', orderWords.photoOf),
    h('button', { class: 'do', type: 'button', onclick: say }, permit ? orderWords.give : orderWords.yesNow), $said)
  return $form
}
