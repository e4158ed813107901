// @ts-check
import { force, h, number, sketch } from '../parts/dom.js'
import { choice, quantity, select } from '../parts/field.js'
import { clearBelow, flush, site, write } from '../parts/site.js'
import { choices, words } from '../words.js'

const below = (/** @type {string} */ prefix) => Object.keys(site.fields).filter((field) => field.startsWith(prefix))

/** Rows of a list: indices that have a field. @param {string} prefix */
function rows(prefix) {
  return [...new Set(below(prefix).map((field) => Number(field.slice(prefix.length).split('/')[0])))].filter(Number.isInteger).sort((a, b) => a - b)
}

/** Takes one row out and moves the later ones up. @param {string} prefix @param {number} index */
function dropRow(prefix, index) {
  const later = below(prefix).map((field) => ({ at: Number(field.slice(prefix.length).split('/')[0]), rest: field.slice(prefix.length).split('/').slice(1).join('/'), text: site.fields[field] }))
  clearBelow(prefix)
  for (const { at, rest, text } of later) {
    if (at < index) write(`${prefix}${at}/${rest}`, text)
    if (at > index) write(`${prefix}${at - 1}/${rest}`, text)
  }
  flush()
}

/** @param {number} i @param {() => void} again */
function storey(i, again) {
  const at = `/above/${i}`
  const hasFloor = site.fields[`${at}/floor`] !== 'null'
  const direction = hasFloor ? site.fields[`${at}/floor/direction`] : 'none'
  const setFloor = (/** @type {string} */ value) => {
    if (value === 'none') { write(`${at}/floor`, 'null') } else { write(`${at}/floor`, null); write(`${at}/floor/direction`, value) }
    flush()
    again()
  }
  const windows = rows(`${at}/openings/`)
  const add = () => { for (const key of ['x_m', 'sill_m', 'width_m', 'height_m']) write(`${at}/openings/${windows.length}/${key}`, ''); flush(); again() }
  const name = `Storey ${i + 1} above`
  return h('section', {}, h('h2', {}, name),
    quantity(`${at}/height_m`, `${name}: height`, 'm', 'From floor to floor, or up to where the roof rests.'),
    choice(`${at}/floor/direction`, `${name}: how its joists lie`, choices.floor, { value: direction, changed: setFloor, hint: 'Board nails run in lines along the joists: boards lie across them.' }),
    direction && direction !== 'none' && h('div', {},
      h('div', { class: 'two' }, quantity(`${at}/floor/inside_span_m`, `${name}: joist span inside`, 'm'), quantity(`${at}/floor/outside_span_m`, `${name}: joist span on the other side`, 'm')),
      choice(`${at}/floor/continuous`, `${name}: joists run through over the wall?`, choices.flag),
      select(`${at}/floor/leaf`, `${name}: floor bears on`, choices.leaf),
      quantity(`${at}/floor/bearing_m`, `${name}: underside of the joists`, 'm', 'Over the floor of the room with the opening.'),
      choice(`${at}/floor/slept_in`, `${name}: does anyone sleep there?`, choices.flag),
      choice(`${at}/floor/empty`, `${name}: emptied of furniture and stores?`, choices.flag),
      h('details', { class: 'plain' }, h('summary', {}, 'Loads of this floor'),
        quantity(`${at}/floor/dead_kn_m2`, `${name}: weight of the floor`, 'kN/m²'), quantity(`${at}/floor/imposed_kn_m2`, `${name}: people and furniture`, 'kN/m²'),
        quantity(`${at}/floor/partitions_kn_m2`, `${name}: partitions`, 'kN/m²'), quantity(`${at}/floor/joist_depth_m`, `${name}: depth of the joists`, 'm'))),
    h('h3', {}, `${name}: windows and doors`),
    windows.map((j) => h('div', {}, h('h3', {}, `Window ${j + 1}`),
      h('div', { class: 'two' },
        quantity(`${at}/openings/${j}/x_m`, `Window ${j + 1}: left edge`, 'm', 'From the left edge of the new opening; minus lies left of it.'),
        quantity(`${at}/openings/${j}/width_m`, `Window ${j + 1}: width`, 'm'), quantity(`${at}/openings/${j}/sill_m`, `Window ${j + 1}: sill over its floor`, 'm'),
        quantity(`${at}/openings/${j}/height_m`, `Window ${j + 1}: height`, 'm')),
      h('button', { class: 'ask', onclick: () => { dropRow(`${at}/openings/`, j); again() } }, `Take window ${j + 1} out`))),
    h('button', { class: 'ask', onclick: add }, 'Add a window'))
}

