// @ts-check
import { orderWords, supportWords, words } from '../words.js'
import { mass, number } from './numbers.js'
import { site } from './site.js'

/** What goes to a builder or a hire yard as plain text, with whose wall it is and the caution under it. */

/** @typedef {import('./types.js').Option} Option */
/** @typedef {import('./types.js').Question} Question */

/** @param {string[][]} sections */
function letter(sections) {
  const head = [[site.demo && words.demo, site.name, site.place].filter(Boolean).join(' · ')]
  return [head, ...sections, [words.caution]].filter((lines) => lines.length > 0).map((lines) => lines.join('\n')).join('\n\n')
}

/** @param {Option} option */
export const weightOf = (option) => mass((option.parts.reduce((sum, part) => sum + part.count * part.mass_kg, 0) * 9.80665) / 1000)

/** @param {number} kg */
export const kilograms = (kg) => `${number(kg, kg < 0.1 ? 3 : kg < 10 ? 1 : 0)} kg`

/** @param {Option} option */
function hireLines(option) {
  return [`${supportWords.listTitle}: ${supportWords.listMass(weightOf(option))}`, ...option.parts.map((part) => `${part.count} × ${part.what}, ${kilograms(part.mass_kg)}`)]
}

/** @param {Option} option */
export const hireLetter = (option) => letter([hireLines(option)])

/** @param {Question[]} questions @param {Option|null} option */
export function questionsLetter(questions, option) {
  const asked = questions.flatMap((question, i) => [`${i + 1}. ${question.words}`, `   ${orderWords.because} ${question.why}`])
  return letter([[orderWords.questions, ...asked], option ? hireLines(option) : []])
}
