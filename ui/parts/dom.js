// @ts-check
import { dated } from './numbers.js'

const SVG = 'http://www.w3.org/2000/svg'

/**
 * Builds an element. Text goes in as text nodes only, never as markup: notes and names are typed by people.
 *
 * @param {string} tag
 * @param {Record<string, any>} [props] attributes; `on…` are listeners; false, null and undefined are left out
 * @param {...any} children
 * @returns {any}
 */
export function h(tag, props = {}, ...children) {
  return fill(document.createElement(tag), props, children)
}

/** The same for a part of a drawing. @param {string} tag @param {Record<string, any>} [props] @param {...any} children */
export function s(tag, props = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children)
}

/** @param {Element} $element @param {Record<string, any>} props @param {any[]} children @returns {any} */
function fill($element, props, children) {
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue
    if (name.startsWith('on')) $element.addEventListener(name.slice(2), value)
    else $element.setAttribute(name, value === true ? '' : String(value))
  }
  $element.append(...nodes(children))
  return $element
}

/** Puts children in place of what stood there. @param {Element} $element @param {...any} children */
export function put($element, ...children) {
  $element.replaceChildren(...nodes(children))
}

/** @param {any[]} children @returns {(Node|string)[]} */
function nodes(children) {
  return flat(children)
    .filter((child) => child !== undefined && child !== null && child !== false && child !== '')
    .map((child) => (child instanceof Node ? child : String(child)))
}

/** @param {any[]} list @returns {any[]} */
const flat = (list) => list.flatMap((one) => (Array.isArray(one) ? flat(one) : [one]))

/** Text for the ear only, or for a label whose row is named by the heading above. @param {string} text */
export function quiet(text) {
  return h('span', { class: 'quiet' }, text)
}

/**
 * A drawing from the app. It is parsed as SVG on its own, so that nothing in it can become a part of the page.
 * @param {string|null|undefined} text @param {string} [name]
 */
export function drawing(text, name = 'drawing') {
  const $holder = h('div', { class: name })
  if (!text) return $holder
  const { documentElement } = new DOMParser().parseFromString(text, 'image/svg+xml')
  if (documentElement.localName === 'svg') {
    // A day that stands alone is the app's own; one within a name is somebody's.
    for (const $text of documentElement.querySelectorAll('text')) if (/^\d{4}-\d{2}-\d{2}$/.test($text.textContent ?? '')) $text.textContent = dated($text.textContent ?? '')
    $holder.append(document.importNode(documentElement, true))
  }
  return $holder
}
