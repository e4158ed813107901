// @ts-check
import { newestOf } from '../../parts/photo.js'
import { readAt } from '../../parts/taps.js'
import { below, rows, site, write } from '../../parts/site.js'
import { measureWords as words } from '../../words.js'

/** What was tapped and said about a photo, kept as drafts beside the job, for each photo its own. */

/** @typedef {import('../../parts/taps.js').At} At */
/** @typedef {'length'|'opening'|'window'|'pier'|'courses'|'level'} What */

const AT = '/job/sight/'
export const CORNERS = ['c0', 'c1', 'c2', 'c3']
/** How many taps each thing takes. @type {Readonly<Record<What, number>>} */
export const TAPS = Object.freeze({ length: 2, opening: 4, window: 4, pier: 4, courses: 2, level: 1 })
/** Edges on one photo: more say little more of one lens. */
export const EDGES = 6
/** Spots along an edge: with two every line is straight. */
const LEAST_SPOTS = 3

/** What was found last, and from what: asked for with every spot, many times a frame. @type {{photos: any, chosen: string|undefined, found: import('../../parts/types.js').Photo|null}} */
const last = { photos: null, chosen: undefined, found: null }

/** The photo that is measured on: the one chosen last, else the newest of the wall. */
export function photoNow() {
  const chosen = site.fields[`${AT}photo`]
  if (last.photos !== site.photos || last.chosen !== chosen) {
    const found = site.photos.find((photo) => photo.view && photo.sha === chosen) ?? newestOf('wall') ?? null
    Object.assign(last, { photos: site.photos, chosen, found })
  }
  return last.found
}

/** @param {string} sha */
export const choosePhoto = (sha) => write(`${AT}photo`, sha)

/** Where what belongs to a photo is kept. @param {string} key */
export const path = (key) => `${AT}${(photoNow()?.sha ?? '').slice(0, 12)}/${key}`

/** @param {string} key @returns {string} */
export const said = (key) => (site.fields[path(key)] ?? '').trim()

/** @param {string} key @param {string|null} text */
export const say = (key, text) => write(path(key), text)

/** @param {string} key */
export const at = (key) => readAt(site.fields[path(key)])

/** What is read and drawn on this photo. */
export const things = () => rows(path('r/')).map((row) => ({ row, what: /** @type {What} */ (said(`r/${row}/what`)), points: points(row) })).filter(({ what }) => what in TAPS)

/** @param {number} row @returns {(At|null)[]} */
const points = (row) => Array.from({ length: TAPS[/** @type {What} */ (said(`r/${row}/what`))] ?? 0 }, (_, i) => at(`r/${row}/${i}`))

/** @param {What} what */
export function addThing(what) {
  const list = rows(path('r/'))
  const row = list.length > 0 ? Math.max(...list) + 1 : 0
  say(`r/${row}/what`, what)
}

/** @param {number} row */
export function dropThing(row) {
  for (const field of below(path(`r/${row}/`))) write(field, null)
}

/** Edges that are straight in truth, with the spots along each. */
export const edges = () => rows(path('e/')).map((row) => ({ row, points: Array.from({ length: Math.max(LEAST_SPOTS, Number(said(`e/${row}/n`)) || 0) }, (_, i) => at(`e/${row}/${i}`)) }))

export const addEdge = () => {
  const list = rows(path('e/'))
  say(`e/${list.length > 0 ? Math.max(...list) + 1 : 0}/n`, String(LEAST_SPOTS))
}

/** One spot more on an edge. @param {number} row */
export const withSpot = (row) => say(`e/${row}/n`, String((edges().find((edge) => edge.row === row)?.points.length ?? LEAST_SPOTS) + 1))

/** @param {number} row */
export const dropEdge = (row) => below(path(`e/${row}/`)).forEach((field) => write(field, null))

/** The edges that tell something, each from its one end to the other, in whatever order it was tapped. */
export const edgesPx = () => edges().map(({ points }) => /** @type {At[]} */ (points.filter(Boolean))).filter((list) => list.length >= LEAST_SPOTS).map((list) => {
  const wide = (/** @type {0|1} */ i) => Math.max(...list.map((one) => one[i])) - Math.min(...list.map((one) => one[i]))
  const along = wide(0) >= wide(1) ? 0 : 1
  return list.slice().sort((a, b) => a[along] - b[along])
})

/** Number of a thing among its kind, for its name. @param {number} row */
export function nameOf(row) {
  const what = /** @type {What} */ (said(`r/${row}/what`))
  const alike = things().filter((one) => one.what === what)
  return words.named(what, what === 'opening' && alike.length < 2 ? 0 : alike.findIndex((one) => one.row === row) + 1)
}

