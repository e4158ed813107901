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

/** All arrangements side by side; the chosen row is the one that is shown. @param {Option[]} options */
export function optionsView(options) {
  if (options.length < 2) return null
  const chosen = Math.min(site.option, options.length - 1)
  const row = (/** @type {Option} */ one, /** @type {number} */ i) => h('tr', { class: i === chosen ? 'chosen' : '', onclick: (/** @type {Event} */ event) => { if (!(event.target instanceof HTMLInputElement)) choose(i) } },
    h('th', { scope: 'row' }, h('label', { class: 'pickrow' }, h('input', { type: 'radio', name: 'aim', value: String(i), checked: i === chosen, onchange: () => choose(i) }), h('span', {}, supportWords.aims[pickOf(one)], h('small', {}, words.standingShort[one.standing], one.needles[0] && h('span', { class: 'section' }, `, ${one.needles[0].section.split(' ')[0]}`))))),
    h('td', { class: 'n' }, one.needles.length || '–'), h('td', { class: 'n' }, one.props.length), h('td', { class: 'n' }, percent(one.worst_utilisation)), h('td', { class: 'n' }, massOf(one)), h('td', { class: 'n' }, hired(one)))
  const head = (/** @type {string} */ word) => h('th', { class: 'n', scope: 'col' }, word)
  return h('fieldset', { class: 'field aims' }, h('legend', {}, supportWords.aim),
    h('div', { class: 'sideways', tabindex: '0', role: 'group', 'aria-label': supportWords.aim }, h('table', { class: 'compared' },
      h('thead', {}, h('tr', {}, h('th', { scope: 'col' }, supportWords.compared.what), head(supportWords.compared.needles), head(supportWords.compared.props), head(supportWords.usedHead), head(supportWords.compared.mass), head(supportWords.compared.pieces))),
      h('tbody', {}, options.map(row)))), h('p', { class: 'hint' }, supportWords.compared.hint))
}

/** @param {number} i */
function choose(i) {
  if (site.option === i) return
  site.option = i
  figureNow()
}
