// @ts-check
import { choices } from '../../fields.js'
import { choice, quantity, rowList } from '../../parts/field.js'
import { dropRow, flush, rows, write } from '../../parts/site.js'
import { wallWords } from '../../words.js'

/** Doors and windows that are in the wall now. @param {() => void} again */
export function existingRows(again) {
  const list = rows('/wall/openings/')
  return rowList('', list, wallWords.addExisting, {
    name: (row) => wallWords.existingOne(row),
    row: (row) => [...['x_m', 'width_m', 'sill_m', 'height_m'].map((key) => quantity(`/wall/openings/${row}/${key}`)), choice(`/wall/openings/${row}/stays`, choices.flag)],
    add: () => { write(`/wall/openings/${list.length}/x_m`, ''); flush(); again() },
    drop: (row) => { dropRow('/wall/openings/', row); again() },
  })
}
