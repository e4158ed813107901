// @ts-check
import { h } from '../../parts/dom.js'
import { force, mass, number } from '../../parts/numbers.js'
import { site } from '../../parts/site.js'
import { aboveWords } from '../../words.js'

/** What the piece that was touched brings to the wall, as the app found it. @param {import('./house.js').Piece|null} piece @param {(storey: number) => void} add */
export function shareView(piece, add) {
  if (!piece) return null
  const { pieces: words } = aboveWords
  const { kind, storey, row } = piece
  const name = kind === 'roof' ? words.roof : kind === 'wall' ? (storey < 0 ? words.below : words.wall(storey)) : kind === 'floor' ? words.floor(storey, site.fields[`/above/${storey}/floor/direction`] ?? 'onto') : kind === 'point' ? aboveWords.point(row) : aboveWords.window(row)
  const list = (site.figures?.proposal?.load.pieces ?? []).filter((one) => (kind === 'roof' ? one.what === 'roof' || one.what === 'snow' : one.what === kind && (kind === 'point' ? one.point === row : one.storey === (storey < 0 ? null : storey))))
  const sum = (/** @type {'dead_kn'|'imposed_kn'|'mean_kn_m'} */ key) => list.reduce((all, one) => all + one[key], 0)
  const said = kind === 'window' ? aboveWords.relieves : !site.figures?.proposal ? aboveWords.later : list.length === 0 ? aboveWords.bringsNothing : null
  return [h('p', { class: 'named' }, h('strong', {}, name)), said ? h('p', {}, said) : h('p', {}, h('b', {}, aboveWords.brings(number(sum('mean_kn_m')), mass(sum('mean_kn_m')))), h('br'), aboveWords.bringsAll(force(sum('dead_kn') + sum('imposed_kn')))),
    kind === 'wall' && storey >= 0 && h('button', { type: 'button', class: 'ask', onclick: () => add(storey) }, aboveWords.addHere)]
}
