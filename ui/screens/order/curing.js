// @ts-check
import { h, put } from '../../parts/dom.js'
import { number, time } from '../../parts/numbers.js'
import { flush, site, write } from '../../parts/site.js'
import { orderWords } from '../../words.js'

/**
 * When what was packed over the beam may be trusted. No hour is taken from anywhere but the product's own sheet and the
 * engineer: without both there is no time, only what to ask.
 */

const AT = '/job/curing/'
const HOUR_MS = 3_600_000
/** Below this time does not count; the method's section 15. */
const COLD_C = 5
let next = 0

/** @param {string} text */
const figure = (text) => { const read = Number(text.trim().replace(',', '.')); return text.trim() !== '' && Number.isFinite(read) && read >= 0 ? read : null }

/**
 * The earliest time, or what is still to be asked.
 * @param {{product: string, placed: string, sheet: string, engineer: string, lowest: string, cold: string}} said
 * @returns {{missing: string[], until: Date|null, needed: number|null, which: 'sheet'|'engineer'|null}}
 */
export function curing(said) {
  const words = orderWords.curing
  const [sheet, engineer] = [figure(said.sheet), figure(said.engineer)]
  const placed = new Date(said.placed)
  const lowest = said.lowest.trim() === '' ? null : Number(said.lowest.trim().replace(',', '.').replace('−', '-'))
  const cold = figure(said.cold)
  const missing = [
    said.product.trim() === '' && words.missing.product, Number.isNaN(placed.getTime()) && words.missing.placed, sheet === null && words.missing.sheet, engineer === null && words.missing.engineer,
    (lowest === null || Number.isNaN(lowest)) && words.missing.lowest, lowest !== null && lowest < COLD_C && cold === null && words.missing.cold,
  ].filter((one) => typeof one === 'string')
  if (missing.length > 0 || sheet === null || engineer === null) return { missing, until: null, needed: null, which: null }
  const needed = Math.max(sheet, engineer) + (cold ?? 0)
  return { missing, until: new Date(placed.getTime() + needed * HOUR_MS), needed, which: engineer >= sheet ? 'engineer' : 'sheet' }
}

export function curingView() {
  const words = orderWords.curing
  const $said = h('div', { role: 'status' })
  const read = (/** @type {string} */ key) => site.fields[`${AT}${key}`] ?? ''
  const tell = () => {
    const answer = curing({ product: read('product'), placed: read('placed'), sheet: read('sheet'), engineer: read('engineer'), lowest: read('lowest'), cold: read('cold') })
    const begun = ['product', 'placed', 'sheet', 'engineer', 'lowest', 'cold'].some((key) => read(key).trim() !== '')
    if (!begun) { put($said, h('p', { class: 'hint' }, words.ask)); return }
    put($said, answer.until === null || answer.needed === null
      ? [h('p', { class: 'wrong' }, words.open), h('ul', { class: 'plainlist' }, answer.missing.map((one) => h('li', {}, one)))]
      : [h('p', {}, h('strong', { class: answer.until > new Date() ? 'wrong' : '' }, answer.until > new Date() ? words.notBefore(time(answer.until.toISOString())) : words.over(time(answer.until.toISOString())))),
        h('p', {}, words.sum(number(answer.needed, 0), words.by[answer.which ?? 'engineer'], read('cold').trim() === '' ? '' : read('cold'))), h('p', { class: 'hint' }, words.still)])
  }
  const field = (/** @type {string} */ key, /** @type {string} */ label, /** @type {string} */ unit, /** @type {string} */ hint, /** @type {Record<string, any>} */ props = {}) => {
    const id = `cure${(next += 1)}`
    const $input = h('input', { id, name: `${AT}${key}`, type: 'text', autocomplete: 'off', value: read(key), oninput: () => { write(`${AT}${key}`, $input.value); tell() }, onblur: () => flush(), ...props })
    return h('div', { class: 'field' }, unit ? h('div', { class: 'line' }, h('label', { for: id }, label), h('span', { class: 'entry' }, $input, h('span', { class: 'unit' }, unit))) : [h('label', { for: id }, label), $input], hint && h('p', { class: 'hint' }, hint))
  }
  tell()
  return h('section', {}, h('h2', {}, words.title),
    field('product', words.product, '', '', { class: 'wide' }), field('placed', words.placed, '', '', { class: 'wide', type: 'datetime-local' }),
    field('sheet', words.sheet, 'h', words.sheetHint, { inputmode: 'decimal' }), field('engineer', words.engineer, 'h', words.engineerHint, { inputmode: 'decimal' }),
    field('lowest', words.lowest, '°C', words.lowestHint), field('cold', words.cold, 'h', words.coldHint, { inputmode: 'decimal' }), $said)
}
