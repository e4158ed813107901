// @ts-check
/**
 * Builds an element. Text goes in as text nodes only, never as markup: notes and names are typed by people.
 *
 * @param {string} tag
 * @param {Record<string, any>} [props] attributes; `on…` are listeners; false and undefined are left out
 * @param {...(Node|string|number|null|undefined|false|any[])} children
 * @returns {any}
 */
export function h(tag, props = {}, ...children) {
  const $element = document.createElement(tag)
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue
    if (name.startsWith('on')) $element.addEventListener(name.slice(2), value)
    else if (value === true) $element.setAttribute(name, '')
    else $element.setAttribute(name, String(value))
  }
  for (const child of children.flat(Infinity)) {
    if (child === undefined || child === null || child === false) continue
    $element.append(child instanceof Node ? child : document.createTextNode(String(child)))
  }
  return $element
}

/**
 * A drawing from the app as an element.
 * @param {string|null|undefined} text @param {string} [name]
 */
export function sketch(text, name = 'sketch') {
  const $holder = h('div', { class: name })
  if (!text) return $holder
  const parsed = new DOMParser().parseFromString(text, 'image/svg+xml')
  if (parsed.documentElement.localName === 'svg') $holder.append(document.importNode(parsed.documentElement, true))
  return $holder
}

/** @param {number} value @param {number} [digits] */
export function number(value, digits = 1) {
  return Number.isFinite(value) ? value.toFixed(digits) : '–'
}

/** A force in kN with its mass beside it. @param {number} kn */
export function force(kn) {
  const kg = (kn * 1000) / 9.81
  return `${number(kn)} kN, ${kg >= 1000 ? `${number(kg / 1000)} t` : `${Math.round(kg / 10) * 10} kg`}`
}

/** @param {string} iso */
export function time(iso) {
  const date = new Date(iso)
  return Number.isNaN(date.getTime()) ? String(iso) : date.toLocaleString([], { dateStyle: 'medium', timeStyle: 'short' })
}
