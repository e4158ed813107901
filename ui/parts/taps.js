// @ts-check
import { measureWords as words } from '../words.js'
import { h, put, s } from './dom.js'

/**
 * Taps on a photo, exact to the pixel: a magnifier beside the finger, and steps by arrow keys or buttons. A spot that is
 * there already is moved without the finger on it.
 */

/** How much the magnifier enlarges what is on the screen. */
const LOUPE = 4
/** Points of the screen that a tap is off under the magnifier; own judgement, the same as where it is read. */
const OFF_POINTS = 2
const NEAR_POINTS = 34
const LOUPE_POINTS = 112

/** @typedef {[number, number]} At in pixels of the whole photo */
/** @typedef {{key: string, name: string, at: At|null}} Spot */
/** @typedef {{width_px: number, height_px: number}} Size */

/**
 * @param {string} url @param {Size} size @param {string} label
 * @param {(key: string, at: At|null, done: boolean) => void} moved while a spot is moved, and when it is let go
 */
export function taps(url, size, label, moved) {
  /** @type {Spot[]} */
  let spots = []
  /** @type {string|null} */
  let chosen = null
  /** Whether the chosen spot was picked to be moved, not just tapped. */
  let picked = false
  const $img = h('img', { src: url, alt: label, draggable: 'false', onload: () => draw() })
  const $over = s('svg', { viewBox: `0 0 ${size.width_px} ${size.height_px}`, 'aria-hidden': 'true' })
  const $spots = h('div', { class: 'tapspots' })
  const $loupe = h('div', { class: 'loupe', 'aria-hidden': 'true', hidden: true })
  $loupe.style.setProperty('background-image', `url("${url}")`)
  const $stage = h('div', { class: 'tapstage', tabindex: '0', role: 'group' }, $img, $over, $spots, $loupe)
  const $prompt = h('p', { class: 'tapprompt', 'aria-live': 'polite' })
  const $steps = h('div', { class: 'tapsteps' })
  // Kept, not asked for: asking while a spot is on its way would lay the page out once more in every frame.
  let [wide, high] = [0, 0]
  const sized = () => { [wide, high] = [$img.clientWidth, $img.clientHeight] }
  new ResizeObserver(sized).observe($img)
  const scale = () => {
    if (!wide) sized()
    return (wide || 1) / size.width_px
  }
  const open = () => spots.find((spot) => !spot.at)
  const held = () => spots.find((spot) => spot.key === chosen && spot.at)
  const inside = (/** @type {At} */ [x, y]) => /** @type {At} */ ([Math.min(size.width_px, Math.max(0, x)), Math.min(size.height_px, Math.max(0, y))])

  /** @param {string} key @param {At|null} at @param {boolean} done */
  const put1 = (key, at, done) => {
    const spot = spots.find((one) => one.key === key)
    if (!spot) return
    spot.at = at && inside(at)
    moved(key, spot.at, done)
    draw()
  }
  const loupeAt = (/** @type {At|null} */ at) => {
    $loupe.hidden = !at
    if (!at) return
    const [x, y] = [at[0] * scale(), at[1] * scale()]
    const half = LOUPE_POINTS / 2
    const left = Math.min(Math.max(0, wide - LOUPE_POINTS), Math.max(0, x - half))
    // Above the finger; where there is no room above, beside it.
    const top = y > LOUPE_POINTS + 30 ? y - LOUPE_POINTS - 30 : y + 40
    for (const [name, value] of Object.entries({
      left: `${left}px`, top: `${top}px`, 'background-size': `${wide * LOUPE}px ${high * LOUPE}px`,
      'background-position': `${half - x * LOUPE}px ${half - y * LOUPE}px`,
    })) $loupe.style.setProperty(name, value)
  }
  const nudge = (/** @type {number} */ dx, /** @type {number} */ dy) => {
    const spot = held()
    if (!spot?.at) return
    // One point of the magnifier at a time.
    const by = 1 / (scale() * LOUPE)
    put1(spot.key, [spot.at[0] + dx * by, spot.at[1] + dy * by], true)
    loupeAt(spot.at)
  }
  /** Picks the spot before the chosen one, to be moved. */
  const another = () => {
    const set = spots.filter((spot) => spot.at)
    const now = set.findIndex((spot) => spot.key === chosen)
    const spot = set[(now + set.length - 1) % set.length]
    if (!spot) return
    chosen = spot.key
    picked = true
    loupeAt(spot.at)
    mark()
  }
  const KEYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }
  $stage.addEventListener('keydown', (/** @type {KeyboardEvent} */ event) => {
    const way = KEYS[/** @type {'ArrowUp'} */ (event.key)]
    const by = event.shiftKey ? 10 : 1
    if (way && held()) nudge(way[0] * by, way[1] * by)
    else if (event.key === 'Enter' && event.target === $stage && open()) choose(place([size.width_px / 2, size.height_px / 2]))
    else return
    event.preventDefault()
  })
  const place = (/** @type {At} */ at) => {
    const spot = open()
    if (!spot) return null
    chosen = spot.key
    put1(spot.key, at, true)
    return spot.key
  }
  /** @param {string|null} key */
  const choose = (key) => {
    chosen = key
    draw()
    loupeAt(held()?.at ?? null)
    const $button = key && $spots.querySelector(`[data-key="${CSS.escape(key)}"]`)
    if ($button instanceof HTMLElement) $button.focus({ preventScroll: true })
  }

  /** @type {{id: number, key: string, by: At}|null} */
  let drag = null
  const where = (/** @type {PointerEvent} */ event) => {
    const { left, top } = $img.getBoundingClientRect()
    return /** @type {At} */ ([(event.clientX - left) / scale(), (event.clientY - top) / scale()])
  }
  $stage.addEventListener('pointerdown', (/** @type {PointerEvent} */ event) => {
    if (drag || event.button > 0) return
    const at = where(event)
    const far = (/** @type {Spot} */ spot) => (spot.at ? Math.hypot(spot.at[0] - at[0], spot.at[1] - at[1]) * scale() : Infinity)
    const near = spots.filter((spot) => far(spot) < NEAR_POINTS).sort((a, b) => far(a) - far(b))[0]
    const next = open()
    // While one is still to be tapped it goes where the finger is, however near to others: both edges of a crack lie close
    // together. Only a spot that was picked by its button is moved then.
    const mine = near?.at && (!next || (picked && near.key === chosen))
    if (near?.at && mine) drag = { id: event.pointerId, key: near.key, by: [near.at[0] - at[0], near.at[1] - at[1]] }
    else if (next) drag = { id: event.pointerId, key: next.key, by: [0, 0] }
    picked = false
    if (!drag) return
    event.preventDefault()
    try { $stage.setPointerCapture(event.pointerId) } catch { /* a finger that is up again already */ }
    chosen = drag.key
    follow(event)
    mark()
  })
  const follow = (/** @type {PointerEvent} */ event) => {
    if (!drag || event.pointerId !== drag.id) return
    const [x, y] = where(event)
    put1(drag.key, [x + drag.by[0], y + drag.by[1]], false)
    loupeAt(held()?.at ?? null)
  }
  // A finger may tell more often than the screen draws: once a frame is enough.
  /** @type {PointerEvent|null} */
  let newest = null
  $stage.addEventListener('pointermove', (/** @type {PointerEvent} */ event) => {
    if (!drag || event.pointerId !== drag.id) return
    if (!newest) requestAnimationFrame(() => { if (newest) follow(newest); newest = null })
    newest = event
  })
  for (const end of ['pointerup', 'pointercancel']) {
    $stage.addEventListener(end, (/** @type {PointerEvent} */ event) => {
      if (drag?.id !== event.pointerId) return
      const { key, by } = drag
      const [x, y] = where(event)
      drag = newest = null
      put1(key, [x + by[0], y + by[1]], true)
      loupeAt(null)
    })
  }

  let shown = ''
  /** Where each button was put last. @type {Map<string, string>} */
  const lies = new Map()
  const draw = () => {
    const percent = (/** @type {At} */ at) => [`${(at[0] / size.width_px) * 100}%`, `${(at[1] / size.height_px) * 100}%`]
    const set = spots.filter((spot) => spot.at)
    // The buttons are made anew only when others are there, so that the focus stays.
    const keys = set.map((spot) => spot.key).join(' ')
    if (keys !== shown) {
      shown = keys
      const $held = document.activeElement instanceof HTMLElement && $spots.contains(document.activeElement) ? document.activeElement.dataset.key : null
      put($spots, set.map((spot) => h('button', { type: 'button', class: 'tapspot', 'data-key': spot.key, 'aria-label': spot.name, onfocus: () => { if (!drag) { chosen = spot.key; picked = true; loupeAt(held()?.at ?? null); mark() } }, onblur: () => loupeAt(null) })))
      if ($held) choose($held)
    }
    // Sixty times a second while a finger moves one: only what differs is touched, or the whole page is laid out anew.
    set.forEach((spot, i) => {
      const [left, top] = percent(/** @type {At} */ (spot.at))
      const { style } = /** @type {HTMLElement} */ ($spots.children[i])
      if (lies.get(spot.key) === `${keys} ${left} ${top}`) return
      lies.set(spot.key, `${keys} ${left} ${top}`)
      style.setProperty('left', left)
      style.setProperty('top', top)
    })
    if (!drag) mark()
  }
  const mark = () => {
    for (const $one of $spots.children) $one.classList.toggle('chosen', /** @type {HTMLElement} */ ($one).dataset.key === chosen)
    const next = open()
    const spot = held()
    // Not while a finger is down: a line more or less would move the photo under it.
    if (!drag) $prompt.textContent = next ? words.tap(next.name) : spots.length > 0 ? words.allTapped : ''
    $stage.setAttribute('aria-label', next ? words.stage(next.name) : words.stageDone)
    $steps.hidden = !spot
    $named.textContent = spot ? words.moves(spot.name) : ''
  }
  const $named = h('p', { class: 'hint' })
  const step = (/** @type {string} */ text, /** @type {number} */ dx, /** @type {number} */ dy) => h('button', { type: 'button', class: 'ask', onclick: () => nudge(dx, dy), onblur: () => loupeAt(null) }, text)
  put($steps, $named, h('div', { class: 'tapways' }, step(words.left, -1, 0), step(words.up, 0, -1), step(words.down, 0, 1), step(words.right, 1, 0)),
    h('div', { class: 'tapmore' }, h('button', { type: 'button', class: 'small', onclick: () => another() }, words.another),
      h('button', { type: 'button', class: 'small', onclick: () => { const spot = held(); if (spot) { chosen = null; loupeAt(null); put1(spot.key, null, true) } } }, words.again)))
  mark()
  return {
    $view: h('div', { class: 'taps' }, $prompt, $stage, $steps),
    /** @param {Spot[]} next */
    set(next) { spots = next.map((spot) => ({ ...spot })); draw() },
    /** What is drawn over the photo. @param {...any} shapes */
    over(...shapes) {
      const $next = s('g', {}, ...shapes)
      const now = [...$over.children]
      const next = [...$next.children]
      // The same shapes in other places are moved, not made anew: that is what a finger does, many times a second.
      const alike = now.length === next.length && next.every(($one, i) => $one.localName === now[i].localName && $one.getAttribute('class') === now[i].getAttribute('class'))
      if (!alike) { $over.replaceChildren(...next); return }
      next.forEach(($one, i) => {
        for (const { name, value } of $one.attributes) if (now[i].getAttribute(name) !== value) now[i].setAttribute(name, value)
        if (now[i].textContent !== $one.textContent) now[i].textContent = $one.textContent
      })
    },
    /** Pixels of the photo for a point of the screen. */
    perPoint: () => 1 / scale(),
    /** ± of a tap in pixels of the photo. */
    tapPx: () => Math.max(0.5, OFF_POINTS / (scale() * LOUPE)),
  }
}

