// @ts-check
import { choices, isTwo } from '../../fields.js'
import { h, put } from '../../parts/dom.js'
import { choice, pick, quantity, text } from '../../parts/field.js'
import { force, mass, number } from '../../parts/numbers.js'
import { below, clearBelow, rows, site, write } from '../../parts/site.js'
import { fold } from '../../parts/why.js'
import { aboveWords } from '../../words.js'
import { leafView } from '../wall/wall.js'
import { addWindow, houseView } from './house.js'
import { metres } from './measure.js'
import { pointRows, windowRows } from './rows.js'
import { shareView } from './share.js'

/**
 * What stands above, drawn as it grows, with the weight along the wall after every change.
 * @param {HTMLElement} $main @param {() => void} again
 * @returns {() => void}
 */
export function aboveScreen($main, again) {
  const $figures = h('div', {})
  const $share = h('div', { class: 'share', 'aria-live': 'polite' })
  const add = (/** @type {number} */ storey) => { addWindow(storey, (metres(site.fields['/opening/width_m']) ?? 2.4) / 2); again() }
  const house = houseView({ adds: false, again, touched: (piece) => put($share, shareView(piece, add)) })
  $main.append(h('div', { class: 'sides' },
    h('div', { class: 'beside' }, house.$view, $share, $figures),
    h('div', {}, storeysView(again), roofView(again), pointsView(again), siteView())))
  return () => {
    const { proposal } = site.figures ?? {}
    house.update()
    put($figures, proposal ? weightView(proposal.load) : h('p', { class: 'hint' }, aboveWords.later))
  }
}

/** @param {import('../../parts/types.js').Load} load */
function weightView(load) {
  const figure = (/** @type {number} */ kn, /** @type {string} */ line) => h('div', {}, h('div', { class: 'figure' }, h('b', {}, number(kn)), h('span', {}, aboveWords.perMetre)), `${line}, ${aboveWords.aMetre(mass(kn))}`)
  return [
    h('div', { class: 'pair' }, figure(load.mean_service_kn_m, aboveWords.average), figure(load.largest_service_kn_m, aboveWords.most)),
    h('table', {}, h('caption', {}, aboveWords.fromTop), h('tbody', {},
      load.parts.map((part) => h('tr', {}, h('td', {}, aboveWords.parts[/** @type {'wall'} */ (part.what)] ?? part.what), h('td', { class: 'n' }, force(part.dead_kn + part.imposed_kn)))),
      h('tr', { class: 'sum' }, h('td', {}, aboveWords.all), h('td', { class: 'n' }, force(load.total_service_kn))))),
  ]
}

/** @param {() => void} again */
function storeysView(again) {
  const storeys = rows('/above/')
  const count = storeys.length ? String(storeys.length) : site.fields['/above'] === '[]' ? '0' : undefined
  const set = (/** @type {string} */ wanted) => {
    const n = Number(wanted)
    for (const i of storeys) if (i >= n) clearBelow(`/above/${i}/`)
    write('/above', n === 0 ? '[]' : null)
    for (let i = 0; i < n; i += 1) {
      if (storeys.includes(i)) continue
      // A storey nobody described yet has a floor on this wall until somebody says otherwise, and no windows that lighten it.
      write(`/above/${i}/openings`, '[]')
      write(`/above/${i}/floor/held_apart`, 'false')
    }
    again()
  }
  return [h('section', {}, choice('/above', choices.storeys, { value: count, changed: set })), storeys.map((i) => storeyView(i, again))]
}

/** @param {number} i @param {() => void} again */
function storeyView(i, again) {
  const at = `/above/${i}`
  const none = site.fields[`${at}/floor`] === 'null'
  const direction = none ? 'none' : site.fields[`${at}/floor/direction`]
  const setFloor = (/** @type {string} */ value) => {
    write(`${at}/floor`, value === 'none' ? 'null' : null)
    if (value !== 'none') write(`${at}/floor/direction`, value)
    again()
  }
  return h('section', {}, h('h2', {}, aboveWords.storey(i)), quantity(`${at}/height_m`),
    choice(`${at}/floor/direction`, choices.floor, { value: direction, changed: setFloor }),
    !none && floorView(`${at}/floor`, again),
    windowRows(i, again),
    fold(aboveWords.other, otherWall(at, again), below(`${at}/leaves/`).length > 0))
}

/** @param {string} at @param {() => void} again */
function floorView(at, again) {
  return h('div', {},
    quantity(`${at}/inside_span_m`), quantity(`${at}/outside_span_m`), choice(`${at}/continuous`, choices.flag), isTwo(site.fields) && pick(`${at}/leaf`, choices.leaf), quantity(`${at}/bearing_m`),
    pick(`${at}/beam_and_block`, choices.made), choice(`${at}/slept_in`, choices.flag), choice(`${at}/empty`, choices.flag),
    choice(`${at}/held_apart`, choices.flag, { changed: (value) => { write(`${at}/held_apart`, value); again() } }),
    site.fields[`${at}/held_apart`] === 'true' && h('p', { class: 'warn' }, aboveWords.heldApart),
    fold(aboveWords.loads, ['dead_kn_m2', 'imposed_kn_m2', 'partitions_kn_m2', 'joist_depth_m', 'joist_spacing_m'].map((key) => quantity(`${at}/${key}`))))
}

/** Its own leaves, as many as the wall has. @param {string} at @param {() => void} again */
function otherWall(at, again) {
  const own = below(`${at}/leaves/`).length > 0
  const count = below('/wall/leaves/1/').length > 0 ? 2 : 1
  const set = (/** @type {string} */ value) => {
    clearBelow(`${at}/leaves/`)
    if (value === 'other') for (let leaf = 0; leaf < count; leaf += 1) write(`${at}/leaves/${leaf}/plaster_mm`, '0')
    again()
  }
  return [choice(`${at}/leaves`, choices.same, { value: own ? 'other' : undefined, changed: set }),
    own && rows(`${at}/leaves/`).map((leaf) => leafView(`${at}/leaves/${leaf}`, aboveWords.leafName(leaf, count)))]
}

/** Only where the roof has trusses, or was said to. */
function trusses() {
  const $places = text('/roof/truss_x_m')
  const kind = site.fields['/roof/kind']
  $places.hidden = kind !== 'trusses' && kind !== undefined && !site.fields['/roof/truss_x_m']
  return $places
}

/** @param {() => void} again */
function roofView(again) {
  return h('section', {}, h('h2', {}, aboveWords.roof), choice('/roof/kind', choices.roof, { changed: (value) => { write('/roof/kind', value); again() } }), choice('/roof/bears', choices.bears),
    quantity('/roof/span_m'), quantity('/roof/pitch_deg'), quantity('/roof/overhang_m'), quantity('/roof/bearing_m'), isTwo(site.fields) && pick('/roof/leaf', choices.leaf), trusses(),
    fold(aboveWords.roofLoads, [quantity('/roof/dead_kn_m2'), quantity('/roof/ceiling_kn_m2'), text('/roof/plate_mm')]))
}

/** @param {() => void} again */
function pointsView(again) {
  return h('section', {}, h('h2', {}, aboveWords.points), pointRows(again))
}

function siteView() {
  return h('section', {}, h('h2', {}, aboveWords.site), quantity('/site/days'), quantity('/site/altitude_m'), quantity('/site/snow_zone'), quantity('/site/wind_m_s'), pick('/site/terrain', choices.terrain), pick('/site/national', choices.national))
}
