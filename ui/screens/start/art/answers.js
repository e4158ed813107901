// @ts-check
import { arrow, bricks, dim, earth, hatch, p, person, pic, r, rect, t } from './ink.js'

/** Pictures of the answers: how the wall is cut through, how joists and rafters lie, what is under the feet, where the beam goes. */

const BOX = '0 0 132 84'

/** A wall seen from above, cut: outside at the left. @param {number} x @param {number} w @param {number} [course] how long a brick lies */
const cut = (x, w, course = 14) => [p('b', rect(x, 6, w, 72)), p('brick', bricks(x, 6, w, 72, course, w))]

/** @type {Readonly<Record<string, () => any>>} */
const WALLS = Object.freeze({
  cavity: () => [cut(30, 20, 18), cut(66, 20, 36), p('m', 'M50 24h16M50 60h16'), p('t', 'M54 21v6M54 57v6')],
  solid: () => [p('b', rect(46, 6, 42, 72)), p('brick', `M46 24h42M46 42h42M46 60h42M67 6v18M67 42v18${'M60 24v18M60 60v18M74 24v18M74 60v18'}`)],
  thick: () => [p('b', rect(34, 6, 64, 72)), p('brick', 'M34 24h64M34 42h64M34 60h64M55 6v18M76 24v18M55 42v18M76 60v18M55 15h0')],
  half: () => [cut(56, 20, 18)],
  block: () => [cut(56, 20, 36), p('l2', 'M53 6v72M79 6v72')],
  stone: () => [p('b', rect(38, 6, 56, 72)), p('l2', 'M38 24h56M38 40h56M38 60h56'), p('t', 'M60 6v18M80 24v16M54 40v20M76 40v20M66 60v18M50 24v16M84 6v18')],
  rubble: () => [p('b', rect(38, 6, 56, 72)), p('brick', 'M38 20l20-4 6 12 14-8 16 6M38 38l14 4 12-14M52 42l4 18-18 2M56 60l16 18M56 52l18-6 4-26M74 46l20 6M74 46l4 20 16 2M78 66l-8 12')],
})

/** @param {string} name */
export const wallPicture = (name) => pic(BOX, null, WALLS[name]?.())

const room = () => [p('b', rect(14, 10, 104, 12)), p('t', hatch(14, 10, 104, 12, 6))]

/** A floor seen from above, the wall with the opening along the top. @type {Readonly<Record<string, () => any>>} */
const FLOORS = Object.freeze({
  onto: () => [room(), [22, 34, 46, 58, 70, 82, 94, 106].map((x) => p('f', rect(x, 18, 4, 60))), arrow('m', 66, 74, 66, 26, 8), p('cut', 'M36 10V22M96 10V22')],
  along: () => [room(), [30, 41, 52, 63, 74].map((y) => p('f', rect(14, y, 104, 4))), arrow('m', 66, 54, 24, 54, 8), arrow('m', 66, 54, 108, 54, 8), p('cut', 'M36 10V22M96 10V22')],
  none: () => [room(), p('c', rect(14, 30, 104, 48)), p('t', 'M14 30l104 48M118 30L14 78'), p('cut', 'M36 10V22M96 10V22')],
})

/** @param {string} name */
export const floorPicture = (name) => pic(BOX, null, FLOORS[name]?.())

/** The roof cut through: the wall with the opening in red oxide. @type {Readonly<Record<string, () => any>>} */
const ROOFS = Object.freeze({
  yes: () => [earth(4, 128, 78), p('b', rect(100, 44, 8, 34)), p('o', rect(24, 44, 8, 34)), p('f', 'M12 47L66 12L120 47L114 47L66 17L18 47z'), p('l', 'M24 42H108M50 26l12 16M82 26L70 42'), arrow('ol', 28, 24, 28, 41, 6)],
  no: () => [earth(4, 128, 78), p('w', rect(24, 40, 84, 38)), p('l', 'M24 40V78M108 40V78M24 40H108'), p('b', 'M18 40L32 14H100L114 40z'), p('t', 'M22 33H110M25 27H107M29 20H103'), p('o', rect(20, 40, 8, 38)), arrow('m', 66, 52, 66, 68, 6), p('m', 'M48 50h36')],
})

