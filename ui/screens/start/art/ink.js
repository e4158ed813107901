// @ts-check
import { s } from '../../../parts/dom.js'

/** The ink that all pictures of Start are drawn with. Red oxide marks what bears or is to be cut, blue pencil what is measured. */

/** @param {string} name class of the line @param {string} d */
export const p = (name, d) => s('path', { class: name, d })

/** @param {number} x @param {number} y @param {string} words @param {string} [name] @param {string} [anchor] */
export const t = (x, y, words, name = 'word', anchor = 'middle') => s('text', { class: name, x, y, 'text-anchor': anchor }, words)

/** A picture. Without a label it only repeats the words beside it, and is passed over by screen readers. @param {string} box @param {string|null} label @param {...any} parts */
export function pic(box, label, ...parts) {
  const seen = label ? { role: 'img', 'aria-label': label } : { 'aria-hidden': 'true' }
  return s('svg', { class: 'pic', viewBox: box, ...seen }, parts)
}

/** @param {number} x @param {number} y @param {number} w @param {number} h */
export const rect = (x, y, w, h) => `M${r(x)} ${r(y)}h${r(w)}v${r(h)}h${r(-w)}z`

/** @param {number} n */
export const r = (n) => Math.round(n * 100) / 100

/** Brickwork in running bond over a rectangle. @param {number} x @param {number} y @param {number} w @param {number} h @param {number} [course] @param {number} [unit] */
export function bricks(x, y, w, h, course = 5, unit = 13) {
  let d = ''
  for (let row = 0, top = y; top < y + h - 0.5; row += 1, top += course) {
    if (row > 0) d += `M${r(x)} ${r(top)}h${r(w)}`
    for (let at = x + (row % 2 ? unit / 2 : unit); at < x + w - 0.5; at += unit) d += `M${r(at)} ${r(top)}v${r(Math.min(course, y + h - top))}`
  }
  return d
}

/** A few bricks only, as a draughtsman hints at a wall. @param {...[number, number, number]} at x, y and how many beside each other */
export function hint(...at) {
  return at.map(([x, y, n]) => `M${x} ${y}h${n * 10}M${x - 5} ${y + 4}h${n * 10}${Array.from({ length: n }, (_, i) => `M${x + 5 + i * 10} ${y}v4`).join('')}`).join('')
}

/** What is cut through, hatched at 45°. @param {number} x @param {number} y @param {number} w @param {number} h @param {number} [step] */
export function hatch(x, y, w, h, step = 6) {
  let d = ''
  for (let k = -h + step / 2; k < w; k += step) {
    const from = Math.max(0, -k)
    const to = Math.min(h, w - k)
    if (to > from) d += `M${r(x + k + from)} ${r(y + h - from)}L${r(x + k + to)} ${r(y + h - to)}`
  }
  return d
}

/** The ground: a line with the earth under it. @param {number} x1 @param {number} x2 @param {number} y */
export function earth(x1, x2, y) {
  let d = ''
  for (let x = x1 + 4; x < x2 - 3; x += 9) d += `M${x} ${y + 1.5}l-4 5`
  return [p('l', `M${x1} ${y}H${x2}`), p('t', d)]
}

/** A line with an open head. @param {string} name @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 @param {number} [size] */
export function arrow(name, x1, y1, x2, y2, size = 5) {
  const long = Math.hypot(x2 - x1, y2 - y1) || 1
  const [ux, uy] = [(x2 - x1) / long * size, (y2 - y1) / long * size]
  return p(name, `M${x1} ${y1}L${x2} ${y2}M${r(x2 - ux - uy * 0.7)} ${r(y2 - uy + ux * 0.7)}L${x2} ${y2}L${r(x2 - ux + uy * 0.7)} ${r(y2 - uy - ux * 0.7)}`)
}

/** A measure with its ends. @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 */
export function dim(x1, y1, x2, y2) {
  const ends = y1 === y2 ? `M${r(x1)} ${r(y1 - 5)}v10M${r(x2)} ${r(y2 - 5)}v10` : `M${r(x1 - 5)} ${r(y1)}h10M${r(x2 - 5)} ${r(y2)}h10`
  return p('m', `M${r(x1)} ${r(y1)}L${r(x2)} ${r(y2)}${ends}`)
}

/** A sash window. @param {number} x @param {number} y @param {number} w @param {number} h @param {boolean} [sill] */
export function sash(x, y, w, h, sill = true) {
  return [p('f', rect(x, y, w, h)), p('t', `M${x} ${y + h / 2}h${w}M${x + w / 2} ${y}v${h}`), sill && p('l', `M${x - 2} ${y + h}h${w + 4}`)]
}

/** Somebody beside it, for the size. @param {number} x middle @param {number} y feet @param {number} tall */
export function person(x, y, tall) {
  const k = tall / 34
  const at = (/** @type {number} */ dx, /** @type {number} */ dy) => `${r(x + dx * k)} ${r(y + dy * k)}`
  return [
    s('circle', { class: 'f', cx: x, cy: r(y - 30.5 * k), r: r(3.2 * k) }),
    p('f', `M${at(-4.5, -25)}Q${at(0, -27.5)} ${at(4.5, -25)}L${at(5.5, -13)}L${at(3.6, -13)}L${at(3, 0)}L${at(0.6, 0)}L${at(0, -12)}L${at(-0.6, 0)}L${at(-3, 0)}L${at(-3.6, -13)}L${at(-5.5, -13)}z`),
  ]
}

/** A steel tape lying along a measure: its case and its blade. @param {number} x @param {number} y @param {number} to */
export function tape(x, y, to) {
  let ticks = ''
  for (let at = x + 6; at < to; at += 6) ticks += `M${at} ${y}v3`
  return [p('b', rect(x, y, to - x, 6)), p('t', ticks), p('f', `M${to - 2} ${y - 8}h14q5 0 5 5v12h-19z`), s('circle', { class: 'f', cx: to + 8, cy: y + 1, r: 3.5 })]
}

/** A screwdriver with its point at a place, turned. @param {number} x @param {number} y @param {number} turn degrees */
export function screwdriver(x, y, turn) {
  return s('g', { transform: `translate(${x} ${y}) rotate(${turn})` }, p('f', 'M0 0l3-1.6h34v3.2H3z'), p('b', 'M37-5h24q8 0 8 5t-8 5H37q4-5 0-10z'), p('t', 'M43-2h20M43 2h20'))
}
