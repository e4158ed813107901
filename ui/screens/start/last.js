// @ts-check
import { choices } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { choice, pick, quantity } from '../../parts/field.js'
import { rows, write } from '../../parts/site.js'
import { startWords } from '../../words.js'
import { pointRows, windowRows } from '../above/rows.js'
import { houseView } from '../above/house.js'
import { existingRows } from '../wall/existing.js'
import { footPicture } from './art/answers.js'
import { strangePicture } from './art/strange.js'
import { sayStrange, strange, strangeAsked, strangeOpen, strangePath } from './asked.js'
import { notSure, tiles, unsureLine } from './parts.js'
import { note, remember, typed } from './state.js'

/** Windows above, the ground under the feet, and the list of what is strange. */

/** @param {() => void} again @returns {import('./questions.js').Asked} */
export function windowsQuestion(again) {
  const list = rows('/above/')
  const some = list.some((i) => rows(`/above/${i}/openings/`).length > 0)
  const redraw = () => { remember('windows', null); remember('said/windows', null); again() }
  const { $view, update } = houseView({ adds: true, again: redraw })
  const none = () => {
    for (const i of list) write(`/above/${i}/openings`, '[]')
    remember('windows', 'none')
    remember('said/windows', 'yes')
    again()
  }
  return {
    $view: [$view, !some && h('button', { type: 'button', class: 'ask', 'aria-pressed': String(note('windows') === 'none'), onclick: none }, startWords.noWindows),
      h('div', { class: 'measures four' }, list.map((i) => windowRows(i, redraw, list.length))), !some && notSure('windows', again, () => remember('windows', null))],
    update,
  }
}

/** @param {'inside'|'outside'} side @param {() => void} again */
function sideView(side, again) {
  const at = `/sides/${side}`
  const kind = typed(`${at}/foot/kind`)
  const hollow = ['suspended_timber', 'suspended_slab', 'decking'].includes(kind)
  const set = (/** @type {string} */ value) => {
    write(`${at}/foot/kind`, value)
    // What lies below is asked of a hollow floor only; an answer to it must not outlive the floor.
    write(`${at}/foot/carried_down`, null)
    remember('said/feet', null)
    again()
  }
  return h('section', {}, h('h2', {}, side === 'inside' ? startWords.inside : startWords.outside),
    tiles({ name: `foot-${side}`, field: `${at}/foot/kind`, legend: startWords.footOf[side], quiet: true, columns: 3, options: choices.foot.map(([value, label]) => ({ value, label, picture: value === 'unknown' ? undefined : footPicture(value) })), chosen: kind, choose: set }),
    h('div', { class: 'measures' }, kind === 'slab_on_ground' && quantity(`${at}/foot/thickness_mm`), hollow && pick(`${at}/foot/carried_down`, choices.carried),
      kind && kind !== 'unknown' && choice(`${at}/foot/ground`, startWords.ground, { label: startWords.groundOf[side], hint: '' }), side === 'outside' && quantity(`${at}/foot_level_m`)))
}

/** @param {() => void} again @returns {import('./questions.js').Asked} */
export const feetQuestion = (again) => ({ $view: [sideView('inside', again), sideView('outside', again), unsureLine('feet')] })

/** @param {() => void} again @returns {import('./questions.js').Asked} */
export function strangeQuestion(again) {
  return {
    $view: [h('div', { class: 'strange' }, strangeAsked().map((key) => {
      const answer = strange(key)
      const follows = answer === 'yes' ? [startWords.yes, startWords.strangeYes[key]] : answer === 'unknown' ? [startWords.then, startWords.strangeUnsure[key]] : null
      return h('div', { class: strangeOpen(key) ? 'item' : 'item done' }, strangePicture(key),
        choice(strangePath(key), choices.yesNo, { label: startWords.strange[key], hint: startWords.strangeHint[key], value: answer, changed: (value) => { sayStrange(key, value); again() } }),
        follows && h('p', { class: 'follows warn' }, follows), key === 'mark' && answer === 'yes' && h('div', { class: 'measures' }, pointRows(again)), key === 'existing' && answer === 'yes' && h('div', { class: 'measures' }, existingRows(again)))
    })), unsureLine('strange')],
  }
}
