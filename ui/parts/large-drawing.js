// @ts-check
import { supportWords, words } from '../words.js'
import { h } from './dom.js'

/**
 * A drawing over the whole window: two fingers, the wheel, buttons or the keys + − 0 change its size, a finger or the arrow
 * keys move it. Printed from here the page holds this drawing, its standing and the caution.
 */

const LEAST = 1
const MOST = 8
const STEP = 1.4
const MOVE_PX = 60

/** @param {string} title @param {Element} $drawing @param {string} standing in words @param {any} [under] */
export function showDrawing(title, $drawing, standing, under = null) {
  const view = { scale: 1, x: 0, y: 0 }
  const $said = h('span', { class: 'quiet', role: 'status' })
  const $moved = h('div', { class: 'moved' }, $drawing)
  const $stage = h('div', { class: 'stage', tabindex: '0', role: 'group', 'aria-label': supportWords.zoomHint }, $moved)
  const show = () => {
    const [wide, tall] = [$stage.clientWidth, $stage.clientHeight]
    // As far as its edges, never out of sight.
    const room = (/** @type {number} */ size, /** @type {number} */ stage) => Math.max(0, size * view.scale - stage) + 24
    const limit = (/** @type {number} */ at, /** @type {number} */ size, /** @type {number} */ stage) => Math.min(24, Math.max(-room(size, stage), at))
    view.x = limit(view.x, $moved.offsetWidth, wide)
    view.y = limit(view.y, $moved.offsetHeight, tall)
    $moved.style.setProperty('transform', `translate(${view.x}px, ${view.y}px) scale(${view.scale})`)
    $said.textContent = supportWords.zoomed(Math.round(view.scale * 100))
  }
  /** Changes the size about a place on the stage. @param {number} scale @param {number} [x] @param {number} [y] */
  const zoom = (scale, x = $stage.clientWidth / 2, y = $stage.clientHeight / 2) => {
    const next = Math.min(MOST, Math.max(LEAST, scale))
    const by = next / view.scale
    Object.assign(view, { scale: next, x: x - (x - view.x) * by, y: y - (y - view.y) * by })
    show()
  }
  const whole = () => { Object.assign(view, { scale: 1, x: 0, y: 0 }); show() }
  const move = (/** @type {number} */ dx, /** @type {number} */ dy) => { view.x += dx; view.y += dy; show() }
  touches($stage, view, zoom, move)
  const button = (/** @type {string} */ label, /** @type {() => void} */ act) => h('button', { class: 'ask', type: 'button', onclick: act }, label)
  const $dialog = h('dialog', { 'aria-label': title, class: 'sheet' },
    h('div', { class: 'title' }, h('h2', {}, title), h('p', {}, h('strong', {}, standing)), under), $stage, $said,
    h('p', { class: 'caution', tabindex: '0' }, words.caution),
    h('div', { class: 'sizes' }, button(supportWords.larger, () => zoom(view.scale * STEP)), button(supportWords.smaller, () => zoom(view.scale / STEP)), button(supportWords.wholeDrawing, whole), button(supportWords.print, () => print())),
    h('button', { class: 'do', type: 'button', onclick: () => $dialog.close() }, words.close))
  /** @type {Record<string, () => void>} */
  const keys = {
    '+': () => zoom(view.scale * STEP), '=': () => zoom(view.scale * STEP), '-': () => zoom(view.scale / STEP), '−': () => zoom(view.scale / STEP), 0: whole,
    ArrowLeft: () => move(MOVE_PX, 0), ArrowRight: () => move(-MOVE_PX, 0), ArrowUp: () => move(0, MOVE_PX), ArrowDown: () => move(0, -MOVE_PX),
  }
  $dialog.addEventListener('keydown', (/** @type {KeyboardEvent} */ event) => {
    const act = event.ctrlKey || event.metaKey ? null : keys[event.key]
    if (!act) return
    event.preventDefault()
    act()
  })
  $dialog.addEventListener('close', () => $dialog.remove())
  document.body.append($dialog)
  $dialog.showModal()
  show()
}

/**
 * One finger moves, two fingers pinch, the wheel changes the size.
 * @param {HTMLElement} $stage @param {{scale: number}} view @param {(scale: number, x?: number, y?: number) => void} zoom @param {(dx: number, dy: number) => void} move
 */
function touches($stage, view, zoom, move) {
  /** @type {Map<number, {x: number, y: number}>} */
  const down = new Map()
  const apart = () => {
    const [a, b] = [...down.values()]
    return a && b ? { far: Math.hypot(a.x - b.x, a.y - b.y), x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 } : null
  }
  const at = (/** @type {PointerEvent|WheelEvent} */ event) => {
    const { left, top } = $stage.getBoundingClientRect()
    return { x: event.clientX - left, y: event.clientY - top }
  }
  $stage.addEventListener('pointerdown', (event) => {
    // A finger that is up again already cannot be held.
    try { $stage.setPointerCapture(event.pointerId) } catch { /* nothing to hold */ }
    down.set(event.pointerId, at(event))
  })
  $stage.addEventListener('pointermove', (event) => {
    const before = down.get(event.pointerId)
    if (!before) return
    const pinched = apart()
    const now = at(event)
    down.set(event.pointerId, now)
    const pinch = apart()
    if (pinched && pinch) {
      zoom(view.scale * pinch.far / Math.max(1, pinched.far), pinch.x, pinch.y)
      move(pinch.x - pinched.x, pinch.y - pinched.y)
    } else move(now.x - before.x, now.y - before.y)
  })
  for (const end of ['pointerup', 'pointercancel']) $stage.addEventListener(end, (event) => down.delete(/** @type {PointerEvent} */ (event).pointerId))
  $stage.addEventListener('wheel', (event) => {
    event.preventDefault()
    const { x, y } = at(event)
    zoom(view.scale * (event.deltaY < 0 ? 1.15 : 1 / 1.15), x, y)
  }, { passive: false })
}