/** @param {string} name */
export const roofPicture = (name) => pic(BOX, null, ROOFS[name]?.())

const prop = (/** @type {number} */ bottom) => [p('o', rect(63, 4, 6, bottom - 10)), p('b', rect(42, bottom - 6, 48, 6))]

/** @type {Readonly<Record<string, () => any>>} */
const FEET = Object.freeze({
  slab_on_ground: () => [prop(48), p('f', rect(8, 48, 116, 12)), p('t', 'M14 52l3 3M28 56l2-3M44 52l3 2M62 56l3-3M78 52l2 3M96 56l3-2M112 52l2 3'), p('w', rect(8, 60, 116, 20)), p('t', hatch(8, 60, 116, 20, 9))],
  ground: () => [prop(50), earth(8, 124, 50), p('l', 'M16 50l2-7 2 7M26 50l1-5 3 5M104 50l2-6 3 6M114 50l1-5 2 5'), p('w', rect(8, 58, 116, 22)), p('t', 'M20 66h6M48 72h6M76 66h8M104 72h6')],
  paving: () => [prop(48), p('f', rect(8, 48, 36, 8)), p('f', rect(47, 48, 38, 8)), p('f', rect(88, 48, 36, 8)), p('t', 'M10 60h112M14 63h104'), p('w', rect(8, 60, 116, 20)), p('t', hatch(8, 66, 116, 14, 9))],
  suspended_timber: () => [prop(34), p('f', rect(8, 34, 116, 5)), [18, 46, 74, 102].map((x) => p('f', rect(x, 39, 6, 14))), p('t', 'M36 34v5M64 34v5M92 34v5'), earth(8, 124, 74), p('c', 'M66 40V72')],
  suspended_slab: () => [prop(34), p('f', rect(8, 34, 116, 14)), p('t', 'M14 38l3 3M34 43l2-3M54 38l3 2M82 43l3-3M102 38l2 3'), p('l', 'M8 44h116'), earth(8, 124, 74), p('c', 'M66 50V72')],
  decking: () => [prop(36), [8, 24, 40, 56, 72, 88, 104].map((x) => p('f', rect(x, 36, 13, 5))), p('f', rect(8, 41, 112, 7)), p('l', 'M18 48v26M24 48v26M104 48v26M110 48v26'), earth(4, 128, 74)],
  unknown: () => [prop(42), p('c', rect(8, 42, 116, 36)), t(66, 72, '?', 'huge')],
})

/** @param {string} name */
export const footPicture = (name) => pic(BOX, null, FEET[name]?.())

/** The new beam in its wall, cut through: joists over it, or beside it. @type {Readonly<Record<string, () => any>>} */
const BEAMS = Object.freeze({
  false: () => [p('b', rect(52, 0, 28, 40)), p('t', hatch(52, 0, 28, 40)), p('f', rect(4, 22, 48, 12)), p('f', rect(80, 22, 48, 12)), p('l', 'M4 19h48M80 19h48M4 38h48M80 38h48'), p('o', 'M54 42h24v4H68v14h10v4H54v-4h10V46H54z'), p('c', 'M52 66V84M80 66V84')],
  true: () => [p('b', rect(52, 0, 28, 18)), p('t', hatch(52, 0, 28, 18)), p('f', rect(4, 26, 54, 12)), p('f', rect(74, 26, 54, 12)), p('l', 'M4 23h48M80 23h48M4 44h124'), p('o', 'M54 20h24v4H68v14h10v4H54v-4h10V24H54z'), p('c', 'M52 46V84M80 46V84')],
})

/** @param {string} name */
export const beamPicture = (name) => pic(BOX, null, BEAMS[name]?.())

