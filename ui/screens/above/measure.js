// @ts-check
/** Lengths as people type them, for drawing only: what is worked out is read by the app itself. */

/** @type {Readonly<Record<string, number>>} */
const METRES = Object.freeze({ m: 1, cm: 0.01, mm: 0.001, ft: 0.3048, "'": 0.3048, '′': 0.3048, in: 0.0254, '"': 0.0254, '″': 0.0254 })

/** A length in m, or null where it cannot be read. @param {string|undefined} text @param {string} [own] the field's own unit */
export function metres(text, own = 'm') {
  const plain = (text ?? '').trim().replace('−', '-').replaceAll(',', '.')
  if (/^-?\d*\.?\d+$/.test(plain)) return Number(plain) * METRES[own]
  const parts = [...plain.matchAll(/(-?\d*\.?\d+)\s*(mm|cm|m|ft|in|['"′″])/g)]
  if (parts.length === 0) return null
  return parts.reduce((sum, [, value, unit]) => sum + Number(value) * METRES[unit], 0)
}

/** As it is typed into a field: to the nearest 5 cm where it was dragged. @param {number} m */
export const asTyped = (m) => String(Math.round(m * 20) / 20 + 0)
