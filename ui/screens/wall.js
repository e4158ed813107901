// @ts-check
import { h } from '../parts/dom.js'
import { choice, quantity, select } from '../parts/field.js'
import { photos } from '../parts/photo.js'
import { clearBelow, flush, site, write } from '../parts/site.js'
import { choices } from '../words.js'

/** @param {number} i @param {string} name */
function leaf(i, name) {
  const at = `/wall/leaves/${i}`
  return h('div', {}, h('h3', {}, name),
    select(`${at}/material`, `${name}: made of`, choices.material),
    quantity(`${at}/thickness_mm`, `${name}: thickness`, 'mm', 'Without plaster. A brick is 102.5, a brick laid across 215, a common block 100.'),
    choice(`${at}/mortar`, `${name}: mortar`, choices.mortar, { hint: 'Scrape a joint with a screwdriver: lime crumbles like stale cake, cement does not.' }),
    quantity(`${at}/plaster_mm`, `${name}: plaster`, 'mm'))
}

/** @param {'inside'|'outside'} side */
function sideView(side) {
  const at = `/sides/${side}`
  const Side = side === 'inside' ? 'Inside' : 'Outside'
  return h('div', {}, h('h3', {}, `${Side} of the wall`),
    select(`${at}/foot/kind`, `${Side}: what the feet stand on`, choices.foot),
    quantity(`${at}/foot/thickness_mm`, `${Side}: thickness of the slab`, 'mm', 'Only for a slab. Not known: leave it empty.'),
    select(`${at}/foot/ground`, `${Side}: ground below`, choices.ground, 'A boot heel that sinks in means soft.'),
    select(`${at}/foot/carried_down`, `${Side}: below a floor over a void`, choices.carried),
    quantity(`${at}/foot_level_m`, `${Side}: ground level`, 'm', 'Over the floor inside. Lower is minus: −0.15.'),
    quantity(`${at}/room_m`, `${Side}: clear room from the wall`, 'm'),
    choice(`${at}/foot/fixed`, `${Side}: feet set out and fixed on the middle of their boards?`, choices.flag))
}

/** @param {HTMLElement} $main @param {() => void} again */
export function wallScreen($main, again) {
  const two = Object.keys(site.fields).some((field) => field.startsWith('/wall/leaves/1/'))
  const leaves = two ? '2' : Object.keys(site.fields).some((field) => field.startsWith('/wall/leaves/0/')) ? '1' : undefined
  const setLeaves = (/** @type {string} */ count) => {
    if (count === '1') { clearBelow('/wall/leaves/1/'); write('/wall/cavity_mm', '0') } else { write('/wall/leaves/1/plaster_mm', site.fields['/wall/leaves/1/plaster_mm'] ?? '13'); if (site.fields['/wall/cavity_mm'] === '0') write('/wall/cavity_mm', null) }
    if (!('/wall/leaves/0/plaster_mm' in site.fields)) write('/wall/leaves/0/plaster_mm', '0')
    flush()
    again()
  }
  const answer = (/** @type {string} */ key, /** @type {string} */ label, /** @type {string} */ hint) => choice(`/answers/${key}`, label, choices.yesNo, { hint })
  $main.append(h('div', { class: 'sides' }, h('div', {},
    h('h2', {}, 'Photo of the wall'), photos('wall', 'group', 'photo of the wall'),
    h('h2', {}, 'The new opening'),
    quantity('/opening/width_m', 'Width of the opening', 'm'),
    quantity('/opening/head_m', 'Head height', 'm', 'From the floor inside to the underside of the new beam.'),
    h('div', { class: 'two' }, quantity('/opening/left_masonry_m', 'Wall left of it', 'm'), quantity('/opening/right_masonry_m', 'Wall right of it', 'm')),
    h('p', { class: 'hint' }, 'Seen from inside, up to the next opening, corner or end of the wall.'),
    quantity('/opening/beam_depth_mm', 'Depth of the new beam', 'mm'),
    choice('/opening/flush', 'Where the new beam goes', [['false', 'Below the ceiling'], ['true', 'Up in the floor']]),
    h('h2', {}, 'How the wall is built'),
    choice('/wall/leaves', 'Leaves of the wall', [['1', 'One, solid'], ['2', 'Two with a cavity']], { value: leaves, changed: setLeaves, hint: 'Look at the depth of a window reveal: over about 250 mm there are two.' }),
    leaves && (two ? [leaf(0, 'Outer leaf'), quantity('/wall/cavity_mm', 'Cavity', 'mm'), leaf(1, 'Inner leaf')] : leaf(0, 'The leaf')),
    choice('/wall/condition', 'Condition of the wall', choices.condition),
    choice('/wall/outside_wall', 'Is it an outside wall?', choices.flag),
    choice('/wall/gable', 'Is it a gable?', choices.flag)),
  h('div', {},
    h('h2', {}, 'What is under the feet'), sideView('inside'), sideView('outside'),
    h('h2', {}, 'Before anything else'),
    h('p', { class: 'soft' }, 'Any yes, and any not sure, means: ask for its own design.'),
    answer('cellar', 'Cellar, drain, manhole or void under or near the feet?', 'Air bricks low in the wall mean a void. Lift a cover, ask who built it.'),
    answer('chimney', 'Chimney breast or stack in or over the wall?', 'Look in the rooms above, in the loft and from the street.'),
    answer('bay', 'Is it a bay window?', 'Its frame may carry the floor and roof above.'),
    answer('veneer', 'Only a brick skin over a frame?', 'Knock inside: plasterboard on timber sounds hollow.'),
    answer('removed', 'Floors, cross walls or roof ties taken out, or to be taken out?', 'Compare the rooms with those above and next door.'),
    answer('digging', 'Anyone digging near the feet?', 'Drains, footings and pads count.'),
    answer('cracked', 'Does the wall bulge, lean or crack?', 'Hold a long level or a plumb line against it.'),
    quantity('/answers/corner_m', 'Distance to the next corner', 'm', 'Empty: the smaller of the wall left and right.'),
    select('/answers/restraint', 'What ties the wall just above the opening', choices.restraint, 'Joists that bear on it, a roof that bears on it, or straps.'),
    h('h2', {}, 'Props at hand'),
    select('/props/0/class', 'Props', choices.props, 'A class only if it is stamped on the prop.', (value) => {
      if (value === '') clearBelow('/props/0/')
      else { write('/props/0/data', 'en1065'); write('/props/0/name', value) }
    }))))
}
