// @ts-check
import { choices } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { choice, pick, quantity, rowList, text } from '../../parts/field.js'
import { photos } from '../../parts/photo.js'
import { below, clearBelow, dropRow, flush, rows, site, write } from '../../parts/site.js'
import { fold } from '../../parts/why.js'
import { fieldWords, measureWords, wallWords } from '../../words.js'
import { existingRows } from './existing.js'
import { leavesSketch, openingSketch } from './wall-sketch.js'

/**
 * The opening, the wall, what is at its sides, and the questions that come before anything else.
 * @param {HTMLElement} $main @param {() => void} again
 * @returns {() => void}
 */
export function wallScreen($main, again) {
  const $opening = h('div', { class: 'drawing' })
  const $leaves = h('div', { class: 'drawing' })
  $main.append(h('p', { class: 'ways' }, h('a', { href: `#${site.id}/start` }, wallWords.toStart), h('a', { href: `#${site.id}/measure` }, measureWords.link)), h('div', { class: 'sides' },
    h('div', {}, openingView($opening), photoView(), builtView($leaves, again)),
    h('div', {}, feetView(), questionsView(), propsView(again))))
  return () => {
    $opening.replaceChildren(openingSketch(site.fields))
    $leaves.replaceChildren(leavesSketch(site.fields))
  }
}

/** @param {HTMLElement} $drawing */
function openingView($drawing) {
  return h('section', {}, h('h2', {}, wallWords.opening), $drawing,
    quantity('/opening/width_m'), quantity('/opening/head_m'), quantity('/opening/left_masonry_m'), quantity('/opening/right_masonry_m', { hint: wallWords.openingHint }),
    quantity('/opening/beam_depth_mm'), choice('/opening/flush', choices.beam),
    fold(wallWords.beamTitle, [h('p', { class: 'hint' }, wallWords.beamHint), text('/opening/beam/name'), quantity('/opening/beam/mass_kg_m'), quantity('/opening/beam/length_m'), quantity('/opening/beam/pieces')], below('/opening/beam/').length > 0))
}

/** One leaf's fields; how to find out is said once. @param {string} at @param {string} name @param {boolean} [said] */
export function leafView(at, name, said = false) {
  const more = said ? { hint: '' } : {}
  return h('div', { role: 'group', 'aria-label': name }, h('h3', {}, name),
    pick(`${at}/material`, choices.material), quantity(`${at}/thickness_mm`, more), choice(`${at}/mortar`, choices.mortar, more), quantity(`${at}/plaster_mm`),
    fold(wallWords.known, ['unit_n_mm2', 'mortar_n_mm2', 'density_kn_m3'].map((key) => quantity(`${at}/${key}`, more)), ['unit_n_mm2', 'mortar_n_mm2', 'density_kn_m3'].some((key) => site.fields[`${at}/${key}`]), `known ${at}`))
}

/** @param {HTMLElement} $drawing @param {() => void} again */
function builtView($drawing, again) {
  const two = below('/wall/leaves/1/').length > 0
  const said = two ? '2' : below('/wall/leaves/0/').length > 0 ? '1' : undefined
  return h('section', {}, h('h2', {}, wallWords.built),
    choice('/wall/leaves', choices.leaves, { value: said, changed: (count) => { setLeaves(count); again() } }),
    said && $drawing,
    two && [leafView('/wall/leaves/0', fieldWords.leaf(0, 2)), quantity('/wall/cavity_mm'), leafView('/wall/leaves/1', fieldWords.leaf(1, 2), true)],
    said === '1' && leafView('/wall/leaves/0', fieldWords.leaf(0, 1)),
    choice('/wall/condition', choices.condition), choice('/wall/outside_wall', choices.flag), choice('/wall/gable', choices.flag),
    fold(wallWords.existing, existingRows(again), rows('/wall/openings/').length > 0),
    fold(wallWords.forbidden, forbiddenView(again), rows('/forbidden/').length > 0))
}

/** A leaf exists as soon as one of its keys does; no plaster is what an empty field means, so it is written out. @param {string} count */
function setLeaves(count) {
  const plaster = (/** @type {string} */ leaf) => { if (below(`/wall/leaves/${leaf}/`).length === 0) write(`/wall/leaves/${leaf}/plaster_mm`, '0') }
  plaster('0')
  if (count === '2') {
    plaster('1')
    if (site.fields['/wall/cavity_mm'] === '0') write('/wall/cavity_mm', null)
  } else {
    clearBelow('/wall/leaves/1/')
    write('/wall/cavity_mm', '0')
  }
}

