// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { time } from '../../parts/numbers.js'
import { otherNames } from '../../parts/me.js'
import { photos } from '../../parts/photo.js'
import { readAgain, site } from '../../parts/site.js'
import { fold } from '../../parts/why.js'
import { tongue } from '../../said.js'
import { orderWords, words } from '../../words.js'
import { MY_NAME } from '../emergency/people.js'

/** @typedef {import('../../parts/types.js').Step} Step */

/** Who said the last yes of each role: offered again to the same role only, so that nobody says another's yes by a touch. @type {Map<string, string>} */
const lastNames = new Map()
/** Roles that whoever holds the phone seldom is: there no name is offered. */
const ANOTHER = /engineer|independent|did not set|authority/
let next = 0

/** The key of each stop: its code and, where several share it, its number. @param {Step[]} steps */
export function keyed(steps) {
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

/** @param {string} key */
export const passedOf = (key) => site.stops.filter((stop) => stop.key === key)

/** Where a step comes from. @param {Step} step */
export function sourceView({ source, country_source: law, code, step }) {
  const line = (/** @type {any} */ one) => h('p', { class: 'source' }, [one.document, one.locator, one.seen].filter(Boolean).join(', '), '.')
  return h('details', { class: 'from' }, h('summary', { 'data-key': `source ${code} ${step}` }, h('span', {}, orderWords.source)), line(source), law && line(law))
}

/** A stop: what is asked, who has said yes, and the way to say it. @param {Step} step @param {string} key @param {Map<Step, string>} keys */
export function stopView(step, key, keys) {
  const said = passedOf(key)
  const again = step.code === 'before_night'
  // Stops of the same kind share their photos' name, so one photo is not taken for another's.
  const many = [...keys.keys()].filter((one) => one.code === step.code).length > 1
  return h('div', { class: `stop ${said.length ? 'stop--said' : ''}` },
    h('p', {}, h('strong', { class: 'stopword' }, said.length ? orderWords.passed : orderWords.stop), ' ', step.words),
    h('p', { class: 'soft' }, orderWords.who(tongue(step.who))),
    said.map((one) => h('p', { class: 'said' }, orderWords.saidBy(one.name, time(one.at)))),
    site.kept && (said.length === 0 || again) && fold(orderWords.sayYes, () => yesForm(step, key, many), false, `yes ${key}`),
    sourceView(step))
}

/** @param {Step} step @param {string} key @param {boolean} many */
function yesForm(step, key, many) {
  const id = `yes-${(next += 1)}`
  const permit = step.code.startsWith('permit')
  const $name = h('input', { id, type: 'text', class: 'wide', autocomplete: 'off', value: lastNames.get(step.who) ?? (ANOTHER.test(step.who) ? '' : site.fields[MY_NAME] ?? '') })
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
      lastNames.set(step.who, $name.value)
      await readAgain()
    } catch (failure) {
      put($said, h('span', { class: 'wrong' }, failureText(failure)))
    }
  }
  const $form = h('div', {},
    h('div', { class: 'field' }, h('label', { for: id }, orderWords.name), $name,
      h('div', { class: 'names' }, otherNames().slice(0, 6).map((/** @type {string} */ name) => h('button', { type: 'button', class: 'small', 'aria-label': words.iAm(name), onclick: () => { $name.value = name } }, name)))),
    permit && h('fieldset', { class: 'field' }, h('legend', {}, orderWords.setOut), h('div', { class: 'answers', 'data-count': 2 },
      [['true', orderWords.yes], ['false', orderWords.no]].map(([value, label]) => h('label', {}, h('input', { type: 'radio', name: id, value }), label)))),
    step.photo && photos(many ? `stop ${key.replace('/', ' ')}` : `stop ${step.code}`, 'detail', orderWords.photoOf),
    h('button', { class: 'do', type: 'button', onclick: say }, permit ? orderWords.give : orderWords.yesNow), $said)
  return $form
}
