// @ts-check
import { language } from '../words/language.js'

/** Numbers as they are read out on site. The app rounds toward safety; here they are only written. */

/** @param {number|null|undefined} value @param {number} [digits] */
export function number(value, digits = 1) {
  return typeof value === 'number' && Number.isFinite(value) ? value.toFixed(digits).replace('-', '−') : '–'
}

/** A force as a mass, for people who lift. @param {number} kn */
export function mass(kn) {
  const kg = (kn * 1000) / 9.80665
  return kg >= 1000 ? `${number(kg / 1000)} t` : `${Math.round(kg / 10) * 10} kg`
}

/** @param {number} kn */
export function force(kn) {
  return `${number(kn)} kN, ${mass(kn)}`
}

/** A share used, rounded up: 99.6 % of a limit is not written as reached, nor 100.4 % as kept. @param {number} use */
export function percent(use) {
  const whole = use > 1 ? Math.ceil(use * 100 - 1e-9) : Math.round(use * 100)
  return whole === 100 && use < 1 - 1e-9 ? `${(Math.floor(use * 1000) / 10).toFixed(1)} %` : `${whole} %`
}

/** A value with its unit, with as many digits as it bears. @param {number} value @param {string} unit */
export function amount(value, unit) {
  const size = Math.abs(value)
  const digits = unit === 'mm' ? (size < 100 ? 1 : 0) : size >= 100 ? 0 : size >= 10 ? 1 : 2
  // A share of room has no unit.
  return [number(value, digits), /[a-z°%]/i.test(unit) && unit].filter(Boolean).join(' ')
}

/** A figure as typed, with or without mm behind it; nothing where it is none. @param {string} typed @returns {number|null} */
export function figure(typed) {
  const found = /^[-−]?\d+(?:[.,]\d+)?(?=\s*(?:mm)?$)/.exec(typed.trim())
  return found ? Number(found[0].replace(',', '.').replace('−', '-')) : null
}

/** @param {number} m */
export const inMm = (m) => Math.round(m * 1000)

/** Dates are written in the language of the screens, in the way of the reader's own country where that speaks it. */
const own = navigator.languages?.find((tag) => tag.toLowerCase().startsWith(language))
const locale = own ?? (language === 'de' ? 'de-DE' : 'en-GB')

/** A day as 2026-03-02 becomes a day as people say it; the year stands where it is another one. @param {string} text */
export function dated(text) {
  return text.replace(/(?<![\w-])(\d{4})-(\d{2})-(\d{2})(?![\w-]|:)/g, (iso, year) => {
    const date = new Date(`${iso}T12:00:00`)
    if (Number.isNaN(date.getTime())) return iso
    return date.toLocaleDateString(locale, { day: 'numeric', month: 'short', ...(Number(year) !== new Date().getFullYear() && { year: 'numeric' }) })
  })
}

/** A time as people write it. @param {string|null|undefined} iso */
export function time(iso) {
  if (!iso) return ''
  const date = new Date(iso)
  return Number.isNaN(date.getTime()) ? String(iso) : date.toLocaleString(locale, { dateStyle: 'medium', timeStyle: 'short' })
}

/** @param {string} iso */
export function day(iso) {
  const date = new Date(iso)
  return Number.isNaN(date.getTime()) ? String(iso) : date.toLocaleDateString(locale, { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' })
}

/** @param {string} iso */
export function clock(iso) {
  const date = new Date(iso)
  return Number.isNaN(date.getTime()) ? '' : date.toLocaleTimeString(locale, { hour: '2-digit', minute: '2-digit' })
}

/** @param {number} bytes */
export function size(bytes) {
  return bytes >= 1e6 ? `${number(bytes / 1e6)} MB` : `${Math.ceil(bytes / 1000)} kB`
}
