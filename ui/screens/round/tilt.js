// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put, s } from '../../parts/dom.js'
import { choice } from '../../parts/field.js'
import { flush, site } from '../../parts/site.js'
import { fold } from '../../parts/why.js'
import { measureWords as words } from '../../words.js'
import { takeLean } from './taken.js'

/** Lean of a prop from the phone's own sensor: two placements, the second on the other side of the tube. */

/** The finger that pressed is off the phone by then, ms. */
const SETTLE_MS = 700
const READ_MS = 1600
/** No reading by then: there is no sensor, ms. */
const NOTHING_MS = 1500

/** @typedef {{alpha: number|null, beta: number, gamma: number}} Sample */

/** Only where the page has the sensor's events at all; else nothing is shown and the hand way stands alone. @param {import('../../parts/types.js').Prop} prop */
export function tiltView(prop) {
  if (!('DeviceOrientationEvent' in window)) return null
  return fold(words.tiltFold, () => body(prop), false, `tilt ${prop.name}`)
}

/** @param {import('../../parts/types.js').Prop} prop */
function body(prop) {
  const at = `/job/sight/tilt/${prop.name}`
  const $said = h('div', { role: 'status' })
  const $answer = h('div', { 'aria-live': 'polite' })
  /** @type {Sample[]|null} */
  let first = null
  let busy = false
  const fail = (/** @type {string} */ text) => put($said, h('p', { class: 'wrong' }, text))
  const read = async () => {
    if (busy) return
    busy = true
    $read.disabled = true
    try {
      if (!(await allowed())) { fail(words.tiltDenied); return }
      put($said, h('p', { class: 'hint' }, words.tiltHold))
      const samples = await collect()
      if (samples.length === 0) { fail(words.tiltNone); return }
      if (!first) {
        first = samples
        put($answer)
        put($said, h('p', { class: 'tapprompt' }, words.tiltRound))
        return
      }
      const looks = site.fields[at] ?? 'away'
      const answer = await app.tilt({ first, second: samples, turn: 'other_side', faces: looks === 'away' ? 'away_from_wall' : 'along_wall' })
      first = null
      put($said)
      put($answer, answerView(prop, looks, answer))
    } catch (failure) {
      first = null
      fail(failureText(failure))
    } finally {
      busy = false
      $read.disabled = false
      label()
    }
  }
  const $read = h('button', { type: 'button', class: 'do', onclick: read })
  const label = () => { $read.textContent = first ? words.tiltSecond : words.tiltFirst }
  label()
  return h('div', { class: 'tilt' }, h('p', { class: 'hint' }, words.tiltHint), picture(),
    choice(at, words.tiltFacings, { label: words.tiltFaces, value: site.fields[at] ?? 'away' }), $read, $said, $answer)
}

/** Some phones ask, and only within a touch. */
async function allowed() {
  const event = /** @type {any} */ (window).DeviceOrientationEvent
  if (typeof event?.requestPermission !== 'function') return true
  try { return (await event.requestPermission()) === 'granted' } catch { return false }
}

/** What the sensor says while the phone is held still. @returns {Promise<Sample[]>} */
function collect() {
  return new Promise((resolve) => {
    /** @type {Sample[]} */
    const samples = []
    const begun = performance.now()
    let any = false
    const take = (/** @type {any} */ event) => {
      if (typeof event.beta !== 'number' || typeof event.gamma !== 'number') return
      any = true
      if (performance.now() - begun >= SETTLE_MS) samples.push({ alpha: typeof event.alpha === 'number' ? event.alpha : null, beta: event.beta, gamma: event.gamma })
    }
    const end = () => { removeEventListener('deviceorientation', take); resolve(samples) }
    addEventListener('deviceorientation', take)
    setTimeout(() => { if (!any) end() }, NOTHING_MS)
    setTimeout(end, SETTLE_MS + READ_MS)
  })
}

/** Which way each figure leans, as seen from inside: to the right and inwards are positive. @param {string} looks @param {string} side @returns {{along: number, across: number}} */
export function signs(looks, side) {
  // Whoever looks at the screen stands away from the wall, so right and towards turn over outside.
  if (looks === 'away') return side === 'inside' ? { along: 1, across: 1 } : { along: -1, across: -1 }
  // The screen looks along the wall: towards the looker is that way, and the looker's right is out or in.
  return looks === 'right' ? { along: 1, across: -1 } : { along: -1, across: 1 }
}

/** @param {import('../../parts/types.js').Prop} prop @param {string} looks @param {any} answer */
function answerView(prop, looks, answer) {
  const sign = signs(looks, prop.side)
  const doubts = answer.doubts.map((/** @type {any} */ doubt) => h('p', { class: doubt.trust === 'refused' ? 'wrong' : 'doubt' }, doubt.words))
  const leans = /** @type {const} */ (['along', 'across']).filter((key) => answer[key]).map((key) => ({ key, lean: answer[key], signed: sign[key] * answer[key].mm_per_m }))
  const $said = h('div', { role: 'status' })
  const take = () => put($said, takeLean(prop.name, leans.filter(({ lean }) => lean.limit !== 'unclear').map(({ key, lean, signed }) => ({ key, mm_per_m: signed, plus_minus_mm_per_m: lean.plus_minus_mm_per_m }))))
  return [doubts, answer.trust !== 'refused' && [h('div', { class: 'leanlines' }, leans.map(({ key, lean, signed }) => leanLine(key, lean, signed))), h('button', { type: 'button', class: 'ask', onclick: () => { take(); flush() } }, words.takeLean), $said]]
}

/** @param {'along'|'across'} key @param {any} lean @param {number} signed */
export function leanLine(key, lean, signed) {
  return h('div', { class: 'leanline' }, h('span', { class: 'soft' }, `${words.tiltAxis[key]}, ${words.ways(key, signed)}`), h('strong', {}, words.perMetre(lean)), h('span', {}, words.degrees(lean)), h('div', { class: lean.limit }, words.limit[/** @type {'within'} */ (lean.limit)]))
}

/** The tube from above, the phone against it, and round to its other side. */
function picture() {
  const phone = (/** @type {number} */ x, /** @type {string} */ name) => [s('rect', { x, y: 28, width: 12, height: 64, fill: 'none', stroke: 'currentColor', 'stroke-width': 3 }), s('text', { x: x + 6, y: 112, 'text-anchor': 'middle' }, name)]
  return h('div', { class: 'drawing tiltpicture' }, s('svg', { viewBox: '0 0 320 124', role: 'img', 'aria-label': words.tiltPicture },
    s('circle', { class: 'board', cx: 160, cy: 60, r: 32, 'stroke-width': 3 }), phone(112, words.tiltOne), phone(196, words.tiltTwo),
    s('path', { class: 'dim', d: 'M104 18C130 -2 190 -2 214 16', 'stroke-width': 3 }), s('path', { class: 'dim', d: 'M200 18L215 17L211 3', 'stroke-width': 3 })))
}