/** All that is to be tapped, in its order. @returns {import('../../parts/taps.js').Spot[]} */
export function spots() {
  const kind = said('kind')
  if (!kind) return []
  const corners = CORNERS.map((key, i) => ({ key: `t/${key}`, name: words.corner(i, words.kindOf[/** @type {'board'} */ (kind)] ?? ''), at: at(`t/${key}`) }))
  if (corners.some((spot) => !spot.at)) return corners
  const zero = ['origin', 'floor'].filter((key) => said(`t/${key}`) !== 'none' && (key === 'floor' || !madeOfOpening() || at('t/origin')))
    .map((key) => ({ key: `t/${key}`, name: words.zero[/** @type {'floor'} */ (key)], at: at(`t/${key}`) }))
  const drawn = things().flatMap(({ row, points: list, what }) => list.map((point, i) => ({ key: `r/${row}/${i}`, name: words.spot(nameOf(row), what, i), at: point })))
  const bent = edges().flatMap(({ row, points: list }, n) => list.map((point, i) => ({ key: `e/${row}/${i}`, name: words.edgeSpot(n + 1, i + 1), at: point })))
  return [...corners, ...zero, ...drawn, ...bent]
}

/** Where x begins when no jamb was tapped: the lower corner of the drawn opening on its left jamb, as seen from inside. @returns {At|null} */
function madeOfOpening() {
  const opening = things().find(({ what, points: list }) => what === 'opening' && list.every(Boolean))
  if (!opening) return null
  const across = /** @type {At[]} */ (opening.points).slice().sort((a, b) => a[0] - b[0])
  const jamb = said('side') === 'outside' ? across.slice(2) : across.slice(0, 2)
  return jamb.sort((a, b) => b[1] - a[1])[0]
}

/** What still has to be typed of the thing of known size, in the words of its fields. */
export const lacking = () => (said('kind') === 'brick_panel' ? ['courses', 'stretchers'] : ['width_mm', 'height_mm']).filter((key) => !said(key)).map((key) => words.labels[/** @type {'width_mm'} */ (key)])

/** What the photo is measured by, or null while something of it is open. @param {number} tapPx */
export function view(tapPx) {
  const corners = CORNERS.map((key) => at(`t/${key}`))
  const kind = said('kind')
  if (!kind || corners.some((one) => !one) || lacking().length > 0) return null
  const bricks = kind === 'brick_panel'
  const reference = bricks
    ? { kind, courses: said('courses'), stretchers: said('stretchers'), format: said('format') || 'uk_metric' }
    : { kind, width_mm: said('width_mm'), height_mm: said('height_mm'), plus_minus_mm: said('plus_minus_mm') }
  const jamb = at('t/origin') ?? madeOfOpening()
  const floor = at('t/floor')
  return {
    side: said('side') === 'outside' ? 'outside' : 'inside', reference, corners_px: corners, tap_px: tapPx, lens: said('lens') === 'unknown' ? 'unknown' : 'phone', edges_px: edgesPx(),
    origin: jamb && { at_px: jamb, x_mm: 0 }, floor: floor && { at_px: floor, level_mm: 0 },
  }
}

/** All that is asked of the photo, or null while the thing of known size is not tapped. @param {number} tapPx */
export function request(tapPx) {
  const of = view(tapPx)
  if (!of) return null
  const whole = things().filter(({ points: list }) => list.every(Boolean))
  return {
    view: of,
    lengths: whole.filter(({ what }) => what === 'length').map(({ row, points: [from_px, to_px] }) => ({ name: String(row), from_px, to_px })),
    rectangles: whole.filter(({ what }) => TAPS[what] === 4).map(({ row, points: corners_px }) => ({ name: String(row), corners_px })),
    levels: whole.filter(({ what }) => what === 'level').map(({ row, points: [at_px] }) => ({ name: String(row), at_px })),
    coursing: whole.filter(({ what, row }) => what === 'courses' && said(`r/${row}/count`)).map(({ row, points: [from_px, to_px] }) => ({
      name: String(row), from_px, to_px, of: said(`r/${row}/of`) || 'courses', count: said(`r/${row}/count`), format: said('format') || 'uk_metric',
    })),
  }
}

/** What edges could not do is said where they are tapped. @param {{code: string}} doubt */
export const ofThePhoto = ({ code }) => code !== 'edges_unused'

/** What is known of the photo's zero: where x begins, and where heights begin. */
export const known = () => ({ jamb: Boolean(at('t/origin') ?? madeOfOpening()), floor: Boolean(at('t/floor')) })

/** What the reading rests on, in words. */
export function restsOn() {
  const kind = /** @type {'board'} */ (said('kind'))
  const size = kind === /** @type {string} */ ('brick_panel') ? words.bricks(said('courses'), said('stretchers')) : ['width_mm', 'height_mm'].map((key) => (/[a-z'"]/i.test(said(key)) ? said(key) : `${said(key)} mm`)).join(' × ')
  const straight = edgesPx().length
  return `${words.kindOf[kind]}, ${size}${straight > 0 ? `, ${words.byEdges(straight)}` : ''}`
}
