// @ts-check
import { fieldText } from '../fields.js'
import { words } from '../words.js'
import { h, put, quiet } from './dom.js'
import { flush, isKept, site, write } from './site.js'

/**
 * @typedef {object} More
 * @property {string} [label] in place of the field's own
 * @property {string} [unit]
 * @property {string} [hint]
 * @property {string} [minus] what a minus means
 * @property {string} [value] in place of what is kept
 * @property {(value: string) => void} [changed] takes the place of writing the field
 * @property {string} [prefix] the row's name, said by the heading above
 */

let next = 0

/** @param {string} path @param {More} more */
function textOf(path, more) {
  const own = more.label === undefined ? fieldText(path, site.fields) : { label: more.label, prefix: '', full: more.label }
  const text = { unit: '', hint: '', minus: '', ...own, ...more }
  return { ...text, id: `f${(next += 1)}`, spoken: text.prefix ? [quiet(text.prefix), capital(text.label)] : text.label }
}

/** @param {string} text */
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1)

/** Ids of what stands under a field, for who listens. @param {string} id @param {string} hint */
const described = (id, hint) => `${hint ? `${id}-hint ` : ''}${id}-taken ${id}-wrong`

/** What stands under a field: how to find it out, what is taken while it is empty, what is wrong. @param {string} id @param {string} hint */
const under = (id, hint) => [
  hint && h('p', { class: 'hint', id: `${id}-hint` }, hint),
  h('p', { class: 'hint taken', id: `${id}-taken`, hidden: true }),
  h('p', { class: 'wrong', id: `${id}-wrong`, hidden: true }),
]

/**
 * What is taken while nobody says falls away with the answer itself. Left to the figures, which come a moment later, it would
 * pull the next answers out from under a finger that is on its way.
 * @param {string} id
 */
function hush(id) {
  const $taken = document.getElementById(`${id}-taken`)
  if ($taken) $taken.hidden = true
}

/** @param {string} path */
const kept = (path) => (isKept(path) ? 'true' : undefined)

/**
 * A number with its unit, kept as typed.
 * @param {string} path @param {More} [more]
 * @returns {HTMLElement}
 */
export function quantity(path, more = {}) {
  const { id, spoken, full, unit, hint, minus, value, changed } = textOf(path, more)
  const $input = h('input', {
    id, name: path, type: 'text', inputmode: 'decimal', autocomplete: 'off', value: value ?? site.fields[path] ?? '',
    'aria-describedby': described(id, hint),
    oninput: () => {
      if (changed) changed($input.value)
      else write(path, $input.value)
      turned()
    },
    onblur: () => flush(),
  })
  const negative = () => /^\s*[-−]/.test($input.value)
  // Number pads of phones have no minus.
  const $minus = minus && h('button', {
    type: 'button', class: 'minus', 'aria-pressed': 'false', 'aria-label': `${full}: ${minus}`,
    onclick: () => {
      $input.value = negative() ? $input.value.replace(/^\s*[-−]\s*/, '') : `−${$input.value.trim()}`
      write(path, $input.value)
      turned()
      flush()
    },
  }, minus)
  const $unit = h('span', { class: 'unit' }, unit)
  const turned = () => {
    if ($minus) $minus.setAttribute('aria-pressed', String(negative()))
    // What is typed with a unit of its own is seen whole, and not with a second unit beside it.
    $input.style.setProperty('width', `${Math.min(12, Math.max(5, $input.value.length + 1))}ch`)
    $unit.classList.toggle('typed', /[a-z'"″′]/i.test($input.value))
  }
  turned()
  return h('div', { class: 'field', 'data-field': path, 'data-kept': kept(path) },
    h('div', { class: 'line' }, h('label', { for: id }, spoken), h('span', { class: 'entry' }, $minus, $input, $unit)), under(id, hint))
}

/**
 * Words, as typed.
 * @param {string} path @param {More} [more]
 * @returns {HTMLElement}
 */
export function text(path, more = {}) {
  const { id, spoken, hint } = textOf(path, more)
  const $input = h('input', {
    id, name: path, type: 'text', autocomplete: 'off', class: 'wide', value: site.fields[path] ?? '', 'aria-describedby': described(id, hint),
    oninput: () => write(path, $input.value),
    onblur: () => flush(),
  })
  return h('div', { class: 'field', 'data-field': path, 'data-kept': kept(path) }, h('label', { for: id }, spoken), $input, under(id, hint))
}

/**
 * One of many, as a list.
 * @param {string} path @param {readonly (readonly string[])[]} options @param {More} [more]
 * @returns {HTMLElement}
 */
export function pick(path, options, more = {}) {
  const { id, spoken, hint, value, changed } = textOf(path, more)
  const chosen = value ?? site.fields[path] ?? ''
  const $select = h('select', {
    id, name: path, 'aria-describedby': described(id, hint),
    onchange: () => {
      hush(id)
      if (changed) changed($select.value)
      else write(path, $select.value === '' ? null : $select.value)
      flush()
    },
  }, !options.some(([one]) => one === '') && h('option', { value: '' }, words.choose),
  options.map(([one, label]) => h('option', { value: one, selected: chosen === one }, label)))
  return h('div', { class: 'field', 'data-field': path, 'data-kept': kept(path) },
    h('label', { for: id }, spoken), h('span', { class: 'pick' }, $select), under(id, hint))
}

/**
 * One of a few, as large areas side by side; none is chosen beforehand.
 * @param {string} path @param {readonly (readonly string[])[]} options @param {More} [more]
 * @returns {HTMLElement}
 */
export function choice(path, options, more = {}) {
  const { id, spoken, hint, value, changed } = textOf(path, more)
  const chosen = value ?? site.fields[path]
  return h('fieldset', { class: 'field', 'data-field': path, 'data-kept': kept(path), 'aria-describedby': described(id, hint) },
    h('legend', {}, spoken),
    h('div', { class: 'answers', 'data-count': options.length }, options.map(([one, label]) => h('label', {}, h('input', {
      type: 'radio', name: path, value: one, checked: chosen === one,
      onchange: () => {
        hush(id)
        if (changed) changed(one)
        else write(path, one)
        flush()
      },
    }), label))), under(id, hint))
}

/** Marks a field as on its way or kept. @param {string} path @param {boolean} is */
export function markKept(path, is) {
  const $field = document.querySelector(`[data-field="${CSS.escape(path)}"]`)
  if ($field instanceof HTMLElement) $field.dataset.kept = String(is)
}

/**
 * A list of things to add to and take from.
 * @param {string} title @param {number[]} list @param {string} addLabel
 * @param {{name: (row: number) => string, row: (row: number) => any, add: () => void, drop: (row: number) => void}} how
 */
export function rowList(title, list, addLabel, how) {
  const $section = h('section', { class: 'rows' }, title && h('h3', {}, title))
  const shown = list.map((row) => h('div', { class: 'onerow', role: 'group', 'aria-label': how.name(row) },
    h('div', { class: 'rowname' }, h('strong', {}, how.name(row)), h('button', { class: 'small', type: 'button', onclick: () => how.drop(row), 'aria-label': `${words.takeOut}: ${how.name(row)}` }, words.takeOut)),
    how.row(row)))
  put($section, ...$section.childNodes, shown, h('button', { class: 'ask', type: 'button', onclick: how.add }, addLabel))
  return $section
}
