// @ts-check
import { h, put } from '../../parts/dom.js'
import { flush, isKept, site, write } from '../../parts/site.js'
import { roundWords } from '../../words.js'

/**
 * A reading in millimetres by one touch on a ruler of large areas, rounded up to the next mark; the buttons beside the
 * number move it by single steps, and it can be typed. Nothing stands there until somebody has read it.
 */

const MARKS = Object.freeze([0, 5, 10, 15, 20, 25])
let next = 0

/** @param {string|undefined} text */
const valueOf = (text) => {
  const value = Number((text ?? '').trim().replace('−', '-').replace(',', '.'))
  return (text ?? '').trim() === '' || !Number.isFinite(value) ? null : value
}

/** @param {number} value @param {number} digits */
const written = (value, digits) => String(Number(value.toFixed(digits)))

/**
 * @param {string} path
 * @param {{label: string, hint?: string, last?: string, sides?: readonly string[], unit?: string, step?: number, marks?: readonly number[]}} more
 *   `sides`: what the positive and the negative way are called, where there are two
 */
export function ruler(path, more) {
  const { label, hint = '', last = '', sides, unit = 'mm', step = 1, marks = MARKS } = more
  const id = `r${(next += 1)}`
  const digits = step < 1 ? (step < 0.2 ? 1 : 2) : 0
  const $input = h('input', { id, name: path, type: 'text', inputmode: 'decimal', autocomplete: 'off', value: site.fields[path] ?? '', 'aria-describedby': `${id}-hint`, onblur: () => flush() })
  const value = () => valueOf(site.fields[path])
  let way = (value() ?? 0) < 0 ? -1 : 1
  const $marks = h('div', { class: 'marks', role: 'group', 'aria-label': label })
  const $ways = h('div', { class: 'waysides' })
  const set = (/** @type {string} */ text) => {
    write(path, text === '' ? null : text)
    draw()
  }
  const tell = () => {
    $input.value = site.fields[path] ?? ''
    flush()
    $input.dispatchEvent(new Event('input', { bubbles: true }))
  }
  const draw = () => {
    const now = value()
    if (now !== null && now !== 0) way = now < 0 ? -1 : 1
    put($marks, marks.map((mark) => h('button', {
      type: 'button', class: 'mark', 'aria-pressed': String(now !== null && Math.abs(now) === mark), 'aria-label': `${label}: ${mark} ${unit}`,
      onclick: () => { set(written(way * mark || 0, digits)); tell(); answeredHere($input) },
    }, String(mark))))
    // A way matters only where something leans.
    put($ways, sides && sides.map((word, i) => h('button', {
      type: 'button', class: 'way', 'aria-pressed': String(now !== null && now !== 0 && (i === 0) === (way === 1)), 'aria-label': `${label}: ${word}`, disabled: !now,
      onclick: () => { way = i === 0 ? 1 : -1; set(written(way * Math.abs(value() ?? 0), digits)); tell() },
    }, word)))
  }
  const move = (/** @type {number} */ by) => { set(written((value() ?? 0) + by * step, digits)); tell() }
  $input.addEventListener('input', () => { if ($input.value !== (site.fields[path] ?? '')) set($input.value) })
  draw()
  const stepper = (/** @type {string} */ sign, /** @type {string} */ words, /** @type {number} */ by) => h('button', { type: 'button', class: 'step', 'aria-label': `${label}: ${words}`, onclick: () => move(by) }, sign)
  return h('div', { class: 'field ruler', 'data-field': path, 'data-kept': isKept(path) ? 'true' : undefined, 'data-question': path },
    h('div', { class: 'line' }, h('label', { for: id }, label), h('span', { class: 'entry' }, stepper('−', roundWords.less, -1), $input, h('span', { class: 'unit' }, unit), stepper('+', roundWords.more, 1))),
    $marks, sides && $ways, h('p', { class: 'hint', id: `${id}-hint` }, [last && roundWords.lastTime(last), hint].filter(Boolean).join(' ')))
}

/** Tells the page that a question was answered by one touch, so that it can show the next. @param {HTMLElement} $at */
export function answeredHere($at) {
  $at.dispatchEvent(new CustomEvent('answered', { bubbles: true }))
}
