// @ts-check
import { h } from '../../parts/dom.js'
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
  // A size that still lacks its way is no reading: nobody leans to the right by default.
  const sizePath = `${path}_size`
  const value = () => valueOf(site.fields[path])
  const size = () => value() ?? valueOf(site.fields[sizePath])
  /** @type {-1|0|1} */
  let way = 0
  if (!site.fields[path] && site.fields[sizePath]) $input.value = site.fields[sizePath] ?? ''
  const $marks = marks.map((mark) => h('button', {
    type: 'button', class: 'mark', 'aria-label': `${label}: ${mark} ${unit}`,
    onclick: () => { set(String(mark)); tell(); if (value() !== null) answeredHere($input) },
  }, String(mark)))
  const $ways = (sides ?? []).map((word, i) => h('button', {
    type: 'button', class: 'way', 'aria-label': `${label}: ${word}`,
    onclick: () => {
      way = i === 0 ? 1 : -1
      const to = size()
      // A measure with its unit is no plain number here: it keeps its unit and takes this way.
      const text = (site.fields[path] ?? site.fields[sizePath] ?? '').trim().replace(/^[-−+]\s*/, '')
      if (to) { set(written(Math.abs(to), digits)); tell(); answeredHere($input) } else if (to === null && text) { set(text); tell(); answeredHere($input) } else draw()
    },
  }, word))
  const set = (/** @type {string} */ text) => {
    const number = valueOf(text)
    // A sign says the way; a measure with its unit is left to the app, which reads the sign too.
    const signed = /^\s*[-−+]/.test(text)
    const lacks = Boolean(sides) && !signed && way === 0 && text.trim() !== '' && number !== 0
    const plain = sides && !signed && number !== null
    write(path, text === '' || lacks ? null : plain ? written(way * number || 0, digits) : sides && !signed && way < 0 && text.trim() !== '' ? `-${text.trim()}` : text)
    if (sides) write(sizePath, lacks ? text : null)
    draw()
  }
  const tell = () => {
    $input.value = site.fields[path] ?? site.fields[sizePath] ?? ''
    flush()
    $input.dispatchEvent(new Event('input', { bubbles: true }))
  }
  const draw = () => {
    const now = value()
    if (now !== null && now !== 0) way = now < 0 ? -1 : 1
    const shown = size()
    // The buttons stay, so that the focus stays on the one that was pressed.
    $marks.forEach(($mark, i) => $mark.setAttribute('aria-pressed', String(shown !== null && Math.abs(shown) === marks[i])))
    $ways.forEach(($way, i) => {
      $way.setAttribute('aria-pressed', String(way !== 0 && now !== 0 && (i === 0) === (way === 1)))
      $way.classList.toggle('wanted', Boolean(shown) && way === 0)
    })
  }
  const move = (/** @type {number} */ by) => {
    const to = (value() ?? size() ?? 0) + by * step
    set(sides && value() ? `${to < 0 ? '-' : '+'}${written(Math.abs(to), digits)}` : written(to, digits))
    if (site.fields[path]?.startsWith('+')) write(path, site.fields[path].slice(1))
    tell()
  }
  $input.addEventListener('input', () => { if ($input.value !== (site.fields[path] ?? site.fields[sizePath] ?? '')) set($input.value) })
  draw()
  const stepper = (/** @type {string} */ sign, /** @type {string} */ words, /** @type {number} */ by) => h('button', { type: 'button', class: 'step', 'aria-label': `${label}: ${words}`, onclick: () => move(by) }, sign)
  return h('div', { class: 'field reads', 'data-field': path, 'data-kept': isKept(path) ? 'true' : undefined, 'data-question': path },
    h('div', { class: 'line' }, h('label', { for: id }, label), h('span', { class: 'entry' }, stepper('−', roundWords.less, -1), $input, h('span', { class: 'unit' }, unit), stepper('+', roundWords.more, 1))),
    h('div', { class: 'marks', role: 'group', 'aria-label': label }, $marks), sides && h('div', { class: 'waysides' }, $ways), h('p', { class: 'hint', id: `${id}-hint` }, [last && roundWords.lastTime(last), hint].filter(Boolean).join(' ')))
}

/** Tells the page that a question was answered by one touch, so that it can show the next. @param {HTMLElement} $at */
export function answeredHere($at) {
  $at.dispatchEvent(new CustomEvent('answered', { bubbles: true }))
}
