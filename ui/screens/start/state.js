// @ts-check
import { below, clearBelow, rows, site, write } from '../../parts/site.js'
import { HOUSES, houseFields } from './houses.js'

/** What was answered on Start, what stands there from the house type, and what is still open. Kept as drafts beside the job. */

export const PAGES = Object.freeze(/** @type {const} */ (['house', 'width', 'head', 'wall', 'storeys', 'floors', 'roof', 'windows', 'sides', 'feet', 'beam', 'strange']))
/** @typedef {typeof PAGES[number]} Page */

const AT = '/job/start/'

/** @param {string} key @returns {string} */
export const note = (key) => site.fields[`${AT}${key}`] ?? ''

/** @param {string} key @param {string|null} text */
export function remember(key, text) {
  if ((site.fields[`${AT}${key}`] ?? null) !== text) write(`${AT}${key}`, text)
}

/** Where the description of a job goes on: on Start, unless somebody left it for the one page or never was there. @returns {'start'|'wall'} */
export function goesOn() {
  const begun = Object.keys(site.fields).some((field) => !field.startsWith('/round/'))
  return note('left') || (begun && !note('at')) ? 'wall' : 'start'
}

/** @param {string} path */
export const typed = (path) => (site.fields[path] ?? '').trim()

export const storeys = () => rows('/above/').length

/** Whether somebody said how many storeys stand above, or the house type did. */
export const storeysKnown = () => storeys() > 0 || site.fields['/above'] === '[]'

/** The pages that this job needs: without a storey there is no floor and no window above. @returns {Page[]} */
export function pages() {
  const only = storeysKnown() && storeys() === 0
  return PAGES.filter((page) => !only || (page !== 'floors' && page !== 'windows'))
}

/** @param {string} path @returns {Page|null} the page that asks for it */
export function pageOf(path) {
  if (/^\/opening\/width_m/.test(path)) return 'width'
  if (/^\/opening\/head_m/.test(path)) return 'head'
  if (/^\/wall\/(leaves\/\d\/(material|thickness_mm|mortar)|cavity_mm)$/.test(path)) return 'wall'
  if (/^\/above(\/\d\/height_m)?$/.test(path)) return 'storeys'
  if (/^\/above\/\d\/floor(\/(direction|inside_span_m|bearing_m))?$/.test(path)) return 'floors'
  if (/\/outside_span_m$/.test(path)) return typed('/wall/outside_wall') === 'false' ? 'floors' : null
  if (/^\/above\/\d\/openings/.test(path)) return 'windows'
  if (/^\/roof\/(bears|kind|span_m|bearing_m)$/.test(path)) return 'roof'
  if (/^\/opening\/(left|right)_masonry_m/.test(path)) return 'sides'
  if (/^\/sides\/(outside\/|inside\/foot\/)/.test(path)) return 'feet'
  if (/^\/opening\/(flush|beam_depth_mm)$/.test(path)) return 'beam'
  return null
}

/** @param {Page} page @returns {'yes'|'unsure'|''} */
export const said = (page) => /** @type {'yes'|'unsure'|''} */ (note(`said/${page}`))

/** What stands there from the house type and was not looked at yet. @returns {string[]} */
export function taken() {
  const house = houseFields(note('house'))
  return Object.keys(house).filter((path) => {
    const page = pageOf(path)
    // On a wall of one leaf there is no other that anything could bear on.
    if (/\/leaf$/.test(path) && rows('/wall/leaves/').length < 2) return false
    return site.fields[path] === house[path] && !(page && said(page))
  })
}

/** @param {Page} page */
export const takenOn = (page) => (said(page) ? [] : taken().filter((path) => pageOf(path) === page))

/** Takes a house type: what was typed or said stays as it is. @param {string} name */
export function chooseHouse(name) {
  const before = houseFields(note('house'))
  const keep = (/** @type {string} */ path) => { const page = pageOf(path); return page !== null && said(page) !== '' }
  const next = houseFields(name)
  for (const path of Object.keys(before)) if (!keep(path) && site.fields[path] === before[path]) write(path, null)
  const fixed = said('storeys') !== ''
  for (const [path, text] of Object.entries(next)) {
    const row = path.match(/^\/above\/(\d)\//)
    // Storeys that were counted stay as many as they are.
    if (path === '/above' || (row && Number(row[1]) >= storeys())) { if (fixed) continue }
    if (path === '/roof/bearing_m' && fixed && storeys() > 0) continue
    if (site.fields[path] === undefined && !keep(path)) write(path, text)
  }
  remember('house', HOUSES.includes(name) ? name : 'none')
  remember('said/house', 'yes')
}

/** How many storeys stand above; what is known of those that stay is kept. @param {number} n */
export function setStoreys(n) {
  for (const i of rows('/above/')) if (i >= n) { clearBelow(`/above/${i}/`); write(`/above/${i}/floor`, null) }
  write('/above', n === 0 ? '[]' : null)
  for (let i = 0; i < n; i += 1) {
    if (below(`/above/${i}/`).length > 0) continue
    write(`/above/${i}/openings`, '[]')
    write(`/above/${i}/floor/held_apart`, 'false')
    if (said('windows')) remember('said/windows', null)
    if (said('floors')) remember('said/floors', null)
  }
  // Where the roof rests follows from the storeys; a single storey's height does not fit under more.
  if (n > 0 && typed('/roof/bearing_m')) write('/roof/bearing_m', null)
  sleepers()
}

/** Passes on who sleeps above to every floor that is there. */
export function sleepers() {
  const answer = note('strange/sleeping')
  for (const i of rows('/above/')) {
    if (answer && site.fields[`/above/${i}/floor`] !== 'null') write(`/above/${i}/floor/slept_in`, answer === 'no' ? 'false' : 'true')
  }
}
