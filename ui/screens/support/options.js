// @ts-check
import { h } from '../../parts/dom.js'
import { percent } from '../../parts/numbers.js'
import { figureNow, site } from '../../parts/site.js'
import { supportWords, words } from '../../words.js'
import { pickOf } from './option.js'

/** @typedef {import('../../parts/types.js').Option} Option */

/** Pieces that are hired for an arrangement: needles, props, tubes. @param {Option} option */
const hired = (option) => option.parts.filter((part) => /^(needle|spare|adjustable|header|diagonal|raker|lacing|bracket)/.test(part.what)).reduce((sum, part) => sum + part.count, 0)

/** @param {Option} option */
const massOf = (option) => Math.round(option.parts.reduce((sum, part) => sum + part.count * part.mass_kg, 0))

/** What makes an arrangement what it is, without the aim it was found for. @param {Option} one */
const built = (one) => JSON.stringify([one.kind, one.by, one.standing, one.needles, one.props, one.feet, one.floor_lines.map((line) => [line.header, line.props])])

/** Each arrangement once, with all places that it holds among the options. @param {Option[]} options @returns {number[][]} */
export function grouped(options) {
  /** @type {Map<string, number[]>} */
  const groups = new Map()
  options.forEach((one, i) => { const key = built(one); groups.set(key, [...(groups.get(key) ?? []), i]) })
  return [...groups.values()]
}

/** All arrangements side by side; the chosen row is the one that is shown, and one that serves several aims stands once. @param {Option[]} options */
export function optionsView(options) {
  if (options.length < 2) return null
  const groups = grouped(options)
  const chosen = Math.min(site.option, options.length - 1)
  const aims = (/** @type {number[]} */ group) => group.map((i) => supportWords.aims[pickOf(options[i])])
  if (groups.length === 1) return h('p', { class: 'soft' }, supportWords.oneForAll(aims(groups[0])))
  const row = (/** @type {number[]} */ group) => {
    const [i] = group
    const one = options[i]
    const is = group.includes(chosen)
    return h('tr', { class: is ? 'chosen' : '', onclick: (/** @type {Event} */ event) => { if (!(event.target instanceof HTMLInputElement)) choose(i) } },
      h('th', { scope: 'row' }, h('label', { class: 'pickrow' }, h('input', { type: 'radio', name: 'aim', value: String(i), checked: is, onchange: () => choose(i) }), h('span', {}, aims(group).map((name) => h('span', { class: 'sentence' }, name)), h('small', {}, words.standingShort[one.standing], one.needles[0] && h('span', { class: 'section' }, `, ${one.needles[0].section.split(' ')[0]}`))))),
      h('td', { class: 'n' }, one.needles.length || '–'), h('td', { class: 'n' }, one.props.length), h('td', { class: 'n' }, percent(one.worst_utilisation)), h('td', { class: 'n' }, massOf(one)), h('td', { class: 'n' }, hired(one)))
  }
  const head = (/** @type {string} */ word) => h('th', { class: 'n', scope: 'col' }, word)
  return h('fieldset', { class: 'field aims' }, h('legend', {}, supportWords.aim),
    h('div', { class: 'sideways', tabindex: '0', role: 'group', 'aria-label': supportWords.aim }, h('table', { class: 'compared' },
      h('thead', {}, h('tr', {}, h('th', { scope: 'col' }, supportWords.compared.what), head(supportWords.compared.needles), head(supportWords.compared.props), head(supportWords.usedHead), head(supportWords.compared.mass), head(supportWords.compared.pieces))),
      h('tbody', {}, groups.map(row)))), h('p', { class: 'hint' }, supportWords.compared.hint))
}

/** @param {number} i */
function choose(i) {
  if (site.option === i) return
  site.option = i
  figureNow()
}
