// @ts-check
import { choices } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { pick, quantity } from '../../parts/field.js'
import { rows, site, write } from '../../parts/site.js'
import { measureWords, startWords } from '../../words.js'
import { metres } from '../above/measure.js'
import { beamPicture, floorPicture, openingPicture, roofPicture, storeysPicture, wallPicture } from './art/answers.js'
import { housePicture } from './art/houses.js'
import { joists } from './asked.js'
import { HOUSES } from './houses.js'
import { notSure, tiles, unsureLine } from './parts.js'
import { chooseHouse, note, remember, said, setStoreys, storeys, storeysKnown, typed } from './state.js'
import { setWall, wallKind } from './wall-kinds.js'

/** The questions of Start but the last three: each a view of what is kept, with what its answers do. */

/** @typedef {{$view: any, update?: () => void}} Asked */

/** @param {() => void} again @returns {Asked} */
export function houseQuestion(again) {
  const options = [...HOUSES, 'none'].map((value) => ({ value, label: startWords.houses[/** @type {'none'} */ (value)], picture: housePicture(value) }))
  return { $view: [tiles({ name: '/job/start/house', legend: startWords.questions.house, quiet: true, options, chosen: note('house'), choose: (value) => { chooseHouse(value); again() } }), unsureLine('house')] }
}

/** @param {'width'|'head'|'sides'} asked @param {string[]} paths @param {() => void} again @returns {Asked} */
function measured(asked, paths, again) {
  const $picture = h('div', { class: 'large' })
  const update = () => {
    const m = { width: metres(typed('/opening/width_m')) ?? 2.4, head: metres(typed('/opening/head_m')) ?? 2.1, left: metres(typed('/opening/left_masonry_m')) ?? 1, right: metres(typed('/opening/right_masonry_m')) ?? 1 }
    const show = (/** @type {string} */ path) => (typed(path) ? `${typed(path)}${/[a-z'"]/i.test(typed(path)) ? '' : ' m'}` : '?')
    $picture.replaceChildren(openingPicture(m, asked, { width: show('/opening/width_m'), head: show('/opening/head_m'), left: show('/opening/left_masonry_m'), right: show('/opening/right_masonry_m') }, startWords.picture.opening))
  }
  update()
  // What is typed is an answer; it takes the place of a "not sure".
  const typing = () => { remember(`said/${asked}`, paths.every((path) => typed(path)) ? 'yes' : null); update() }
  return { $view: [$picture, h('div', { class: 'measures', oninput: typing }, paths.map((path) => quantity(path, { hint: '' }))), h('p', { class: 'ways' }, h('a', { href: `#${site.id}/measure` }, measureWords.link)), notSure(asked, again, () => paths.forEach((path) => write(path, null)))], update }
}

/** @param {() => void} again */
export const widthQuestion = (again) => measured('width', ['/opening/width_m'], again)
/** @param {() => void} again */
export const headQuestion = (again) => measured('head', ['/opening/head_m'], again)
/** @param {() => void} again */
export const sidesQuestion = (again) => measured('sides', ['/opening/left_masonry_m', '/opening/right_masonry_m'], again)

/** @param {() => void} again @returns {Asked} */
export function wallQuestion(again) {
  const kind = wallKind()
  const leaves = rows('/wall/leaves/')
  const options = Object.entries(startWords.walls).map(([value, label]) => ({ value, label, picture: wallPicture(value) }))
  const changed = () => remember('said/wall', null)
  const mortar = leaves.map((i) => typed(`/wall/leaves/${i}/mortar`))
  return {
    $view: [tiles({ name: 'kind', field: '/wall/leaves', legend: startWords.questions.wall, quiet: true, options, chosen: kind, choose: (value) => { setWall(value); changed(); again() } }),
      leaves.length > 0 && [
        h('div', { class: 'measures', onchange: changed }, leaves.map((i) => [h('h2', {}, startWords.leaf(i, leaves.length)), pick(`/wall/leaves/${i}/material`, choices.material), quantity(`/wall/leaves/${i}/thickness_mm`, { hint: '' }),
          i === 0 && leaves.length > 1 && quantity('/wall/cavity_mm')])),
        tiles({ name: 'mortar', field: '/wall/leaves/0/mortar', legend: startWords.mortar, options: startWords.mortars.map(([value, label]) => ({ value, label })), columns: 1, chosen: new Set(mortar).size === 1 ? mortar[0] : '', choose: (value) => { leaves.forEach((i) => write(`/wall/leaves/${i}/mortar`, value)); again() } })],
      notSure('wall', again)],
  }
}

