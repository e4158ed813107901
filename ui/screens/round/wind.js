// @ts-check
import { h, put } from '../../parts/dom.js'
import { choice, pick, quantity } from '../../parts/field.js'
import { day, number } from '../../parts/numbers.js'
import { site } from '../../parts/site.js'
import { roundWords } from '../../words.js'

/** A gust in whatever unit the forecast has, or by what can be seen. */

/**
 * The upper end of each force's steady wind, m/s: the Beaufort scale's table of equivalent speeds, read as text on public
 * weather pages that agree in every figure (the WMO's own manual was not seen). Force 12 has no upper end: 36.9 m/s was the
 * old one, from memory.
 */
const UPPER_M_S = Object.freeze([0.2, 1.5, 3.3, 5.4, 7.9, 10.7, 13.8, 17.1, 20.7, 24.4, 28.4, 32.6, 36.9])
/** A gust over a steady wind, between houses: own judgement, on the safe side of what forecasts give as the usual ratio. */
const GUST_OVER_STEADY = 1.7

const UNIT = '/round/gust_unit'
const TYPED = '/round/gust'
const FORCE = '/round/gust_force'

const unitNow = () => site.fields[UNIT] ?? 'm/s'

/** A force's gust, m/s. @param {number} force */
const gustOf = (force) => (UPPER_M_S[force] ?? 0) * GUST_OVER_STEADY

/** The gust as the app reads it, with its unit; nothing said is null. @returns {string|null} */
export function gustText() {
  if (unitNow() === 'force') return site.fields[FORCE] ? `${gustOf(Number(site.fields[FORCE])).toFixed(1)} m/s` : null
  const text = (site.fields[TYPED] ?? '').trim()
  if (!text) return null
  // Somebody may have typed the unit too.
  return /[a-z]/i.test(text) ? text : `${text} ${unitNow()}`
}

/** @returns {HTMLElement} */
export function windView() {
  const $how = h('div', {})
  const draw = () => put($how, unitNow() === 'force'
    ? [pick(FORCE, roundWords.forces.map((words, force) => [String(force), words]), { label: roundWords.force }), h('p', { class: 'hint' }, site.fields[FORCE] ? roundWords.forceGust(number(gustOf(Number(site.fields[FORCE])), 0)) : roundWords.forceHint)]
    : quantity(TYPED, { label: roundWords.wind, unit: unitNow(), hint: roundWords.windHint }))
  draw()
  const $units = choice(UNIT, roundWords.gustUnits, { label: roundWords.gustUnit, value: unitNow() })
  $units.addEventListener('change', draw)
  $how.addEventListener('change', () => { if (unitNow() === 'force') draw() })
  const before = site.rounds.filter((done) => typeof done.job_checks?.wind_m_s === 'number').slice(0, 5)
  return h('section', { class: 'wind' }, h('h3', {}, roundWords.gust), $units, $how,
    before.length > 0 && h('details', { class: 'fold' }, h('summary', { 'data-open': roundWords.open1, 'data-close': roundWords.shut }, roundWords.gustsBefore),
      h('ul', { class: 'plainlist' }, before.map((done) => h('li', {}, `${day(done.at)}: ${number(done.job_checks.wind_m_s, 0)} m/s`)))))
}
