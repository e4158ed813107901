// @ts-check
import { atWords, checkWords } from '../fields.js'
import { supportWords, words } from '../words.js'
import { h, put, quiet } from './dom.js'
import { amount, percent } from './numbers.js'
import { usedBar } from './standing.js'

/** @typedef {import('./types.js').Check} Check */
/** @typedef {import('./types.js').Derived} Derived */

/** Line by line down to the rule behind it. @param {string[]} steps @param {import('./types.js').Source} source */
export function derivation(steps, source) {
  return [h('ol', { class: 'steps' }, steps.map((step) => h('li', {}, step))), h('p', { class: 'source' }, [source.document, source.locator, source.seen].filter(Boolean).join(', '), '.')]
}

/** The steps of a check with the last one, which is the same for all: what is asked, over what is there. @param {Check} check */
export function stepsOf(check) {
  return [...check.steps, supportWords.lastStep(amount(check.demand, check.unit), amount(check.resistance, check.unit), percent(check.utilisation))]
}

/**
 * One figure that opens down to its steps and its source.
 * @param {Check} check @param {string} [key] by which it stays open when the figures change
 * @param {{name?: string, before?: string[]}} [more] another name, and steps that come first
 */
export function whyView(check, key = `${check.name} ${check.at}`, more = {}) {
  const name = more.name ?? `${checkWords(check.name)}, ${atWords(check.at)}`
  return h('details', { class: 'why', 'data-why': '' },
    h('summary', { 'data-key': key, 'data-open': words.why, 'data-close': words.shut }, partRow(name, amount(check.demand, check.unit), amount(check.resistance, check.unit), check.utilisation, '', ofRoom(check.name))),
    derivation([...(more.before ?? []), ...stepsOf(check)], check.source))
}

/**
 * Any figure in words that opens down to where it comes from; without a derivation it stands as it is.
 * @param {any} content @param {{steps: string[], source: import('./types.js').Source}|null|undefined} from @param {string} key
 * @param {{kind?: string, inside?: any}} [more]
 */
export function opens(content, from, key, { kind = '', inside = null } = {}) {
  if (!from || from.steps.length === 0) return h('div', { class: `plainfigure ${kind}` }, content, inside)
  return h('details', { class: `why line ${kind}`, 'data-why': '' },
    h('summary', { 'data-key': key, 'data-open': words.why, 'data-close': words.shut }, h('span', { class: 'what' }, content)),
    derivation(from.steps, from.source), inside)
}

/** Each sentence on a line of its own. @param {string[]} texts */
export const sentences = (texts) => texts.flatMap((text) => text.split(/(?<=[.!?]) (?=[A-Z])/)).map((one) => h('span', { class: 'sentence' }, one))

/** A check as what a sentence rests on. @param {Check|null|undefined} check */
export const ofCheck = (check) => (check ? { steps: stepsOf(check), source: check.source } : null)

/** Checks of room: they pass or fail, and a share of them says nothing of how near a limit is. The calculation's own list, held together by a test. */
export const OF_ROOM = new Set(['clear_masonry', 'room_under_plate', 'arch_loose', 'end_bay_width', 'working_room', 'raker_room', 'board_fit', 'prop_distance', 'beam_room', 'plate_point', 'bracket_seat', 'bracket_clear'])

/** @param {string} name */
export const ofRoom = (name) => OF_ROOM.has(name)

/** A part with its share, what it carries and what it is good for. @param {string} name @param {string} asked @param {string} good @param {number} use @param {string} [kind] @param {boolean} [room] whether it only fits or not */
export function partRow(name, asked, good, use, kind = '', room = false) {
  const share = room ? h('span', {}, use > 1 + 1e-9 ? supportWords.noRoom : supportWords.fits) : [usedBar(use, supportWords.used(percent(use))), h('span', { 'aria-hidden': 'true' }, percent(use))]
  return h('span', { class: `part ${kind}` }, h('span', { class: 'name' }, name), h('span', { class: 'share' }, share),
    h('span', { class: 'n' }, quiet(`${supportWords.carries} `), asked), h('span', { class: 'n' }, quiet(`${supportWords.goodFor} `), good))
}

/** Heads of the three columns. @param {string} [asked] @param {string} [good] */
export function partHead(asked = supportWords.carries, good = supportWords.goodFor) {
  return h('div', { class: 'part head', 'aria-hidden': 'true' }, h('span', { class: 'share' }, supportWords.usedHead), h('span', { class: 'n' }, asked), h('span', { class: 'n' }, good))
}

/** The most used figure of each kind, the worst first. @param {Check[]} checks */
export function worstOfEach(checks) {
  /** @type {Map<string, Check>} */
  const worst = new Map()
  for (const check of checks) {
    const known = worst.get(check.name)
    if (!known || known.utilisation < check.utilisation) worst.set(check.name, check)
  }
  // What has its room and says no share comes last.
  const rank = (/** @type {Check} */ check) => (ofRoom(check.name) && check.utilisation <= 1 + 1e-9 ? -1 : check.utilisation)
  return [...worst.values()].sort((a, b) => rank(b) - rank(a))
}

/**
 * A part of the page that opens; its title says what is in it.
 * @param {string} title @param {any} children what is in it, or what makes it when it is opened for the first time
 * @param {boolean} [open] @param {string} [key] by which it stays open where titles are alike
 * @param {{steps: string[], source: import('./types.js').Source}|null} [from] where the figures in it come from
 */
export function fold(title, children, open = false, key = String(title).replace(/[\d:(].*$/, ''), from = null) {
  const $in = h('div', {})
  const fill = () => { if (!$in.hasChildNodes()) put($in, typeof children === 'function' ? children() : children, from && h('div', { class: 'from' }, derivation(from.steps, from.source))) }
  if (open || typeof children !== 'function') fill()
  return h('details', { class: 'fold', open, 'data-why': from ? '' : undefined, ontoggle: fill, onfill: fill }, h('summary', { 'data-key': key, 'data-open': words.open, 'data-close': words.shut }, h('span', {}, title)), $in)
}

/** What is open on a page, so that it stays open when the page is drawn anew. @param {Element} $root */
export function openKeys($root) {
  return new Set([...$root.querySelectorAll('details[open] > summary')].map(($summary) => $summary.getAttribute('data-key')))
}

/** @param {Element} $root @param {Set<string|null>} keys */
export function openAgain($root, keys) {
  // A fold may hold others that exist only once it is open.
  for (let depth = 0; depth < 2; depth += 1) {
    for (const $summary of $root.querySelectorAll('summary')) {
      const $details = $summary.parentElement
      if (!keys.has($summary.getAttribute('data-key')) || !($details instanceof HTMLDetailsElement) || $details.open) continue
      $details.open = true
      $details.dispatchEvent(new Event('fill'))
    }
  }
}