/** A stroke that can be read on brick and on plaster: a light one under a dark one. @param {At[]} points @param {boolean} closed @param {string} kind */
export function stroke(points, closed, kind) {
  const d = `M${points.map((at) => at.join(' ')).join('L')}${closed ? 'Z' : ''}`
  return [s('path', { class: 'under', d }), s('path', { class: kind, d })]
}

/** Points of the screen that words over the photo are high. */
const WORDS_POINTS = 14

/** Words over the photo, as large as the screen's own whatever the photo's pixels. @param {At} at @param {string} text @param {number} perPoint pixels of the photo for a point of the screen @param {string} kind */
export function wordsAt([x, y], text, perPoint, kind) {
  const high = WORDS_POINTS * perPoint
  return s('text', { class: kind, x, y: y + high * 0.35, 'font-size': high, 'text-anchor': 'middle' }, text)
}

/** A spot as a draft keeps it. @param {string|undefined} text @returns {At|null} */
export function readAt(text) {
  const [x, y, ...more] = (text ?? '').split(' ').map(Number)
  return text && more.length === 0 && Number.isFinite(x) && Number.isFinite(y) ? [x, y] : null
}

/** @param {At} at */
export const writeAt = (at) => at.map((one) => String(Math.round(one * 100) / 100)).join(' ')
