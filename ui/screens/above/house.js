// @ts-check
import { h, put } from '../../parts/dom.js'
import { dropRow, flush, rows, site, write } from '../../parts/site.js'
import { aboveWords, words } from '../../words.js'
import { drawHouse } from './house-drawing.js'
import { asTyped, metres } from './measure.js'

/** The house above the opening, to scale, worked by hand: windows are set, dragged, stretched, or moved with the arrow keys. */

/** @typedef {{kind: 'wall'|'floor'|'roof'|'point'|'window', storey: number, row: number}} Piece */

/** What is touched on the drawing; it outlives a redrawn page. @type {Piece|null} */
let chosen = null

/** Smallest size of a window, m; what is set anew is an ordinary one. */
const LEAST = 0.3
const NEW = Object.freeze({ width_m: 1.2, height_m: 1.2, sill_m: 0.9 })

/** @param {number} storey @param {number} row @param {string} key */
const at = (storey, row, key) => `/above/${storey}/openings/${row}/${key}`

/** @param {number} storey @param {number} row @param {Partial<Record<'x_m'|'sill_m'|'width_m'|'height_m', number>>} change */
function place(storey, row, change) {
  // A window stays within its storey and within reach of the opening.
  const tall = (metres(site.fields[`/above/${storey}/height_m`]) ?? 2.6) - (site.fields[`/above/${storey}/floor`] === 'null' ? 0 : metres(site.fields[`/above/${storey}/floor/joist_depth_m`]) ?? 0.22)
  const now = (/** @type {'sill_m'|'height_m'} */ key, /** @type {number} */ otherwise) => change[key] ?? metres(site.fields[at(storey, row, key)]) ?? otherwise
  const reach = (metres(site.fields['/opening/width_m']) ?? 2.4) + 2.5
  const within = { ...change }
  if (change.height_m !== undefined) within.height_m = Math.max(LEAST, Math.min(change.height_m, tall - (change.sill_m === undefined ? now('sill_m', 0) : 0)))
  if (change.sill_m !== undefined) within.sill_m = Math.max(0, Math.min(change.sill_m, tall - Math.min(now('height_m', 1), tall)))
  if (change.x_m !== undefined) within.x_m = Math.max(-2.5, Math.min(change.x_m, reach - LEAST))
  for (const [key, value] of Object.entries(within)) {
    const text = asTyped(value)
    if (site.fields[at(storey, row, key)] !== text) write(at(storey, row, key), text)
  }
}

/** Sets an ordinary window about a place. @param {number} storey @param {number} middle m */
export function addWindow(storey, middle) {
  const list = rows(`/above/${storey}/openings/`)
  const row = (list.at(-1) ?? -1) + 1
  write(`/above/${storey}/openings`, null)
  place(storey, row, { x_m: middle - NEW.width_m / 2, ...NEW })
  chosen = { kind: 'window', storey, row }
  flush()
}

/** A piece by its key, as `wall--1` or `window-0-1`; nothing for an empty one. @param {string} key @returns {Piece|null} */
function pieceNamed(key) {
  const [, kind, storey, row] = key.match(/^([a-z]+)-(-?\d+)(?:-(\d+))?$/) ?? []
  return kind ? /** @type {Piece} */ ({ kind, storey: Number(storey), row: Number(row ?? 0) }) : null
}

/**
 * @param {object} how
 * @param {boolean} how.adds whether a touch on the wall sets a window at once
 * @param {() => void} how.again draws the page anew after the rows changed
 * @param {(piece: Piece|null) => void} [how.touched]
 */
