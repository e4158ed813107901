// @ts-check
import { tongue } from '../said.js'
import { orderWords, supportWords, words } from '../words.js'
import { mass, number } from './numbers.js'
import { site } from './site.js'

/** What goes to a builder or a hire yard as plain text, with whose wall it is and the caution under it. */

/** @typedef {import('./types.js').Option} Option */
/** @typedef {import('./types.js').Question} Question */

/** Sections as plain text. @param {string[][]} sections */
export function letter(sections) {
  const head = [[site.demo && words.demo, site.name, site.place].filter(Boolean).join(' · ')]
  return [head, ...sections, [words.caution]].filter((lines) => lines.length > 0).map((lines) => lines.join('\n')).join('\n\n')
}

/** The sum as it stands in the list's own derivation and beside the other arrangements: whole kilograms. @param {Option} option */
export function weightOf(option) {
  const kg = option.parts.reduce((sum, part) => sum + part.count * part.mass_kg, 0)
  return kg < 1000 ? `${Math.round(kg)} kg` : mass((kg * 9.80665) / 1000)
}

/** @param {number} kg */
export const kilograms = (kg) => `${number(kg, kg < 0.1 ? 3 : kg < 10 ? 1 : 0)} kg`

/**
 * Counts, sizes closed and open, weights, weeks, what to look at, and the way home.
 * @param {Option} option @param {import('./types.js').Hire|null} [hire]
 */
function hireLines(option, hire = null) {
  const head = `${supportWords.listTitle}: ${supportWords.listMass(weightOf(option))}`
  if (!hire) return [head, ...option.parts.map((part) => `${part.count} × ${tongue(part.what)}, ${kilograms(part.mass_kg)}`)]
  const line = (/** @type {import('./types.js').HireLine} */ one) => {
    const range = one.open_m !== null && one.length_m !== null ? `, ${supportWords.closedOpen(number(one.length_m, 2), number(one.open_m, 2), one.what.startsWith('spare') ? '' : one.stands_m.map((at) => number(at, 3)).join(', '))}` : ''
    return `${one.count} × ${tongue(one.what)}${range}, ${kilograms(one.mass_kg)}${one.count > 1 ? ` ${supportWords.each}` : ''}`
  }
  const kinds = [...new Set(hire.lines.map((one) => one.kind))].filter((kind) => kind in supportWords.atCounter)
  return [head, supportWords.weeks(hire.weeks, number(hire.days, 0)), ...hire.lines.map(line), `${supportWords.counter}:`, ...kinds.map((kind) => supportWords.atCounter[/** @type {'prop'} */ (kind)]),
    supportWords.car(number(hire.car_m, 1), number(hire.car_kg, 0), hire.trips), ...(hire.too_long.length > 0 ? [`${supportWords.carNot} ${hire.too_long.join('; ')}.`] : [])]
}

/** @param {Option} option @param {import('./types.js').Hire|null} [hire] */
export const hireLetter = (option, hire = null) => letter([hireLines(option, hire)])

/** @param {Question[]} questions @param {Option|null} option */
export function questionsLetter(questions, option) {
  const asked = questions.flatMap((question, i) => [`${i + 1}. ${question.words}`, `   ${orderWords.because} ${question.why}`])
  return letter([[orderWords.questions, ...asked], option ? hireLines(option) : []])
}
