// @ts-check
import { h, put, s } from '../../parts/dom.js'
import { site } from '../../parts/site.js'
import { supportWords } from '../../words.js'

/**
 * The builder's plan on a drawing of the wall: a touch on the wall sets a needle or bracket, a finger or the arrow keys move
 * it, Delete takes it out. Numbers in the field below are the same plan.
 */

const WIDE = 340
const SIDE = 26
const TALL = 178
/** Everything is set to the nearest 10 mm by finger and moved by 25 mm by key. */
const BY_FINGER_M = 0.01
const BY_KEY_M = 0.025
/** A touch nearer than this to a needle takes it instead of setting another, in units of the drawing. */
const NEAR = 20

/** Places typed as text, m. @param {string} text */
export const placesFrom = (text) => text.split(/[;\n]/).map((part) => Number(part.trim().replace(',', '.').replace('−', '-'))).filter((x, _, all) => Number.isFinite(x) && all.length > 0 && String(text).trim() !== '')

/** @param {number[]} places */
export const placesText = (places) => places.map((x) => String(Math.round(x * 1000) / 1000)).join('; ')

/**
 * @param {string} kind needles, brackets or props
 * @param {() => number[]} read @param {(places: number[]) => void} write
 */
export function planDrawing(kind, read, write) {
  const letter = kind === 'needles' ? 'N' : kind === 'brackets' ? 'B' : 'P'
  const $holder = h('div', { class: 'planning' })
  let held = -1
  const job = () => site.figures?.job ?? {}
  const width = () => Number(job().opening?.width_m ?? 0)
  const from = () => -Math.min(0.7, Math.max(0.3, Number(job().opening?.left_masonry_m ?? 0.6)))
  const to = () => width() + Math.min(0.7, Math.max(0.3, Number(job().opening?.right_masonry_m ?? 0.6)))
  const unit = () => (WIDE - 2 * SIDE) / Math.max(0.5, to() - from())
  const x = (/** @type {number} */ m) => SIDE + (m - from()) * unit()
  const metres = (/** @type {number} */ at, /** @type {number} */ step) => Math.round((from() + (at - SIDE) / unit()) / step) * step
  const inside = (/** @type {number} */ m) => Math.min(to(), Math.max(from(), m))
  const mm = (/** @type {number} */ m) => String(Math.round(m * 1000)).replace('-', '−')
  const set = (/** @type {number[]} */ places) => { write(places.map((one) => Math.round(one * 1000) / 1000)); draw() }
  const shift = (/** @type {number} */ i, /** @type {number} */ m) => { const places = read(); places[i] = inside(m); set(places); focus(i) }
  const takeOut = (/** @type {number} */ i) => { const places = read().filter((_, at) => at !== i); set(places); focus(Math.min(i, places.length - 1)) }
  const focus = (/** @type {number} */ i) => { const $one = $holder.querySelector(`[data-at="${i}"]`); if ($one instanceof SVGElement) $one.focus({ preventScroll: true }) }

  const keyed = (/** @type {KeyboardEvent} */ event, /** @type {number} */ i) => {
    const places = read()
    const now = places[i] ?? 0
    const step = event.shiftKey ? 4 * BY_KEY_M : BY_KEY_M
    const moves = /** @type {Record<string, number>} */ ({ ArrowLeft: now - step, ArrowDown: now - step, ArrowRight: now + step, ArrowUp: now + step, Home: 0, End: width() })
    if (event.key in moves) shift(i, /** @type {number} */ (moves[event.key]))
    else if (event.key === 'Delete' || event.key === 'Backspace') takeOut(i)
    else return
    event.preventDefault()
  }

  const station = (/** @type {number} */ m, /** @type {number} */ i) => {
    const at = x(m)
    return s('g', {
      class: 'station', 'data-at': i, tabindex: '0', role: 'slider', 'aria-label': `${letter}${i + 1}`, 'aria-valuemin': Math.round(from() * 1000), 'aria-valuemax': Math.round(to() * 1000), 'aria-valuenow': Math.round(m * 1000), 'aria-valuetext': supportWords.planAt(mm(m)),
      onkeydown: (/** @type {KeyboardEvent} */ event) => keyed(event, i),
    }, s('rect', { class: 'reach', x: at - 22, y: 0, width: 44, height: TALL }),
    kind !== 'props' && s('rect', { class: 'steel', x: at - (kind === 'brackets' ? 7 : 5), y: kind === 'brackets' ? 58 : 52, width: kind === 'brackets' ? 14 : 10, height: kind === 'brackets' ? 5 : 12 }),
    s('path', { class: 'steelline', d: `M${at} ${kind === 'props' ? 74 : 63}V150` }), s('rect', { class: 'board', x: at - 12, y: 150, width: 24, height: 5 }),
    s('text', { class: 'name', x: at, y: 46, 'text-anchor': 'middle' }, `${letter}${i + 1}`),
    s('text', { class: 'dimt', x: at, y: i % 2 ? 176 : 168, 'text-anchor': 'middle' }, mm(m)))
  }

  const draw = () => {
    const places = read()
    if (!(width() > 0)) { put($holder); return }
    const [a, b] = [x(0), x(width())]
    const $svg = s('svg', { viewBox: `0 0 ${WIDE} ${TALL + 4}`, role: 'group', 'aria-label': supportWords.planDrawn },
      s('rect', { class: 'wash', x: 2, y: 4, width: WIDE - 4, height: 70 }), s('path', { class: 'line', d: `M2 74H${a}M${b} 74H${WIDE - 2}M2 4H${WIDE - 2}M2 155H${WIDE - 2}` }),
      s('path', { class: 'cut', 'stroke-dasharray': '6 4', d: `M${a} 155V74H${b}V155` }),
      (job().forbidden ?? []).map((/** @type {any} */ one) => s('rect', { class: 'barred', x: x(inside(one.from_m)), y: 30, width: Math.max(1, x(inside(one.to_m)) - x(inside(one.from_m))), height: 44 })),
      places.map(station))
    listen($svg)
    put($holder, h('div', { class: 'drawing' }, $svg), places.length > 0 && h('div', { class: 'answers losable', role: 'group', 'aria-label': supportWords.planTake, 'data-count': 6 },
      places.map((m, i) => h('button', { type: 'button', class: 'count', 'aria-label': supportWords.planTakeOut(`${letter}${i + 1}`, mm(m)), onclick: () => takeOut(i) }, `${letter}${i + 1} ×`))))
  }

  const listen = (/** @type {SVGSVGElement} */ $svg) => {
    const at = (/** @type {PointerEvent} */ event) => {
      const matrix = $svg.getScreenCTM()
      return matrix ? new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse()).x : 0
    }
    let moved = false
    let started = 0
    $svg.addEventListener('pointerdown', (event) => {
      const here = at(event)
      started = here
      moved = false
      const places = read()
      const near = places.map((m, i) => ({ i, far: Math.abs(x(m) - here) })).sort((p, q) => p.far - q.far)[0]
      held = near && near.far <= NEAR ? near.i : -1
      // A finger that is up again already cannot be held.
      try { $svg.setPointerCapture(event.pointerId) } catch { /* nothing to hold */ }
    })
    $svg.addEventListener('pointermove', (event) => {
      if (held < 0) return
      const here = at(event)
      if (!moved && Math.abs(here - started) < 3) return
      moved = true
      // While it moves only its own group follows; the plan is written when it is let go.
      const $one = $svg.querySelector(`[data-at="${held}"]`)
      const now = read()[held] ?? 0
      const there = inside(metres(here, BY_FINGER_M))
      if ($one instanceof SVGElement) {
        $one.setAttribute('transform', `translate(${x(there) - x(now)} 0)`)
        const $figure = $one.querySelector('.dimt')
        if ($figure) $figure.textContent = mm(there)
      }
    })
    $svg.addEventListener('pointerup', (event) => {
      const here = at(event)
      if (held >= 0 && moved) shift(held, metres(here, BY_FINGER_M))
      else if (held >= 0) focus(held)
      else set([...read(), inside(metres(here, BY_FINGER_M))].sort((p, q) => p - q))
      held = -1
    })
    $svg.addEventListener('pointercancel', () => { held = -1; draw() })
  }
  draw()
  return { $el: h('div', {}, h('p', { class: 'hint' }, supportWords.planDraw), $holder), draw: () => { if (held < 0 && !$holder.contains(document.activeElement)) draw() } }
}
