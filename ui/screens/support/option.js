// @ts-check
import { atWords, checkWords } from '../../fields.js'
import { drawing, h } from '../../parts/dom.js'
import { hireLetter, kilograms, weightOf } from '../../parts/letter.js'
import { amount, force, inMm, number, percent } from '../../parts/numbers.js'
import { showLarge } from '../../parts/photo.js'
import { shareButton } from '../../parts/share.js'
import { fold, partHead, whyView, worstOfEach } from '../../parts/why.js'
import { supportWords } from '../../words.js'
import { floorLinesView } from './floor-line.js'
import { feetRows, propRows } from './rows.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').Check} Check */

/** How many kinds of figures stand on the page before the fold with all of them. */
const SHOWN = 6

/** How an option is picked among the others: by its aim, or because it is of a kind of its own. @param {Option} option */
export const pickOf = (option) => (option.by === 'engineer' ? 'engineer' : option.kind === 'brackets' ? 'brackets' : option.aim)

/** Needles or brackets and use, large. @param {Option} option */
export function optionHead(option) {
  const [count, what] = option.kind === 'brackets' ? [option.props.length, supportWords.onBrackets(option.props.length)] : [option.needles.length, supportWords.needles(option.needles.length)]
  const more = option.floor_lines.reduce((sum, line) => sum + line.props.length, 0)
  const props = more > 0 ? supportWords.propsAndLines(option.props.length, more) : supportWords.props(option.props.length)
  const apart = option.spacing_m > 0 ? `, ${supportWords.apart(inMm(option.spacing_m))}` : ''
  return [
    h('div', {}, h('div', { class: 'figure' }, h('b', {}, count), h('span', {}, what)), `${props}${apart}`),
    h('div', {}, h('div', { class: 'figure' }, h('b', {}, percent(option.worst_utilisation)), h('span', {}, 'used')), supportWords.usedLine),
  ]
}

/** Front and side, each to be enlarged. @param {{front?: string|null, side?: string|null}} drawn @param {string} kind */
export function sketches({ front, side }, kind) {
  const one = (/** @type {string|null|undefined} */ svg, /** @type {string} */ title) => svg && h('figure', { class: 'sketch' }, h('figcaption', {}, title), drawing(svg),
    h('button', { class: 'small', type: 'button', onclick: () => showLarge(title, drawing(svg)) }, supportWords.enlarge))
  return h('div', { class: 'sides sketches' }, one(front, supportWords.front), one(side, kind === 'brackets' ? supportWords.sideBracket : supportWords.side))
}

/** Everything about one option. @param {Option} option @param {boolean} passes whether it may be built from */
export function optionView(option, passes) {
  return h('div', {}, decidesView(option), partsView(option), positionsView(option), propsView(option), feetView(option), floorLinesView(option), sidewaysView(option), lostView(option), movementView(option), listView(option, passes))
}

/** The check that the proposal names, found by its name and place. @param {Option} option @returns {Check|undefined} */
function decider(option) {
  const [name, at] = option.governs.split(' at ')
  const all = [...option.checks, ...option.floor_lines.flatMap((line) => line.checks)]
  return all.find((check) => check.name === name && check.at === at) ?? worstOfEach(option.checks)[0]
}

/** @param {Option} option */
function decidesView(option) {
  const check = decider(option)
  if (!check) return null
  return h('section', {}, h('h2', {}, supportWords.decides), option.by === 'engineer' && h('p', { class: 'said' }, supportWords.byEngineer),
    h('p', { class: 'decides' }, h('strong', {}, `${checkWords(check.name)}, ${atWords(check.at)}.`), ' ', supportWords.decidesLine(amount(check.demand, check.unit), amount(check.resistance, check.unit), percent(check.utilisation))))
}

/** @param {Option} option */
function partsView(option) {
  return h('section', {}, h('h2', {}, supportWords.parts), partHead(), worstOfEach(option.checks).slice(0, SHOWN).map((check) => whyView(check, check.name)),
    fold(supportWords.allFigures(option.checks.length), () => option.checks.map((check) => whyView(check))))
}

