// @ts-check
import { h } from '../../parts/dom.js'
import { site, write } from '../../parts/site.js'
import { measureWords as words } from '../../words.js'
import { metres } from '../above/measure.js'

/** Readings of the phone put into the answers of a round, each with its ± on the safe side. */

/** Puts a value into a ruler's field, as if it were typed there; the sign says the way. @param {string} path @param {string} text */
function enter(path, text) {
  const $input = document.querySelector(`input[name="${CSS.escape(path)}"]`)
  if (!($input instanceof HTMLInputElement)) { write(path, text); return }
  $input.value = text
  $input.dispatchEvent(new Event('input', { bubbles: true }))
}

/**
 * Leans per metre, over the length that this round measures lean over.
 * @param {string} prop @param {{key: 'along'|'across', mm_per_m: number, plus_minus_mm_per_m: number}[]} leans
 */
export function takeLean(prop, leans) {
  const over = metres(site.fields['/round/over_m'])
  if (!over) return h('p', { class: 'wrong' }, words.leanOver)
  if (leans.length === 0) return h('p', { class: 'wrong' }, words.leanNone)
  const told = leans.map(({ key, mm_per_m: lean, plus_minus_mm_per_m: within }) => {
    const mm = Math.ceil((Math.abs(lean) + within) * over - 1e-9)
    enter(`/round/${prop}/lean_${key}_mm`, `${lean < 0 ? '-' : '+'}${mm}`)
    return `${words.tiltAxis[key]} ${mm} mm ${words.ways(key, lean)}`
  })
  return h('p', { class: 'said' }, words.leanTaken(told.join(', ')))
}

/** A distance off centre. @param {string} prop @param {string} end @param {{mm: number, plus_minus_mm: number}} read */
export function takeOff(prop, end, read) {
  const mm = Math.ceil(Math.abs(read.mm) + read.plus_minus_mm - 1e-9)
  enter(`/round/${prop}/${end}_off_mm`, String(mm))
  return h('p', { class: 'said' }, words.readingTaken(`${mm} mm`))
}

/** A crack's width as a gauge of this round: the reading itself, since gauges are compared with each other. @param {string} i @param {string} named @param {{mm: number, plus_minus_mm: number}} read */
export function takeCrack(i, named, read) {
  // A gauge without a name is not kept with the round.
  const name = named || words.gauge(i)
  if (!named) enter(`/round/gauge${i}_name`, name)
  const mm = read.mm.toFixed(1)
  enter(`/round/gauge${i}_mm`, mm)
  return h('p', { class: 'said' }, words.crackTaken(name, `${mm} ± ${read.plus_minus_mm.toFixed(1)}`))
}
