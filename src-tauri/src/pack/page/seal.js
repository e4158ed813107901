
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ'

/** Check character: each value weighted by a power of 2 in the field of 32 elements. @param {number[]} values */
const checkValue = (values) => values.reduce((sum, value) => {
  const doubled = (sum ^ value) << 1
  return doubled & 32 ? doubled ^ 37 : doubled
}, 0)

/** The twelve characters of a seal, without dashes. @param {string} hex */
const shortCode = (hex) => {
  const bits = BigInt(`0x${hex.slice(0, 16)}`)
  const values = Array.from({ length: 11 }, (_, place) => Number((bits >> BigInt(59 - 5 * place)) & 31n))
  return [...values, checkValue(values)].map((value) => LETTERS[value]).join('')
}

/** Reads a typed seal. @param {string} text @returns {(hex: string) => boolean} whether a hash gives it */
const readSeal = (text) => {
  const tidy = text.replace(/\s/g, '').toUpperCase()
  const digits = tidy.replace(/^UPSTAY:SEAL:1:/, '')
  if (/^[0-9A-F]{64}$/.test(digits)) return (hex) => hex === digits.toLowerCase()
  const code = tidy.replace(/[-\u2010-\u2014]/g, '').replace(/O/g, '0').replace(/[IL]/g, '1').replace(/U/g, 'V')
  const values = [...code].map((letter) => LETTERS.indexOf(letter))
  if (values.length !== 12 || values.includes(-1)) throw new Error('The seal cannot be read: it has twelve characters, in three groups of four.')
  if (checkValue(values.slice(0, 11)) !== values[11]) throw new Error('The seal cannot be read: a character is wrong. Compare it again, sign by sign.')
  return (hex) => shortCode(hex) === code
}
