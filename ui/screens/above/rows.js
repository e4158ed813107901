// @ts-check
import { choices, isTwo } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { pick, quantity, rowList, text } from '../../parts/field.js'
import { dropRow, flush, rows, site, write } from '../../parts/site.js'
import { aboveWords } from '../../words.js'

/** Windows above and point loads by their numbers. */

/** @param {number} i storey @param {() => void} again @param {number} [of] how many storeys there are, where the heading above does not say it */
export function windowRows(i, again, of = 0) {
  const at = `/above/${i}/openings`
  const list = rows(`${at}/`)
  return rowList(of > 0 ? '' : aboveWords.windows, list, aboveWords.addWindow(i), {
    name: (row) => (of > 1 ? aboveWords.windowOf(i, row) : aboveWords.window(row)),
    row: (row) => h('div', { class: 'two' }, ['x_m', 'width_m', 'sill_m', 'height_m'].map((key) => quantity(`${at}/${row}/${key}`, key === 'x_m' && row > 0 ? { hint: '' } : {}))),
    add: () => { write(at, null); for (const key of ['x_m', 'width_m', 'sill_m', 'height_m']) write(`${at}/${list.length}/${key}`, ''); flush(); again() },
    drop: (row) => { if (list.length === 1) write(at, '[]'); dropRow(`${at}/`, row); again() },
  })
}

/** @param {() => void} again */
export function pointRows(again) {
  const list = rows('/points/')
  const storeys = rows('/above/').length
  const levels = [...Array.from({ length: storeys }, (_, i) => [String(i), aboveWords.levelFloor(i)]), [String(storeys), aboveWords.levelRoof]]
  return h('div', {}, rowList('', list, aboveWords.addPoint, {
    name: (row) => aboveWords.point(row),
    row: (row) => [text(`/points/${row}/what`), quantity(`/points/${row}/x_m`), pick(`/points/${row}/level`, levels), isTwo(site.fields) && pick(`/points/${row}/leaf`, choices.leaf), quantity(`/points/${row}/dead_kn`), quantity(`/points/${row}/imposed_kn`)],
    add: () => { write(`/points/${list.length}/x_m`, ''); flush(); again() },
    drop: (row) => { dropRow('/points/', row); again() },
  }))
}
