// @ts-check
import { h } from '../../parts/dom.js'
import { number } from '../../parts/numbers.js'
import { partRow } from '../../parts/why.js'
import { supportWords } from '../../words.js'

/** @typedef {import('../../parts/types.js').Prop} Prop */
/** @typedef {import('../../parts/types.js').Foot} Foot */

/** A prop's kind and size in words. @param {{kind: string, size: string}} prop */
export const kindWords = (prop) => (prop.kind === 'tn79' ? supportWords.size(prop.size) : String(prop.size))

/** @param {Prop[]} props */
export function propRows(props) {
  return h('ul', { class: 'partlist' }, props.map((prop) => h('li', {}, partRow(supportWords.propLine(prop.name, kindWords(prop), number(prop.length_m, 2)), `${number(prop.load_kn)} kN`, `${number(prop.working_load_kn)} kN`, prop.utilisation, 'row'))))
}

/** @param {Foot[]} feet */
export function feetRows(feet) {
  const line = (/** @type {Foot} */ foot) => (foot.board_mm.some((mm) => mm > 0) ? supportWords.footLine(foot.prop, foot.board_mm.map((mm) => Math.round(mm)).join(' × ')) : supportWords.bareFoot(foot.prop))
  return h('ul', { class: 'partlist' }, feet.map((foot) => h('li', {}, partRow(line(foot), `${Math.round(foot.under_slab_kpa ?? foot.under_board_kpa)} kPa`, `${Math.round(foot.allowed_kpa)} kPa`, foot.utilisation, 'row'))))
}