/** @param {() => void} again @returns {Asked} */
export function storeysQuestion(again) {
  const chosen = said('storeys') === 'unsure' ? 'unsure' : storeysKnown() ? String(Math.min(storeys(), 4)) : ''
  const choose = (/** @type {string} */ value) => {
    remember('said/storeys', value === 'unsure' ? 'unsure' : 'yes')
    setStoreys(value === 'unsure' ? 3 : Number(value))
    again()
  }
  return {
    $view: [h('div', { class: 'large' }, storeysPicture(chosen === '' || chosen === 'unsure' ? null : Number(chosen), typed('/roof/kind') !== 'none', startWords.picture.storeys)),
      tiles({ name: 'storeys', field: '/above', legend: startWords.questions.storeys, quiet: true, options: startWords.storeys.map(([value, label]) => ({ value, label })), columns: 2, chosen, choose }),
      h('div', { class: 'measures' }, rows('/above/').map((i) => quantity(`/above/${i}/height_m`, i > 0 ? { hint: '' } : {}))), unsureLine('storeys')],
  }
}

/** @param {() => void} again @returns {Asked} */
export function floorsQuestion(again) {
  const list = rows('/above/')
  const set = (/** @type {number} */ i, /** @type {string} */ value) => {
    const at = `/above/${i}/floor`
    write(at, value === 'none' ? 'null' : null)
    remember(`floor/${i}`, value === 'unsure' ? 'unsure' : null)
    if (value !== 'none') write(`${at}/direction`, value === 'unsure' ? 'onto' : value)
    if (list.every((row) => joists(row) !== '')) remember('said/floors', 'yes')
    again()
  }
  const wide = typed('/wall/outside_wall') === 'false'
  return {
    $view: [list.map((i) => [tiles({
      name: `floor-${i}`, field: `/above/${i}/floor/direction`, legend: startWords.floorOf(i, list.length),
      options: Object.entries(startWords.floors).map(([value, label]) => ({ value, label, picture: value === 'unsure' ? undefined : floorPicture(value) })), columns: 3, chosen: joists(i), choose: (value) => set(i, value),
    }), joists(i) && joists(i) !== 'none' && h('div', { class: 'measures' }, quantity(`/above/${i}/floor/inside_span_m`), (wide || typed(`/above/${i}/floor/outside_span_m`) > '0') && quantity(`/above/${i}/floor/outside_span_m`), quantity(`/above/${i}/floor/bearing_m`))]),
    unsureLine('floors')],
  }
}

/** @param {() => void} again @returns {Asked} */
export function roofQuestion(again) {
  const chosen = said('roof') === 'unsure' ? 'unsure' : typed('/roof/bears')
  const options = Object.entries(startWords.roofs).map(([value, label]) => ({ value, label, picture: value === 'unsure' ? undefined : roofPicture(value === 'true' ? 'yes' : 'no') }))
  const choose = (/** @type {string} */ value) => {
    write('/roof/bears', value === 'unsure' ? 'true' : value)
    // A roof that rests here is no "no roof"; what kind it is has to be said anew.
    if (value !== 'false' && typed('/roof/kind') === 'none') write('/roof/kind', null)
    remember('said/roof', value === 'unsure' ? 'unsure' : 'yes')
    again()
  }
  return {
    $view: [tiles({ name: 'roof', field: '/roof/bears', legend: startWords.questions.roof, quiet: true, options: options.sort((a, b) => Number(a.value === 'unsure') - Number(b.value === 'unsure')), chosen, choose }),
      chosen && chosen !== 'false' && h('div', { class: 'measures' }, pick('/roof/kind', choices.roof), quantity('/roof/span_m'), storeys() === 0 && quantity('/roof/bearing_m')), unsureLine('roof')],
  }
}

/** @param {() => void} again @returns {Asked} */
export function beamQuestion(again) {
  const chosen = said('beam') === 'unsure' ? 'unsure' : typed('/opening/flush')
  const choose = (/** @type {string} */ value) => {
    write('/opening/flush', value === 'unsure' ? null : value)
    remember('said/beam', value === 'unsure' ? 'unsure' : 'yes')
    again()
  }
  return {
    $view: [tiles({ name: 'beam', field: '/opening/flush', legend: startWords.questions.beam, quiet: true, options: Object.entries(startWords.beams).map(([value, label]) => ({ value, label, picture: value === 'unsure' ? undefined : beamPicture(value) })), chosen, choose }),
      h('div', { class: 'measures' }, quantity('/opening/beam_depth_mm')), unsureLine('beam')],
  }
}