export function houseView({ adds, again, touched = () => {} }) {
  const $house = h('div', { class: 'house' })
  // Pieces drawn to scale may be smaller than a fingertip: each can be chosen from a list as well.
  const $list = h('select', { id: 'house-piece', onchange: () => choose(pieceNamed($list.value)) })
  const $pick = h('div', { class: 'field' }, h('label', { for: 'house-piece' }, aboveWords.pieceList), h('span', { class: 'pick' }, $list))
  const $help = h('p', { class: 'hint' }, adds ? aboveWords.tapToAdd : aboveWords.tapToSee)
  /** @type {{pointer: number, part: string, from: {x: number, z: number}, was: Record<string, number>, storey: number, row: number, moved: boolean}|null} */
  let drag = null
  /** @type {ReturnType<typeof drawHouse>} */
  let drawn
  const draw = () => {
    const held = document.activeElement?.closest('[data-piece]')?.getAttribute('data-piece')
    drawn = drawHouse(chosen)
    put($house, drawn.$svg)
    const options = [['', words.choose], ...[...drawn.$svg.querySelectorAll('[data-piece]')].map(($piece) => [$piece.getAttribute('data-piece') ?? '', ($piece.getAttribute('aria-label') ?? '').split('. ')[0]])]
    // An open list on a phone must not be drawn anew under the finger.
    if (options.map((one) => one.join()).join() !== [...$list.options].map((one) => `${one.value},${one.text}`).join()) put($list, options.map(([value, label]) => h('option', { value }, label)))
    $list.value = chosen ? [...$list.options].find(({ value }) => { const one = pieceNamed(value); return one?.kind === chosen?.kind && one?.storey === chosen?.storey && one?.row === chosen?.row })?.value ?? '' : ''
    if (held) /** @type {SVGElement|null} */ ($house.querySelector(`[data-piece="${held}"]`))?.focus({ preventScroll: true })
  }
  const choose = (/** @type {Piece|null} */ piece) => { chosen = piece; draw(); touched(chosen) }
  const size = (/** @type {number} */ storey, /** @type {number} */ row) => Object.fromEntries(['x_m', 'sill_m', 'width_m', 'height_m'].map((key) => [key, metres(site.fields[at(storey, row, key)]) ?? 0]))
  const point = (/** @type {PointerEvent|MouseEvent} */ event) => {
    const box = drawn.$svg.getBoundingClientRect()
    return drawn.toMetres((event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height)
  }
  const pieceOf = (/** @type {EventTarget|null} */ target) => {
    const $piece = target instanceof Element ? target.closest('[data-piece]') : null
    return $piece ? pieceNamed($piece.getAttribute('data-piece') ?? '') : null
  }
  $house.addEventListener('pointerdown', (/** @type {PointerEvent} */ event) => {
    const piece = pieceOf(event.target)
    if (piece?.kind !== 'window' || drag) return
    const part = event.target instanceof Element ? event.target.getAttribute('data-part') ?? 'move' : 'move'
    drag = { pointer: event.pointerId, part, from: point(event), was: size(piece.storey, piece.row), storey: piece.storey, row: piece.row, moved: false }
    $house.setPointerCapture(event.pointerId)
    event.preventDefault()
    if (chosen?.kind !== 'window' || chosen.storey !== piece.storey || chosen.row !== piece.row) choose(piece)
  })
  $house.addEventListener('pointermove', (/** @type {PointerEvent} */ event) => {
    if (!drag || event.pointerId !== drag.pointer) return
    const now = point(event)
    const [dx, dz] = [now.x - drag.from.x, now.z - drag.from.z]
    if (!drag.moved && Math.hypot(dx, dz) < 0.04) return
    drag.moved = true
    const { was, storey, row } = drag
    if (drag.part === 'wide') place(storey, row, { width_m: Math.max(LEAST, was.width_m + dx) })
    else if (drag.part === 'high') place(storey, row, { height_m: Math.max(LEAST, was.height_m + dz) })
    else place(storey, row, { x_m: was.x_m + dx, sill_m: Math.max(0, was.sill_m + dz) })
    draw()
    numbers(storey, row)
  })
  const end = (/** @type {PointerEvent} */ event) => {
    if (!drag || event.pointerId !== drag.pointer) return
    drag = null
    flush()
  }
  $house.addEventListener('pointerup', end)
  $house.addEventListener('pointercancel', end)
  $house.addEventListener('click', (/** @type {MouseEvent} */ event) => {
    const piece = pieceOf(event.target)
    if (!piece || piece.kind === 'window') return
    if (adds && piece.kind === 'wall' && piece.storey >= 0) { addWindow(piece.storey, point(event).x); again(); return }
    choose(piece)
  })
  $house.addEventListener('keydown', (/** @type {KeyboardEvent} */ event) => {
    const piece = pieceOf(event.target)
    if (!piece) return
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault()
      if (adds && piece.kind === 'wall' && piece.storey >= 0) { addWindow(piece.storey, (metres(site.fields['/opening/width_m']) ?? 2.4) / 2); again() } else choose(piece)
      return
    }
    if (piece.kind !== 'window') return
    const { storey, row } = piece
    const was = size(storey, row)
    if (event.key === 'Delete') { dropRow(`/above/${storey}/openings/`, row); chosen = null; again(); return }
    const step = { ArrowLeft: [-0.05, 0], ArrowRight: [0.05, 0], ArrowUp: [0, 0.05], ArrowDown: [0, -0.05] }[event.key]
    if (!step) return
    event.preventDefault()
    chosen = piece
    place(storey, row, event.shiftKey ? { width_m: Math.max(LEAST, was.width_m + step[0]), height_m: Math.max(LEAST, was.height_m + step[1]) } : { x_m: was.x_m + step[0], sill_m: Math.max(0, was.sill_m + step[1]) })
    draw()
    numbers(storey, row)
  })
  draw()
  // While a finger is on a window the drawing under it stays; the weight comes with the next move or at the end.
  return { $view: [$house, $help, $pick], update: () => { if (!drag) draw(); touched(chosen) }, choose }
}

/** The numbers beside the drawing follow it. @param {number} storey @param {number} row */
function numbers(storey, row) {
  for (const key of ['x_m', 'sill_m', 'width_m', 'height_m']) {
    const $input = document.querySelector(`input[name="${at(storey, row, key)}"]`)
    if ($input instanceof HTMLInputElement) $input.value = site.fields[at(storey, row, key)] ?? ''
  }
}

