// @ts-check
import { atWords, checkWords, isTwo } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { amount, force, inMm, number, percent } from '../../parts/numbers.js'
import { site } from '../../parts/site.js'
import { termsRow } from '../../parts/terms.js'
import { fold, ofCheck, opens, partHead, whyView, worstOfEach } from '../../parts/why.js'
import { supportWords } from '../../words.js'
import { floorLinesView } from './floor-line.js'
import { listView } from './hire.js'
import { feetRows, propRows } from './rows.js'
import { tile } from './tile.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').Check} Check */
/** @typedef {import('../../parts/types.js').Hire} Hire */
/** @typedef {(of: string) => import('../../parts/types.js').Derived|null} From */

/** How many kinds of figures stand on the page before the fold with all of them. */
const SHOWN = 6

/** How an option is picked among the others: by its aim, or because it is of a kind of its own. @param {Option} option */
export const pickOf = (option) => (option.by === 'engineer' ? 'engineer' : option.kind === 'brackets' ? 'brackets' : option.aim)

/** Needles or brackets and use, large. @param {Option} option @param {From} from */
export function optionHead(option, from) {
  const [count, what] = option.kind === 'brackets' ? [option.props.length, supportWords.onBrackets(option.props.length)] : [option.needles.length, supportWords.needles(option.needles.length)]
  const more = option.floor_lines.reduce((sum, line) => sum + line.props.length, 0)
  const props = more > 0 ? supportWords.propsAndLines(option.props.length, more) : supportWords.props(option.props.length)
  const apart = option.spacing_m > 0 ? `, ${supportWords.apart(inMm(option.spacing_m))}` : ''
  return [
    tile(count, what, `${props}${apart}`, from('spacing'), 'spacing'),
    tile(percent(option.worst_utilisation), 'used', supportWords.usedLine, ofCheck(decider(option)), 'used'),
  ]
}

/** Everything about one option. @param {Option} option @param {Hire|null} hire nothing where it may not be built from @param {From} from */
export function optionView(option, hire, from) {
  return h('div', {}, decidesView(option), partsView(option), positionsView(option, from), propsView(option, from), feetView(option), floorLinesView(option), sidewaysView(option), lostView(option, from), movementView(option, from), listView(option, hire, from('mass')))
}

/** The check that the proposal names, found by its name and place. @param {Option} option @returns {Check|undefined} */
export function decider(option) {
  const [name, at] = option.governs.split(' at ')
  const all = [...option.checks, ...option.floor_lines.flatMap((line) => line.checks)]
  return all.find((check) => check.name === name && check.at === at) ?? worstOfEach(option.checks)[0]
}

/** @param {Option} option */
function decidesView(option) {
  const check = decider(option)
  if (!check) return null
  return h('section', {}, h('h2', {}, supportWords.decides), option.by === 'engineer' && h('p', { class: 'said' }, supportWords.byEngineer),
    opens([h('strong', {}, `${checkWords(check.name)}, ${atWords(check.at)}.`), ' ', supportWords.decidesLine(amount(check.demand, check.unit), amount(check.resistance, check.unit), percent(check.utilisation))], ofCheck(check), 'decides', { kind: 'decides' }))
}

/** @param {Option} option */
function partsView(option) {
  return h('section', {}, h('h2', {}, supportWords.parts), partHead(), worstOfEach(option.checks).slice(0, SHOWN).map((check) => whyView(check, check.name)),
    fold(supportWords.allFigures(option.checks.length), () => option.checks.map((check) => whyView(check))))
}

