// @ts-check
import { h } from './dom.js'
import { flush, onKept, site, write } from './site.js'
import { words } from '../words.js'

let next = 0

/** Marks fields as kept when the app has confirmed them. @param {HTMLElement} $root */
export function watchKept($root) {
  onKept((field, kept) => {
    const $field = $root.querySelector(`[data-field="${CSS.escape(field)}"]`)
    if ($field instanceof HTMLElement) $field.dataset.kept = String(kept)
  })
}

const tick = () => h('span', { class: 'tick', role: 'img', 'aria-label': 'kept' }, ' ✓')

/** Holder of one field with its label, its hint, and room for what is wrong. */
function holder(path, label, id, hint, ...children) {
  return h('div', { class: 'field', 'data-field': path, 'data-kept': path in site.fields ? 'true' : undefined },
    h('label', { for: id }, label, tick()), ...children,
    hint && h('p', { class: 'hint', id: `${id}-hint` }, hint), h('p', { class: 'hint taken', hidden: true }), h('p', { class: 'wrong', id: `${id}-wrong`, hidden: true }))
}

/**
 * A number with its unit, kept as typed.
 * @param {string} path @param {string} label @param {string} unit @param {string} [hint]
 */
export function quantity(path, label, unit, hint) {
  const id = `f${(next += 1)}`
  const $input = h('input', {
    id, name: path, type: 'text', inputmode: 'decimal', autocomplete: 'off', value: site.fields[path] ?? '',
    'aria-describedby': `${id}-wrong${hint ? ` ${id}-hint` : ''}`,
    oninput: () => write(path, $input.value),
    onblur: () => flush(),
  })
  return holder(path, label, id, hint, h('div', { class: 'row' }, $input, h('span', { class: 'unit' }, unit)))
}

/** Text. @param {string} path @param {string} label @param {string} [hint] */
export function text(path, label, hint) {
  const id = `f${(next += 1)}`
  const $input = h('input', {
    id, name: path, type: 'text', autocomplete: 'off', value: site.fields[path] ?? '', 'aria-describedby': `${id}-wrong`,
    oninput: () => write(path, $input.value),
    onblur: () => flush(),
  })
  return holder(path, label, id, hint, $input)
}

/** One of many, as a list. @param {string} path @param {string} label @param {readonly (readonly string[])[]} options @param {string} [hint] @param {(value: string) => void} [changed] */
export function select(path, label, options, hint, changed) {
  const id = `f${(next += 1)}`
  const $select = h('select', { id, name: path, 'aria-describedby': `${id}-wrong`, onchange: () => { write(path, $select.value === '' ? null : $select.value); flush(); changed?.($select.value) } },
    !options.some(([value]) => value === '') && h('option', { value: '' }, 'Choose'),
    options.map(([value, label]) => h('option', { value, selected: (site.fields[path] ?? '') === value }, label)))
  return holder(path, label, id, hint, $select)
}

/**
 * One of a few, as large areas; none is chosen beforehand.
 * @param {string} path @param {string} label @param {readonly (readonly string[])[]} options
 * @param {{hint?: string, value?: string, changed?: (value: string) => void}} [more] `changed` takes the place of writing the field
 */
export function choice(path, label, options, more = {}) {
  const id = `f${(next += 1)}`
  const chosen = more.value ?? site.fields[path]
  return h('fieldset', { class: 'field', 'data-field': path, 'data-kept': path in site.fields ? 'true' : undefined, 'aria-describedby': `${id}-wrong` },
    h('legend', {}, label, tick()),
    h('div', { class: 'answers' }, options.map(([value, name]) => h('label', {},
      h('input', { type: 'radio', name: path, value, checked: chosen === value, onchange: () => { if (more.changed) more.changed(value); else write(path, value); flush() } }), name))),
    more.hint && h('p', { class: 'hint' }, more.hint), h('p', { class: 'hint taken', hidden: true }), h('p', { class: 'wrong', id: `${id}-wrong`, hidden: true }))
}

/** Shows beside each field what is wrong with it and what was taken, and lists the problems at the top. @param {HTMLElement} $root @param {any} figures @param {HTMLElement} $list */
export function showProblems($root, figures, $list) {
  $root.querySelectorAll('.field > .wrong').forEach(($wrong) => { /** @type {HTMLElement} */ ($wrong).hidden = true })
  $root.querySelectorAll('[aria-invalid]').forEach(($input) => $input.removeAttribute('aria-invalid'))
  $root.querySelectorAll('.taken').forEach(($taken) => { /** @type {HTMLElement} */ ($taken).hidden = true })
  const problems = figures?.problems ?? []
  const items = problems.map((/** @type {any} */ problem) => {
    const $field = $root.querySelector(`[data-field="${CSS.escape(problem.path)}"]`)
    const said = `${problem.wrong}. Right: ${problem.right}.`
    if ($field) {
      const $wrong = /** @type {HTMLElement} */ ($field.querySelector('.wrong'))
      $wrong.textContent = said
      $wrong.hidden = false
      const $input = $field.querySelector('input, select')
      $input?.setAttribute('aria-invalid', 'true')
      return h('li', {}, h('a', { href: '#', onclick: (/** @type {Event} */ event) => { event.preventDefault(); /** @type {any} */ ($input)?.focus() } }, `${$field.querySelector('label, legend')?.firstChild?.textContent}: ${said}`))
    }
    const missing = problem.wrong === 'missing' ? words.missing[/** @type {'/above'} */ (problem.path)] : undefined
    return h('li', {}, h('a', { href: `#${site.id}/${screenOf(problem.path)}` }, missing ?? `${fieldWords(problem.path)}: ${said}`))
  })
  const onlyMissing = problems.every((/** @type {any} */ problem) => problem.wrong === 'missing')
  $list.replaceChildren(...(items.length ? [h('section', { class: `wrongs ${onlyMissing ? 'todo' : ''}`, role: 'status' }, h('strong', {}, onlyMissing ? words.todo : words.wrong), h('ul', {}, items))] : []))
  for (const taken of figures?.proposal?.assumptions ?? []) {
    const $taken = $root.querySelector(`[data-field="${CSS.escape(taken.path)}"] > .taken`)
    if ($taken instanceof HTMLElement) { $taken.textContent = `Not said, so: ${taken.words}.`; $taken.hidden = false }
  }
}

/** Screen on which a field stands. @param {string} path */
function screenOf(path) {
  return /^\/(above|roof|points|site)/.test(path) ? 'above' : 'wall'
}

/** A field's path in words, for problems whose field stands on another screen. @param {string} path */
export function fieldWords(path) {
  return path.split('/').filter(Boolean).map((part) => (/^\d+$/.test(part) ? String(Number(part) + 1) : part.replace(/_(m|mm|kn|kpa|deg|kn_m2|kn_m3|n_mm2)$/, '').replaceAll('_', ' '))).join(', ') || 'the job'
}
