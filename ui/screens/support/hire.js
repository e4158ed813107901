// @ts-check
import { h } from '../../parts/dom.js'
import { rowList, quantity, text } from '../../parts/field.js'
import { hireLetter, kilograms, weightOf } from '../../parts/letter.js'
import { number } from '../../parts/numbers.js'
import { below, clearBelow, dropRow, flush, rows, site, write } from '../../parts/site.js'
import { shareButton } from '../../parts/share.js'
import { fold } from '../../parts/why.js'
import { tongue } from '../../said.js'
import { supportWords } from '../../words.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').Hire} Hire */
/** @typedef {import('../../parts/types.js').HireLine} HireLine */

/** What is fetched, what to look at when it is handed over, and how it gets here. @param {Option} option @param {Hire|null} hire @param {import('../../parts/types.js').Derived|null} from */
export function listView(option, hire, from) {
  const lines = /** @type {HireLine[]} */ (hire?.lines ?? option.parts.map((part) => ({ ...part, length_m: null, open_m: null, stands_m: [], kind: 'other' })))
  const kinds = [...new Set(lines.map((line) => line.kind))]
  return fold(`${supportWords.list}: ${supportWords.listMass(weightOf(option))}`, [
    h('ul', { class: 'hirelist' }, lines.map((line) => h('li', {}, h('span', { class: 'count' }, `${line.count} ×`), h('span', {}, tongue(line.what), line.open_m !== null && line.length_m !== null && h('small', {}, supportWords.closedOpen(number(line.length_m, 2), number(line.open_m, 2), line.what.startsWith('spare') ? '' : line.stands_m.map((at) => number(at, 3)).join(', ')))), h('span', { class: 'n' }, kilograms(line.mass_kg), line.count > 1 && h('small', {}, supportWords.each))))),
    hire && h('p', {}, supportWords.weeks(hire.weeks, number(hire.days, 0))),
    hire && [h('h3', {}, supportWords.counter), h('ul', { class: 'plainlist' }, kinds.filter((kind) => kind in supportWords.atCounter).map((kind) => h('li', {}, supportWords.atCounter[/** @type {'prop'} */ (kind)])))],
    hire && [h('h3', {}, supportWords.carTitle), h('p', {}, supportWords.car(number(hire.car_m, 1), number(hire.car_kg, 0), hire.trips)), hire.too_long.length > 0 && h('p', {}, supportWords.carNot, ' ', hire.too_long.join('; '), '.')],
    hire ? [shareButton(supportWords.shareList, supportWords.listTitle, () => hireLetter(option, hire)), h('button', { class: 'ask', type: 'button', onclick: () => readOut(hireLetter(option, hire)) }, supportWords.readList)] : null,
  ], false, 'list', from)
}

/** A text in large letters, to be read, or read out over the telephone. @param {string} text @param {string} [title] */
export function readOut(text, title = /** @type {string} */ (supportWords.listTitle)) {
  const $dialog = h('dialog', { class: 'sheet terms', 'aria-label': title }, h('div', { class: 'scroll readout', tabindex: '0' }, text.split('\n').map((line) => (line === '' ? h('hr', {}) : h('p', {}, line)))), h('button', { class: 'do', type: 'button', onclick: () => $dialog.close() }, supportWords.closeList))
  $dialog.addEventListener('close', () => $dialog.remove())
  document.body.append($dialog)
  $dialog.showModal()
}

const SECTIONS = '/catalogue/sections/'
const RATES = '/catalogue/rates/'
const OF_RATES = ['needle', 'prop', 'board']

/** What the yard has, and what it asks for a week. @param {() => void} again */
export function catalogueForm(again) {
  const own = rows(SECTIONS)
  return fold(supportWords.yardTitle, [
    h('p', { class: 'hint' }, supportWords.yardHint),
    rowList(supportWords.sections, own, supportWords.addSection, {
      name: (row) => supportWords.sectionName(row + 1),
      row: (row) => text(`${SECTIONS}${row}`),
      add: () => { write(`${SECTIONS}${own.length}`, ''); flush(); again() },
      drop: (row) => { dropRow(SECTIONS, row); again() },
    }),
    h('h3', {}, supportWords.rates), h('p', { class: 'hint' }, supportWords.ratesHint),
    OF_RATES.map((what) => rate(what)),
    h('button', { class: 'small', type: 'button', onclick: () => { clearBelow(RATES); clearBelow(`/job${RATES}`); flush(); again() } }, supportWords.ratesDrop),
  ], below('/catalogue/sections').length > 0 || below(RATES).length > 0)
}

/** The three rates count together: one alone would be a job that cannot be read. @param {string} what */
function rate(what) {
  const path = `${RATES}${what}`
  const held = `/job${path}`
  return quantity(path, {
    value: site.fields[path] ?? site.fields[held] ?? '',
    changed: (value) => {
      write(held, value.trim() === '' ? null : value)
      const all = OF_RATES.map((one) => (one === what ? value : site.fields[`/job${RATES}${one}`] ?? site.fields[`${RATES}${one}`] ?? '').trim())
      OF_RATES.forEach((one, i) => write(`${RATES}${one}`, all.every((text) => text !== '') ? all[i] ?? null : null))
    },
  })
}

