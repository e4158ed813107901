// @ts-check
import { fieldText, screenOf } from '../fields.js'
import { words } from '../words.js'
import { h, put } from './dom.js'
import { site } from './site.js'

/** @typedef {import('./types.js').Problem} Problem */

/** The field that a path means on this page: itself, else the first below it. @param {string} path */
function fieldAt(path) {
  const exact = document.querySelector(`main [data-field="${CSS.escape(path)}"]`)
  return exact ?? (path ? document.querySelector(`main [data-field^="${CSS.escape(`${path}/`)}"]`) : null)
}

/** Brings a field into view, opens what hides it, and puts the caret there. @param {string} path @returns {boolean} */
export function goToField(path) {
  const $field = fieldAt(path)
  if (!$field) return false
  for (let $up = $field.parentElement; $up; $up = $up.parentElement) if ($up instanceof HTMLDetailsElement) $up.open = true
  const $input = /** @type {HTMLElement|null} */ ($field.querySelector('input, select, textarea, button'))
  $field.scrollIntoView({ block: 'center' })
  $input?.focus({ preventScroll: true })
  return true
}

/** @param {string} path */
export const linkTo = (path) => `#${site.id}/${screenOf(path)}${path}`

/** @param {Problem} problem */
const isMissing = (problem) => problem.wrong === 'missing'

/** @param {Problem} problem */
const wordsOf = (problem) => `${problem.wrong}. ${words.right(problem.right)}`

/** Shows beside each field what is wrong with it and what is taken for it, and lists the problems. @param {HTMLElement} $list */
export function showProblems($list) {
  const problems = site.figures?.problems ?? []
  document.querySelectorAll('main .field > .wrong, main .field > .taken').forEach(($line) => { /** @type {HTMLElement} */ ($line).hidden = true })
  document.querySelectorAll('main [aria-invalid]').forEach(($input) => $input.removeAttribute('aria-invalid'))
  for (const problem of problems) beside(problem)
  for (const taken of site.figures?.proposal?.assumptions ?? []) {
    const $field = document.querySelector(`main [data-field="${CSS.escape(taken.path)}"]`)
    const $taken = $field?.querySelector(':scope > .taken')
    if (!($taken instanceof HTMLElement)) continue
    // Some assumptions hang on what was said here, and change nothing of it.
    const said = (site.fields[taken.path] ?? '').trim() !== ''
    $taken.textContent = said ? words.takenWith(taken.words) : $field?.querySelector('input[type=text]') ? words.taken(taken.words) : words.takenOnly(taken.words)
    $taken.hidden = false
  }
  const missing = problems.filter(isMissing)
  const wrong = problems.filter((problem) => !isMissing(problem))
  put($list,
    wrong.length > 0 && h('section', { class: 'wrongs' }, h('h2', {}, words.wrong(wrong.length)), h('ul', {}, wrong.map((problem) => item(problem, wordsOf(problem))))),
    missing.length > 0 && h('section', { class: 'missing' }, h('h2', {}, words.needed(missing.length)), h('ul', {}, missing.map((problem) => item(problem, '')))))
}

/** @param {Problem} problem */
function beside(problem) {
  const $field = fieldAt(problem.path)
  const $wrong = $field?.querySelector(isMissing(problem) ? ':scope > .taken' : ':scope > .wrong')
  if (!($wrong instanceof HTMLElement)) return
  $wrong.textContent = isMissing(problem) ? words.neededHere : wordsOf(problem)
  $wrong.hidden = false
  if (!isMissing(problem)) $field?.querySelector('input, select')?.setAttribute('aria-invalid', 'true')
}

/** @param {Problem} problem @param {string} said */
function item(problem, said) {
  const name = problem.path ? fieldText(problem.path, site.fields).full : ''
  const label = [name, said].filter(Boolean).join(': ')
  if (!problem.path) return h('li', {}, label)
  return h('li', {}, h('a', { href: linkTo(problem.path), onclick: (/** @type {Event} */ event) => { if (goToField(problem.path)) event.preventDefault() } }, label))
}
