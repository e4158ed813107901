// @ts-check
import { words } from '../words.js'
import { h, put } from './dom.js'
import { text } from './field.js'
import { MY_NAME, rememberName } from './name.js'
import { flush, site, write } from './site.js'

/**
 * Who holds this phone. Several people work on one job: the name stands under every entry written from here, and one press
 * changes it to somebody whose name is in the record already.
 */

/** Names in the record that are not the one of now. */
export const otherNames = () => (site.state?.names ?? []).filter((/** @type {string} */ name) => name !== (site.fields[MY_NAME] ?? '').trim())

/** @param {string} label @param {string} [hint] */
export function meField(label, hint) {
  const $field = text(MY_NAME, { label, hint })
  const $input = /** @type {HTMLInputElement} */ ($field.querySelector('input'))
  $input.addEventListener('change', () => rememberName($input.value.trim()))
  const $names = h('div', { class: 'names' })
  const draw = () => put($names, otherNames().slice(0, 6).map((/** @type {string} */ name) => h('button', { type: 'button', class: 'small', 'aria-label': words.iAm(name), onclick: () => take(name) }, name)))
  const take = (/** @type {string} */ name) => {
    $input.value = name
    write(MY_NAME, name)
    rememberName(name)
    flush()
    draw()
  }
  draw()
  $field.append($names)
  return $field
}
