// @ts-check
import { clearBelow, rows, write } from '../../parts/site.js'
import { typed } from './state.js'

/** The usual ways in which a wall is built, as fields. A brick is 102.5 × 215 mm, a common block 100 mm thick. */

/** @type {Readonly<Record<string, readonly Record<string, string>[]>>} */
const KINDS = Object.freeze({
  cavity: [{ material: 'clay_brick', thickness_mm: '102.5', plaster_mm: '0' }, { material: 'dense_block', thickness_mm: '100', plaster_mm: '13' }],
  solid: [{ material: 'clay_brick', thickness_mm: '215', plaster_mm: '15' }],
  thick: [{ material: 'clay_brick', thickness_mm: '327.5', plaster_mm: '15' }],
  half: [{ material: 'clay_brick', thickness_mm: '102.5', plaster_mm: '15' }],
  block: [{ material: 'dense_block', thickness_mm: '100', plaster_mm: '26' }],
  // How thick stone is nobody can guess: it stays to be measured.
  stone: [{ material: 'coursed_stone', plaster_mm: '0' }],
  rubble: [{ material: 'rubble', plaster_mm: '0' }],
})

/** Which of them the fields describe; none where it is something else. */
export function wallKind() {
  const leaves = rows('/wall/leaves/')
  if (leaves.length === 2) return 'cavity'
  const [material, thick] = [typed('/wall/leaves/0/material'), Number(typed('/wall/leaves/0/thickness_mm').replace(',', '.'))]
  if (material === 'coursed_stone') return 'stone'
  if (material === 'rubble') return 'rubble'
  if (material.endsWith('_block')) return 'block'
  if (!material.endsWith('_brick')) return ''
  return thick > 280 ? 'thick' : thick > 160 ? 'solid' : thick > 0 ? 'half' : ''
}

/** Describes the wall as one of them; the mortar stays to be scratched. @param {string} kind */
export function setWall(kind) {
  if (kind === wallKind()) return
  clearBelow('/wall/leaves/')
  KINDS[kind].forEach((leaf, i) => { for (const [key, text] of Object.entries(leaf)) write(`/wall/leaves/${i}/${key}`, text) })
  write('/wall/cavity_mm', kind === 'cavity' ? '75' : '0')
}