/**
 * The wall seen from inside with the new opening, to scale; what is asked now is drawn in blue with its measure.
 * @param {{width: number, head: number, left: number, right: number}} m lengths in m @param {'width'|'head'|'sides'} asked
 * @param {Record<'width'|'head'|'left'|'right', string>} words what stands at each measure @param {string} label
 */
export function openingPicture(m, asked, words, label) {
  const [left, right] = [Math.min(Math.max(m.left, 0.25), 3), Math.min(Math.max(m.right, 0.25), 3)]
  const width = Math.min(Math.max(m.width, 0.4), 8)
  const head = Math.min(Math.max(m.head, 1), 3.2)
  const unit = Math.min(300 / (left + width + right), 46)
  const [from, base] = [(320 - (left + width + right) * unit) / 2, 146]
  const [x1, x2, to] = [from + left * unit, from + (left + width) * unit, from + (left + width + right) * unit]
  const top = base - head * unit
  const ceiling = Math.min(top - 12, base - 2.4 * unit)
  return pic('0 0 320 186', label,
    p('w', rect(from, ceiling, to - from, base - ceiling)), p('brick', bricks(from, ceiling, to - from, Math.max(top - ceiling, 6), 5, 15)), p('paper', rect(x1, top, x2 - x1, base - top)),
    p('l', `M${r(from)} ${r(ceiling)}V${base}M${r(to)} ${r(ceiling)}V${base}M4 ${base}H316M${r(from - 6)} ${r(ceiling)}H${r(to + 6)}`),
    p('o', rect(x1 - 6, top - 7, x2 - x1 + 12, 7)), p('cut', `M${r(x1)} ${base}V${r(top)}H${r(x2)}V${base}`),
    person(x1 + (x2 - x1) * (asked === 'head' ? 0.2 : 0.24), base, 1.7 * unit),
    asked === 'width' && [dim(x1, base + 14, x2, base + 14), t((x1 + x2) / 2, base + 34, words.width, 'dimt big')],
    asked === 'head' && [dim(x1 + (x2 - x1) * 0.5, top, x1 + (x2 - x1) * 0.5, base), t(x1 + (x2 - x1) * 0.5 + 8, (top + base) / 2 + 6, words.head, 'dimt big', 'start')],
    asked === 'sides' && [dim(from, base + 14, x1, base + 14), dim(x2, base + 14, to, base + 14), t(Math.max((from + x1) / 2, 30), base + 34, words.left, 'dimt big'), t(Math.min((x2 + to) / 2, 290), base + 34, words.right, 'dimt big')])
}

/** The house over the opening with its storeys. @param {number|null} storeys @param {boolean} roof @param {string} label */
export function storeysPicture(storeys, roof, label) {
  const n = storeys ?? 1
  const tall = Math.min(30, 96 / (n + 1))
  const base = 150
  const x = 96
  const eaves = base - tall * (n + 1)
  return pic('0 0 320 164', label, earth(30, 290, base), p('w', rect(x, eaves, 128, base - eaves)), p('l', `M${x} ${r(eaves)}V${base}M${x + 128} ${r(eaves)}V${base}`),
    roof && [p('f', `M${x - 10} ${r(eaves)}L${x + 20} ${r(eaves - 28)}H${x + 108}L${x + 138} ${r(eaves)}z`), p('t', `M${x - 3} ${r(eaves - 7)}H${x + 131}M${x + 5} ${r(eaves - 14)}H${x + 123}M${x + 12} ${r(eaves - 21)}H${x + 116}`)],
    Array.from({ length: n }, (_, i) => {
      const y = base - tall * (i + 2)
      return [p('l', `M${x} ${r(y + tall)}h128M${x} ${r(y + tall - 3)}h128`), [18, 54, 90].map((dx) => p('f', rect(x + dx, r(y + tall * 0.22), 20, r(tall * 0.48)))), t(x + 148, y + tall * 0.65, storeys === null ? '?' : String(i + 1), 'dimt big', 'start')]
    }),
    p('cut', `M${x + 36} ${base}V${r(base - tall * 0.76)}h56V${base}`), person(58, base, Math.min(tall * 0.7, 26)))
}
