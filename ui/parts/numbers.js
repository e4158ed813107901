// @ts-check
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

/** @param {number} m */
export const inMm = (m) => Math.round(m * 1000)

/** A time as people write it. @param {string|null|undefined} iso */
export function time(iso) {
  if (!iso) return ''
  const date = new Date(iso)
  return Number.isNaN(date.getTime()) ? String(iso) : date.toLocaleString([], { dateStyle: 'medium', timeStyle: 'short' })
}

/** @param {string} iso */
export function day(iso) {
  const date = new Date(iso)
  return Number.isNaN(date.getTime()) ? String(iso) : date.toLocaleDateString([], { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' })
}

/** @param {string} iso */
export function clock(iso) {
  const date = new Date(iso)
  return Number.isNaN(date.getTime()) ? '' : date.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' })
}

/** @param {number} bytes */
export function size(bytes) {
  return bytes >= 1e6 ? `${number(bytes / 1e6)} MB` : `${Math.ceil(bytes / 1000)} kB`
}