/** @param {Option} option */
function positionsView(option) {
  if (option.kind === 'brackets') return bracketPlacesView(option)
  const [first] = option.needles
  if (!first) return null
  return h('section', {}, h('h2', {}, supportWords.positions),
    h('p', {}, supportWords.needleLine(first, option.needle_soffit_m), first.pack_mm > 0 && ` ${supportWords.pack(first.pack_mm)}`),
    h('table', {}, h('thead', {}, h('tr', {}, h('th', {}, 'Needle'), h('th', { class: 'n' }, supportWords.fromLeft), h('th', { class: 'n' }, supportWords.carries))),
      h('tbody', {}, option.needles.map((needle) => h('tr', {}, h('td', {}, needle.name), h('td', { class: 'n' }, `${inMm(needle.x_m)} mm`), h('td', { class: 'n' }, force(needle.load_kn)))))))
}

/** @param {Option} option */
function bracketPlacesView(option) {
  const [first] = option.props
  if (!first) return null
  return h('section', {}, h('h2', {}, supportWords.bracketsPlaces), h('p', {}, supportWords.bracketLine(first, option.needle_soffit_m)),
    h('table', {}, h('thead', {}, h('tr', {}, h('th', {}, 'Bracket'), h('th', { class: 'n' }, supportWords.fromLeft), h('th', { class: 'n' }, supportWords.carries))),
      h('tbody', {}, option.props.map((prop) => h('tr', {}, h('td', {}, prop.name), h('td', { class: 'n' }, `${inMm(prop.x_m ?? 0)} mm`), h('td', { class: 'n' }, force(prop.load_kn)))))))
}

/** @param {Option} option */
function propsView(option) {
  return fold(`${supportWords.propsTitle}: ${option.props.length}, ${supportWords.used(percent(Math.max(...option.props.map((prop) => prop.utilisation))))}`, [partHead(), propRows(option.props)])
}

/** @param {Option} option */
function feetView(option) {
  if (option.feet.length === 0) return null
  return fold(`${supportWords.feet}: ${supportWords.used(percent(Math.max(...option.feet.map((foot) => foot.utilisation))))}`, [partHead(supportWords.presses, supportWords.allowed), feetRows(option.feet)])
}

/** @param {Option} option */
function sidewaysView({ bracing }) {
  return fold(supportWords.sideways, [h('p', {}, supportWords.sidewaysLine(bracing)), h('ul', { class: 'plainlist' }, bracing.way.map((/** @type {string} */ line) => h('li', {}, line)))])
}

/** @param {Option} option */
function lostView({ one_lost: lost }) {
  if (lost.length === 0) return null
  const bad = lost.some((one) => one.utilisation === null || one.utilisation > 1)
  return fold(supportWords.lost, h('ul', { class: 'plainlist' }, lost.map((one) => h('li', { class: one.utilisation === null || one.utilisation > 1 ? 'wrong' : '' }, one.words))), bad)
}

/** @param {Option} option */
function movementView({ movement }) {
  return fold(supportWords.movement, [h('p', {}, supportWords.movementLine(movement)), h('p', {}, supportWords.turnsLine(number(movement.turns)))])
}

/** Nothing is hired by the list of an arrangement that does not pass. @param {Option} option @param {boolean} passes */
function listView(option, passes) {
  return fold(`${supportWords.list}: ${supportWords.listMass(weightOf(option))}`, [
    h('table', {}, h('thead', {}, h('tr', {}, h('th', {}, supportWords.what), h('th', { class: 'n' }, supportWords.howMany), h('th', { class: 'n' }, supportWords.each))),
      h('tbody', {}, option.parts.map((part) => h('tr', {}, h('td', {}, part.what), h('td', { class: 'n' }, part.count), h('td', { class: 'n' }, kilograms(part.mass_kg)))))),
    passes && shareButton(supportWords.shareList, supportWords.listTitle, () => hireLetter(option)),
  ])
}