/** @param {Option} option @param {From} from */
function positionsView(option, from) {
  if (option.kind === 'brackets') return bracketPlacesView(option, from)
  const [first] = option.needles
  if (!first) return null
  const both = (/** @type {string[]} */ ...names) => { const all = names.map(from).filter((one) => one !== null); return all[0] ? { steps: all.flatMap((one) => one.steps), source: all[0].source } : null }
  return h('section', {}, h('h2', {}, supportWords.positions),
    opens([supportWords.needleLine(first, option.needle_soffit_m), first.pack_mm > 0 && ` ${supportWords.pack(first.pack_mm, isTwo(site.fields))}`], both('soffit', `span ${first.name}`), 'needle line'),
    h('div', { class: 'places head', 'aria-hidden': 'true' }, h('span', {}, supportWords.needle), h('span', { class: 'n' }, supportWords.fromLeft), h('span', { class: 'n' }, supportWords.carries)),
    option.needles.map((needle) => opens(placeRow(needle.name, needle.x_m, needle.load_kn), from(`load ${needle.name}`), `place ${needle.name}`)),
    termsRow(['needle', 'jamb', 'underside', first.pack_mm > 0 ? 'pack' : 'wedge']))
}

/** @param {string} name @param {number} x_m @param {number} load_kn */
const placeRow = (name, x_m, load_kn) => h('span', { class: 'places' }, h('span', {}, name), h('span', { class: 'n' }, `${inMm(x_m)} mm`), h('span', { class: 'n' }, force(load_kn)))

/** @param {Option} option @param {From} from */
function bracketPlacesView(option, from) {
  const [first] = option.props
  if (!first) return null
  const of = (/** @type {string} */ name) => option.checks.find((check) => check.at === name && check.name.startsWith('bracket')) ?? decider(option)
  return h('section', {}, h('h2', {}, supportWords.bracketsPlaces), opens(supportWords.bracketLine(first, option.needle_soffit_m), from('soffit'), 'needle line'),
    h('div', { class: 'places head', 'aria-hidden': 'true' }, h('span', {}, supportWords.bracket), h('span', { class: 'n' }, supportWords.fromLeft), h('span', { class: 'n' }, supportWords.carries)),
    option.props.map((prop) => opens(placeRow(prop.name, prop.x_m ?? 0, prop.load_kn), ofCheck(of(prop.name)), `place ${prop.name}`)), termsRow(['bracket', 'prop', 'leaf']))
}

/** @param {Option} option @param {From} from */
function propsView(option, from) {
  return fold(`${supportWords.propsTitle}: ${option.props.length}, ${supportWords.used(percent(Math.max(...option.props.map((prop) => prop.utilisation))))}`, [partHead(), propRows(option.props, option.checks, from), termsRow(['prop'])])
}

/** @param {Option} option */
function feetView(option) {
  if (option.feet.length === 0) return null
  return fold(`${supportWords.feet}: ${supportWords.used(percent(Math.max(...option.feet.map((foot) => foot.utilisation))))}`, [partHead(supportWords.presses, supportWords.allowed), feetRows(option.feet, option.checks), termsRow(['sole_board'])])
}

/** @param {Option} option */
function sidewaysView({ bracing, checks }) {
  const own = checks.filter((check) => check.name.startsWith('sideways') || check.name.startsWith('raker'))
  return fold(supportWords.sideways, [own.length > 0 && [partHead(supportWords.asksFor), own.map((check) => whyView(check, `brace ${check.name} ${check.at}`))], h('p', {}, supportWords.sidewaysLine(bracing)), h('ul', { class: 'plainlist' }, bracing.way.map((/** @type {string} */ line) => h('li', {}, line))), termsRow(['brace', 'raker', 'lacing'])], false, 'sideways', ofCheck(own[0]))
}

/** @param {Option} option @param {From} from */
function lostView(option, from) {
  const { one_lost: lost } = option
  if (lost.length === 0) return null
  const bad = lost.some((one) => one.utilisation === null || one.utilisation > 1)
  const notEven = option.standing === 'does_not_hold'
  return fold(supportWords.lost, [notEven && h('p', { class: 'warn' }, supportWords.lostNotEven), lost.map((one) => opens(one.words, from(`lost ${one.lost}`), `all lost ${one.lost}`, { kind: one.utilisation === null || one.utilisation > 1 ? 'wrong' : '' }))], bad)
}

/** @param {Option} option @param {From} from */
function movementView({ movement }, from) {
  return fold(supportWords.movement, [h('p', {}, supportWords.movementLine(movement)), h('p', {}, supportWords.turnsLine(number(movement.turns)))], false, 'movement', from('movement'))
}