/** @param {HTMLElement} $main @param {() => void} again @returns {() => void} */
export function aboveScreen($main, again) {
  const stories = rows('/above/')
  const count = site.fields['/above'] === '[]' && stories.length === 0 ? '0' : stories.length ? String(stories.length) : undefined
  const setStoreys = (/** @type {string} */ wanted) => {
    const n = Number(wanted)
    for (const i of stories) if (i >= n) clearBelow(`/above/${i}/`)
    write('/above', n === 0 ? '[]' : null)
    for (let i = 0; i < n; i += 1) if (!stories.includes(i)) write(`/above/${i}/height_m`, '2.6')
    flush()
    again()
  }
  const points = rows('/points/')
  const addPoint = () => { for (const key of ['x_m', 'level', 'dead_kn']) write(`/points/${points.length}/${key}`, ''); write(`/points/${points.length}/what`, 'point load'); flush(); again() }
  const $figures = h('div', { 'aria-live': 'polite' })
  const $stack = sketch(null)
  const update = () => {
    const load = site.figures?.proposal?.load
    $stack.replaceChildren(...sketch(site.figures?.sketches?.stack).childNodes)
    if (!load) { $figures.replaceChildren(h('p', { class: 'soft' }, 'The weight appears here as soon as the wall and what stands above are described.')); return }
    const pair = (/** @type {number} */ kn, /** @type {string} */ line) => h('div', {}, h('div', { class: 'figure' }, h('b', {}, number(kn)), h('span', {}, 'kN per m')), `${line}, ${Math.round((kn * 1000) / 9.81 / 10) * 10} kg a metre`)
    $figures.replaceChildren(h('div', { class: 'pair' }, pair(load.mean_service_kn_m, 'on average'), pair(load.largest_service_kn_m, 'at the heaviest place')),
      h('table', {}, h('caption', { class: 'soft' }, 'Weight over the opening'), h('tbody', {}, load.parts.map((/** @type {any} */ part) => h('tr', {}, h('td', {}, words.parts[/** @type {'wall'} */ (part.what)] ?? part.what), h('td', { class: 'n' }, force(part.dead_kn + part.imposed_kn)))),
        h('tr', {}, h('td', {}, h('strong', {}, 'All together')), h('td', { class: 'n' }, h('strong', {}, force(load.total_service_kn)))))))
  }
  $main.append(h('div', { class: 'sides' }, h('div', {}, $stack, $figures), h('div', {},
    choice('/above', 'Storeys above the opening', choices.storeys, { value: count, changed: setStoreys }),
    stories.map((i) => storey(i, again)),
    h('section', {}, h('h2', {}, 'The roof'),
      choice('/roof/kind', 'Kind of roof', choices.roof),
      choice('/roof/bears', 'Does the roof rest on this wall?', [['true', 'Yes, or not sure'], ['false', 'No']]),
      h('div', { class: 'two' }, quantity('/roof/span_m', 'Span of the roof', 'm', 'Wall to wall on plan.'), quantity('/roof/pitch_deg', 'Pitch', '°'), quantity('/roof/overhang_m', 'Overhang at the eaves', 'm'), quantity('/roof/bearing_m', 'Where the roof rests', 'm', 'Over the floor inside. Empty: on top of the storeys.')),
      select('/roof/leaf', 'Roof bears on', choices.leaf),
      h('details', { class: 'plain' }, h('summary', {}, 'Loads of the roof'), quantity('/roof/dead_kn_m2', 'Tiles and timbers', 'kN/m²'), quantity('/roof/ceiling_kn_m2', 'Ceiling and loft', 'kN/m²'))),
    h('section', {}, h('h2', {}, 'What else bears: beam, tank, post'),
      points.map((j) => h('div', {}, h('h3', {}, `Point ${j + 1}`), h('div', { class: 'two' },
        quantity(`/points/${j}/x_m`, `Point ${j + 1}: place`, 'm', 'From the left edge of the new opening.'), quantity(`/points/${j}/level`, `Point ${j + 1}: level`, '', '0 is the first floor above; the roof is the number of storeys.'),
        quantity(`/points/${j}/dead_kn`, `Point ${j + 1}: permanent`, 'kN'), quantity(`/points/${j}/imposed_kn`, `Point ${j + 1}: coming and going`, 'kN')),
      h('button', { class: 'ask', onclick: () => { dropRow('/points/', j); again() } }, `Take point ${j + 1} out`))),
      h('button', { class: 'ask', onclick: addPoint }, 'Add a point load')),
    h('section', {}, h('h2', {}, 'The site'),
      h('div', { class: 'two' }, quantity('/site/days', 'Days it will stand', 'days'), quantity('/site/altitude_m', 'Height above the sea', 'm'), quantity('/site/snow_zone', 'Snow zone of the UK map', ''), quantity('/site/wind_m_s', 'Basic wind speed', 'm/s'))))))
  return update
}
