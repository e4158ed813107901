// @ts-check
import { words } from '../words.js'
import { h, s } from './dom.js'

/** @typedef {import('./types.js').Standing} Standing */

/**
 * The answer in words under a beam on two posts: whole, hatched near its limit, broken beyond it, and only an outline
 * where nobody has designed it yet. The words carry it; the drawing repeats it.
 *
 * @param {Standing} standing
 * @param {any} line
 * @param {string} [title] in place of the standing's own words
 * @returns {HTMLElement}
 */
export function standingView(standing, line, title) {
  const text = title ?? words.standing[standing]
  if (!text) throw new TypeError(`Unknown standing: ${standing}`)
  return h('section', { class: `standing standing--${standing}`, 'aria-label': text }, beam(standing),
    h('div', { class: 'under' }, h('strong', {}, text), line && h('div', {}, line)))
}

/** @param {Standing} standing */
function beam(standing) {
  return s('svg', { class: 'beam', 'aria-hidden': 'true', width: '100%', height: '30' }, BEAMS[standing]())
}

let hatches = 0

/** Lengths in percent stretch with the page; the thickness stays. */
const BEAMS = Object.freeze({
  holds: () => s('rect', { class: 'steel', x: 0, y: 6, width: '100%', height: 16 }),
  close: () => {
    const id = `hatch${(hatches += 1)}`
    return [
      s('pattern', { id, width: 9, height: 9, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(25)' }, s('rect', { class: 'steel', width: 5, height: 9 })),
      s('rect', { class: 'steelline', fill: `url(#${id})`, x: 1, y: 7, width: '99.4%', height: 14 }),
    ]
  },
  does_not_hold: () => [
    s('line', { class: 'steelbar', x1: '0', y1: 8, x2: '47.5%', y2: 22 }),
    s('line', { class: 'steelbar', x1: '52.5%', y1: 22, x2: '100%', y2: 8 }),
    s('line', { class: 'crack', x1: '48.5%', y1: 4, x2: '50%', y2: 28 }),
    s('line', { class: 'crack', x1: '51.5%', y1: 2, x2: '50.5%', y2: 20 }),
  ],
  needs_own_design: () => s('rect', { class: 'outline', x: 1, y: 7, width: '99.4%', height: 14 }),
})

/** How much of what it can do a part is asked for; hatched near the limit, solid oxide beyond it. @param {number} use @param {string} label */
export function usedBar(use, label) {
  const kind = use > 1 ? 'over' : use > 0.9 ? 'near' : ''
  return h('progress', { class: `used ${kind}`, max: 1, value: Math.min(1, Math.max(0, use)), 'aria-label': label })
}