/** @param {() => void} again */
function forbiddenView(again) {
  const list = rows('/forbidden/')
  return rowList('', list, wallWords.addForbidden, {
    name: (row) => `Place ${row + 1}`,
    row: (row) => [text(`/forbidden/${row}/why`), quantity(`/forbidden/${row}/from_m`), quantity(`/forbidden/${row}/to_m`)],
    add: () => { write(`/forbidden/${list.length}/from_m`, ''); flush(); again() },
    drop: (row) => { dropRow('/forbidden/', row); again() },
  })
}

function feetView() {
  return h('section', {}, h('h2', {}, wallWords.feet), h('p', { class: 'hint' }, wallWords.feetHint), sideView('inside', wallWords.inside), sideView('outside', wallWords.outside))
}

/** What the feet of one side stand on; only what that kind of ground asks is shown. @param {'inside'|'outside'} side @param {string} name */
function sideView(side, name) {
  const at = `/sides/${side}`
  const $slab = quantity(`${at}/foot/thickness_mm`)
  const $down = pick(`${at}/foot/carried_down`, choices.carried)
  const fit = () => {
    const kind = site.fields[`${at}/foot/kind`] ?? ''
    $slab.hidden = !['slab_on_ground', 'suspended_slab'].includes(kind) && !site.fields[`${at}/foot/thickness_mm`]
    $down.hidden = !['suspended_timber', 'suspended_slab', 'decking'].includes(kind) && !site.fields[`${at}/foot/carried_down`]
  }
  fit()
  return h('div', { role: 'group', 'aria-label': name, onchange: fit }, h('h3', {}, name),
    pick(`${at}/foot/kind`, choices.foot), $slab, pick(`${at}/foot/ground`, choices.ground), $down,
    quantity(`${at}/foot_level_m`), quantity(`${at}/room_m`), choice(`${at}/foot/fixed`, choices.flag))
}

function questionsView() {
  const asked = ['cellar', 'chimney', 'bay', 'veneer', 'removed', 'digging', 'cracked']
  return h('section', {}, h('h2', {}, wallWords.questions), h('p', { class: 'hint' }, wallWords.questionsHint),
    asked.map((key) => choice(`/answers/${key}`, choices.yesNo)), quantity('/answers/corner_m'), pick('/answers/restraint', choices.restraint))
}

/** @param {() => void} again */
function propsView(again) {
  const sheet = site.fields['/props/0/data'] === 'sheet'
  const set = (/** @type {string} */ value) => {
    const changes = (value === 'sheet') !== sheet
    if (changes || value === '') clearBelow('/props/0/')
    if (value === 'sheet') {
      write('/props/0/data', 'sheet')
      write('/props/0/name', 'by their sheet')
    } else if (value !== '') {
      write('/props/0/data', 'en1065')
      write('/props/0/name', value)
      write('/props/0/class', value)
    }
    if (changes) again()
  }
  const chosen = sheet ? 'sheet' : site.fields['/props/0/class'] ?? ''
  return h('section', {}, h('h2', {}, wallWords.props), pick('/props/0/class', choices.props, { value: chosen, changed: set }), sheet && sheetView(again),
    fold(wallWords.bracketsTitle, [h('p', { class: 'hint' }, wallWords.bracketsHint), quantity('/catalogue/bracket/rated_kn'), quantity('/catalogue/bracket/arm_mm'), text('/catalogue/bracket/plate_mm')], below('/catalogue/bracket/').length > 0))
}

/** @param {() => void} again */
function sheetView(again) {
  const at = '/props/0/table/'
  const list = rows(at)
  return h('div', {}, text('/props/0/name'), choice('/props/0/load', choices.sheetLoad), quantity('/props/0/min_m'), quantity('/props/0/max_m'),
    rowList(wallWords.sheet, list, wallWords.addSheet, {
      name: (row) => `Line ${row + 1}`,
      row: (row) => [quantity(`${at}${row}/0`), quantity(`${at}${row}/1`)],
      add: () => { write(`${at}${list.length}/0`, ''); flush(); again() },
      drop: (row) => { dropRow(at, row); again() },
    }))
}

function photoView() {
  return h('section', {}, h('h2', {}, wallWords.photo), h('p', { class: 'hint' }, wallWords.photoHint), photos('wall', 'group', wallWords.photoOf))
}
