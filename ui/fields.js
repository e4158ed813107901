// @ts-check
/** What each field of a job is called, in which unit it is typed, how to find it out, and on which screen it stands. */

/**
 * @typedef {object} FieldText
 * @property {string} label
 * @property {string} [unit]
 * @property {string} [hint] how to find it out
 * @property {string} [minus] what a minus means; the field then has a button for it
 */

/** @type {Readonly<Record<string, FieldText>>} Keys are paths with # for a row's number. */
const TEXTS = Object.freeze({
  '/opening/width_m': { label: 'Width of the opening', unit: 'm' },
  '/opening/head_m': { label: 'Head height', unit: 'm', hint: 'From the floor inside to the underside of the new beam.' },
  '/opening/left_masonry_m': { label: 'Wall left of it', unit: 'm' },
  '/opening/right_masonry_m': { label: 'Wall right of it', unit: 'm' },
  '/opening/beam_depth_mm': { label: 'Depth of the new beam', unit: 'mm' },
  '/opening/flush': { label: 'Where the new beam goes' },
  '/opening/beam/name': { label: 'The new beam’s section', hint: 'As on the engineer’s drawing.' },
  '/opening/beam/mass_kg_m': { label: 'Weight of one beam', unit: 'kg/m', hint: 'The second number of its name: 152 × 89 × 16 is 16 kg/m.' },
  '/opening/beam/length_m': { label: 'Length of the new beam', unit: 'm' },
  '/opening/beam/pieces': { label: 'Beams side by side' },
  '/opening/needle_soffit_m': { label: 'Underside of the needles', unit: 'm' },
  '/opening/beam': { label: 'The new beam' },
  '/wall/leaves': { label: 'Leaves of the wall', hint: 'Look at the depth of a window reveal: over about 250 mm there are two.' },
  '/wall/leaves/#/material': { label: 'made of' },
  '/wall/leaves/#/thickness_mm': { label: 'thickness', unit: 'mm', hint: 'Without plaster. A brick is 102.5, a brick laid across 215, a common block 100.' },
  '/wall/leaves/#/mortar': { label: 'mortar', hint: 'Scrape a joint with a screwdriver: lime crumbles like stale cake, cement does not.' },
  '/wall/leaves/#/plaster_mm': { label: 'plaster', unit: 'mm' },
  '/wall/leaves/#/unit_n_mm2': { label: 'strength of the brick or block', unit: 'N/mm²', hint: 'From a test or the maker. Empty: a low value of its kind.' },
  '/wall/leaves/#/mortar_n_mm2': { label: 'strength of the mortar', unit: 'N/mm²', hint: 'From a test. Empty: by its kind.' },
  '/wall/leaves/#/density_kn_m3': { label: 'weight of the masonry', unit: 'kN/m³' },
  '/wall/leaves/#/year': { label: 'built about' },
  '/wall/cavity_mm': { label: 'Cavity', unit: 'mm' },
  '/wall/condition': { label: 'Condition of the wall' },
  '/wall/outside_wall': { label: 'Is it an outside wall?' },
  '/wall/gable': { label: 'Is it a gable?', hint: 'Rising into a triangle under the roof. As long as nobody says, it counts as one.' },
  '/wall/openings/#/x_m': { label: 'left edge', unit: 'm', minus: 'left', hint: 'From the left edge of the new opening.' },
  '/wall/openings/#/sill_m': { label: 'sill over the floor', unit: 'm' },
  '/wall/openings/#/width_m': { label: 'width', unit: 'm' },
  '/wall/openings/#/height_m': { label: 'height', unit: 'm' },
  '/wall/openings/#/stays': { label: 'does it stay?' },
  '/forbidden/#/from_m': { label: 'from', unit: 'm', minus: 'left', hint: 'From the left edge of the new opening.' },
  '/forbidden/#/to_m': { label: 'to', unit: 'm', minus: 'left' },
  '/forbidden/#/why': { label: 'what is there' },
  '/sides/#/foot/kind': { label: 'what the feet stand on' },
  '/sides/#/foot/thickness_mm': { label: 'thickness of the slab', unit: 'mm', hint: 'Only for a slab. Not known: leave it empty.' },
  '/sides/#/foot/ground': { label: 'ground below', hint: 'A boot heel that sinks in means soft.' },
  '/sides/#/foot/carried_down': { label: 'under that hollow floor' },
  '/sides/#/foot_level_m': { label: 'ground level', unit: 'm', minus: 'lower', hint: 'Over the floor inside.' },
  '/sides/#/room_m': { label: 'clear room from the wall', unit: 'm' },
  '/sides/#/foot/fixed': { label: 'feet set out and fixed on the middle of their boards?' },
  '/answers/cellar': { label: 'Cellar, drain, manhole or void under or near the feet?', hint: 'Air bricks low in the wall mean a void. Lift a cover, ask who built it.' },
  '/answers/chimney': { label: 'Chimney breast or stack in or over the wall?', hint: 'Look in the rooms above, in the loft and from the street.' },
  '/answers/bay': { label: 'Is it a bay window?', hint: 'Its frame may carry the floor and roof above.' },
  '/answers/veneer': { label: 'Only a brick skin over a frame?', hint: 'Knock inside: plasterboard on timber sounds hollow.' },
  '/answers/removed': { label: 'Floors, cross walls or roof ties taken out, or to be taken out?', hint: 'Compare the rooms with those above and next door.' },
  '/answers/digging': { label: 'Anyone digging near the feet?', hint: 'Drains, footings and pads count.' },
  '/answers/cracked': { label: 'Does the wall bulge, lean or crack?', hint: 'Hold a long level or a plumb line against it.' },
  '/answers/corner_m': { label: 'Distance to the next corner', unit: 'm', hint: 'Empty: the smaller of the wall left and right.' },
  '/answers/restraint': { label: 'What ties the wall just above the opening', hint: 'Joists that bear on it, a roof that bears on it, or straps.' },
  '/props/#/class': { label: 'Props', hint: 'A class only if it is stamped on the prop.' },
  '/props/#/name': { label: 'what they are called' },
  '/props/#/load': { label: 'The sheet gives' },
  '/props/#/min_m': { label: 'shortest', unit: 'm' },
  '/props/#/max_m': { label: 'longest', unit: 'm' },
  '/props/#/table/#/0': { label: 'length', unit: 'm' },
  '/props/#/table/#/1': { label: 'load', unit: 'kN' },
  '/props/#/data': { label: 'What their loads come from' },
  '/props/#/size': { label: 'Size' },
  '/props/#/table': { label: 'Loads from the sheet' },
  '/props': { label: 'Props at hand' },
  '/catalogue/bracket/rated_kn': { label: 'Rated load of one bracket', unit: 'kN', hint: 'As its maker’s sheet says. Without it no bracket is proposed.' },
  '/catalogue/bracket/arm_mm': { label: 'Bracket’s arm', unit: 'mm', hint: 'From the middle of the prop to the middle of the plate.' },
  '/catalogue/bracket/plate_mm': { label: 'Bracket’s plate, along the wall × into it', hint: 'In mm, as 150 × 100.' },
  '/catalogue/sections/#': { label: 'section', hint: 'As SHS100x100x5 S355, UC152x152x23 or C24 150x150.' },
  '/catalogue/rates/needle': { label: 'One needle', unit: 'a week' },
  '/catalogue/rates/prop': { label: 'One prop', unit: 'a week' },
  '/catalogue/rates/board': { label: 'One board', unit: 'a week' },
  '/catalogue/bracket': { label: 'Prop-head brackets at hand' },
  '/above': { label: 'Storeys above the opening' },
  '/above/#/height_m': { label: 'height', unit: 'm', hint: 'From joists to joists, or up to where the roof rests.' },
  '/above/#/leaves': { label: 'the same wall as below?' },
  '/above/#/leaves/#/material': { label: 'made of' },
  '/above/#/leaves/#/thickness_mm': { label: 'thickness', unit: 'mm' },
  '/above/#/leaves/#/mortar': { label: 'mortar' },
  '/above/#/leaves/#/plaster_mm': { label: 'plaster', unit: 'mm' },
  '/above/#/leaves/#/unit_n_mm2': { label: 'strength of the brick or block', unit: 'N/mm²' },
  '/above/#/leaves/#/mortar_n_mm2': { label: 'strength of the mortar', unit: 'N/mm²' },
  '/above/#/leaves/#/density_kn_m3': { label: 'weight of the masonry', unit: 'kN/m³' },
  '/above/#/floor/direction': { label: 'how its joists lie', hint: 'Board nails run in lines along the joists: boards lie across them.' },
  '/above/#/floor/inside_span_m': { label: 'joist span inside', unit: 'm' },
  '/above/#/floor/outside_span_m': { label: 'joist span on the other side', unit: 'm' },
  '/above/#/floor/continuous': { label: 'joists run through over the wall?' },
  '/above/#/floor/beam_and_block': { label: 'what is it made of?' },
  '/above/#/floor/held_apart': { label: 'hold it apart from the wall, on a line of its own?' },
  '/above/#/floor': { label: 'its floor' },
  '/above/#/floor/leaf': { label: 'floor bears on' },
  '/above/#/floor/bearing_m': { label: 'underside of the joists', unit: 'm', hint: 'Over the floor of the room with the opening.' },
  '/above/#/floor/slept_in': { label: 'does anyone sleep there?' },
  '/above/#/floor/empty': { label: 'emptied of furniture and stores?' },
  '/above/#/floor/dead_kn_m2': { label: 'weight of the floor', unit: 'kN/m²' },
  '/above/#/floor/imposed_kn_m2': { label: 'people and furniture', unit: 'kN/m²' },
  '/above/#/floor/partitions_kn_m2': { label: 'partitions', unit: 'kN/m²' },
  '/above/#/floor/joist_depth_m': { label: 'depth of the joists', unit: 'm' },
  '/above/#/floor/joist_spacing_m': { label: 'joists apart', unit: 'm' },
  '/above/#/openings/#/x_m': { label: 'left edge', unit: 'm', minus: 'left', hint: 'From the left edge of the new opening.' },
  '/above/#/openings/#/width_m': { label: 'width', unit: 'm' },
  '/above/#/openings/#/sill_m': { label: 'sill over its floor', unit: 'm' },
  '/above/#/openings/#/height_m': { label: 'height', unit: 'm' },
  '/roof/kind': { label: 'Kind of roof' },
  '/roof/bears': { label: 'Does the roof rest on this wall?' },
  '/roof/span_m': { label: 'Span of the roof', unit: 'm', hint: 'Wall to wall on plan.' },
  '/roof/pitch_deg': { label: 'Pitch', unit: '°' },
  '/roof/overhang_m': { label: 'Overhang at the eaves', unit: 'm' },
  '/roof/bearing_m': { label: 'Where the roof rests', unit: 'm', hint: 'Over the floor inside. Empty: on top of the storeys.' },
  '/roof/truss_x_m': { label: 'Where the trusses rest, m from the left jamb', hint: 'One after the other, as −0.15; 0.45; 1.05. With a needle under each of them the wall plate bends no more.' },
  '/roof/leaf': { label: 'Roof bears on' },
  '/roof/dead_kn_m2': { label: 'Tiles and timbers', unit: 'kN/m²' },
  '/roof/ceiling_kn_m2': { label: 'Ceiling and loft', unit: 'kN/m²' },
  '/roof/plate_mm': { label: 'Wall plate, width × depth', unit: 'mm' },
  '/points/#/what': { label: 'what it is' },
  '/points/#/x_m': { label: 'place', unit: 'm', minus: 'left', hint: 'From the left edge of the new opening.' },
  '/points/#/level': { label: 'on which level' },
  '/points/#/leaf': { label: 'bears on' },
  '/points/#/dead_kn': { label: 'permanent', unit: 'kN', hint: 'A full 300 l tank is 3 kN.' },
  '/points/#/imposed_kn': { label: 'coming and going', unit: 'kN' },
  '/site/days': { label: 'Days it will stand', unit: 'days' },
  '/site/altitude_m': { label: 'Height above the sea', unit: 'm' },
  '/site/snow_zone': { label: 'Snow zone of the UK map' },
  '/site/wind_m_s': { label: 'Basic wind speed', unit: 'm/s' },
  '/site/terrain': { label: 'Surroundings' },
  '/site/national': { label: 'Values of which country' },
  '/site/snow_kn_m2': { label: 'Snow on the ground', unit: 'kN/m²' },
  '/site/gust_m_s': { label: 'Today’s gust', unit: 'm/s' },
  '/check/name': { label: 'Checked by' },
  '/check/date': { label: 'Checked on' },
  '/check/category': { label: 'Category of the check' },
  '/builders_plan/kind': { label: 'How the wall is to be held' },
  '/builders_plan/count': { label: 'How many', hint: 'Needles, brackets or props, where their places are not said.' },
  '/builders_plan/runner/section': { label: 'Section of the runner', hint: 'A beam along the wall under the needles, on fewer props. As UC152x152x23 or C24 150x150.' },
  '/builders_plan/runner/spacing_m': { label: 'Props under the runner, apart', unit: 'm' },
  '/builders_plan/runner/props_x_m': { label: 'Or where they stand, m from the left jamb', hint: 'One after the other, as 0.1; 1.6; 3.1.' },
  '/builders_plan/runner': { label: 'A runner under the needles' },
  '/builders_plan/plate_mm': { label: 'Bracket’s plate, along the wall × into it', hint: 'In mm, as 150 × 100. Empty: as at hand.' },
  '/builders_plan/needles_x_m': { label: 'Where they stand, m from the left jamb', hint: 'One after the other, as 0.45; 1.35; 2.25.' },
  '/builders_plan/section': { label: 'Section of the needles', hint: 'As SHS100x100x5, UC152x152x23 or C24 100x100. Empty: chosen here.' },
  '/builders_plan/inside_y_mm': { label: 'Props inside, from the outer face', unit: 'mm', hint: 'Through the wall. Empty: chosen here.' },
  '/builders_plan/outside_y_mm': { label: 'Props outside, from the outer face', unit: 'mm', minus: 'outside' },
  '/builders_plan/prop/size': { label: 'Props' },
  '/builders_plan/rated_kn': { label: 'Rated load of one bracket', unit: 'kN', hint: 'From the maker’s sheet. Without it a bracket counts for nothing.' },
  '/builders_plan/arm_mm': { label: 'How far beside the prop its load sits', unit: 'mm', hint: 'From the prop’s middle to the middle of the leaf.' },
  '/builders_plan/feet': { label: 'What stands under the props', hint: 'Size of the board, as 450x225x38, or no boards. Empty: chosen here.' },
  '/engineer/name': { label: 'Engineer' },
  '/engineer/date': { label: 'Date of the answer' },
  '/engineer/section': { label: 'Section', hint: 'As SHS100x100x5 or UC152x152x23.' },
  '/engineer/spacing_m': { label: 'Needles apart', unit: 'm' },
  '/engineer/load_kn_m': { label: 'Load along the wall', unit: 'kN/m' },
  '/engineer/may_sleep': { label: 'May people sleep above, by the engineer’s word?' },
  '/engineer/notes': { label: 'What else the answer says' },
  '/country': { label: 'Country' },
  '/opening': { label: 'The new opening' },
  '/wall': { label: 'How the wall is built' },
  '/wall/leaves/#': { label: 'how it is built' },
  '/roof': { label: 'The roof' },
  '/sides': { label: 'What is under the feet' },
  '/site': { label: 'The site' },
  '/answers': { label: 'The questions before anything else' },
})

/** @type {Readonly<Record<string, readonly (readonly [string, string])[]>>} */
export const choices = Object.freeze({
  yesNo: [['yes', 'Yes'], ['no', 'No'], ['unknown', 'Not sure']],
  flag: [['true', 'Yes'], ['false', 'No']],
  same: [['same', 'Yes'], ['other', 'No']],
  beam: [['false', 'Below the ceiling'], ['true', 'Up in the floor']],
  leaves: [['1', 'One, solid'], ['2', 'Two with a cavity']],
  country: [['england', 'England'], ['wales', 'Wales'], ['scotland', 'Scotland'], ['northern_ireland', 'Northern Ireland'], ['ireland', 'Ireland'], ['germany', 'Germany'], ['usa', 'United States'], ['other', 'Elsewhere']],
  material: [['clay_brick', 'Clay brick'], ['calcium_silicate_brick', 'Sand-lime brick'], ['dense_block', 'Dense concrete block'], ['medium_block', 'Medium concrete block'], ['aerated_block', 'Aerated block'], ['coursed_stone', 'Coursed stone'], ['rubble', 'Rubble']],
  mortar: [['cement', 'Cement'], ['lime', 'Lime or not sure'], ['perished', 'Mud or perished']],
  condition: [['sound', 'Sound'], ['doubtful', 'Not sure'], ['poor', 'Poor']],
  foot: [['slab_on_ground', 'Concrete slab on the ground'], ['ground', 'Bare ground'], ['paving', 'Paving'], ['suspended_timber', 'Timber floor over a void'], ['suspended_slab', 'Concrete floor over a void'], ['decking', 'Decking'], ['unknown', 'Not sure']],
  ground: [['unknown', 'Not sure'], ['soft_clay', 'Soft clay'], ['firm_clay', 'Firm clay'], ['stiff_clay', 'Stiff clay'], ['loose_sand', 'Loose sand'], ['dense_sand', 'Dense sand'], ['gravel', 'Gravel'], ['rock', 'Rock']],
  carried: [['null', 'Nothing below'], ['props_below', 'Props below in line'], ['solid', 'Through to solid ground']],
  restraint: [['floor', 'The floor above'], ['roof', 'The roof'], ['strapped', 'Straps'], ['designed', 'Designed by an engineer'], ['none', 'Nothing'], ['unknown', 'Not sure']],
  storeys: [['0', 'Only the roof'], ['1', 'One'], ['2', 'Two'], ['3', 'Three']],
  floor: [['onto', 'On this wall, or not sure'], ['along', 'Along it'], ['none', 'No floor']],
  leaf: [['inner', 'Inner leaf'], ['outer', 'Outer leaf'], ['both', 'Both']],
  roof: [['trusses', 'Trusses'], ['rafters', 'Rafters and purlins'], ['flat', 'Flat'], ['none', 'No roof over it']],
  bears: [['true', 'Yes, or not sure'], ['false', 'No']],
  terrain: [['II', 'Open country, or not sure'], ['III', 'Suburb, village or forest'], ['IV', 'Town centre'], ['I', 'Flat, no obstacles'], ['0', 'Sea front']],
  made: [['false', 'Timber joists'], ['true', 'Concrete beams and blocks']],
  national: [['uk', 'United Kingdom'], ['recommended', 'Recommended by the Eurocodes']],
  planKind: [['needles', 'On needles'], ['brackets', 'On prop-head brackets'], ['props', 'Props right under the wall']],
  sizes: [['', 'Chosen here'], ['0', 'Size 0'], ['1', 'Size 1'], ['2', 'Size 2'], ['3', 'Size 3'], ['4', 'Size 4']],
  category: [['0', '0'], ['1', '1'], ['2', '2'], ['3', '3']],
  props: [['', 'Trade sizes 0 to 4'], ['B30', 'Class B30'], ['B35', 'Class B35'], ['B40', 'Class B40'], ['D30', 'Class D30'], ['D35', 'Class D35'], ['E30', 'Class E30'], ['sheet', 'From their own sheet']],
  sheetLoad: [['safe_working', 'Safe working load'], ['characteristic', 'Characteristic strength']],
})

/**
 * Two leaves or one: the names of the leaves depend on it.
 * @param {Record<string, string>} fields
 */
const isTwo = (fields) => Object.keys(fields).some((field) => field.startsWith('/wall/leaves/1/'))

/** @param {string} i @param {boolean} two */
const leafName = (i, two) => (two ? (i === '0' ? 'Outer leaf' : 'Inner leaf') : 'The leaf')

/**
 * The part of a label that names its row, with its colon: "Storey 1 above: ".
 * @param {string} path @param {Record<string, string>} fields
 */
function prefixOf(path, fields) {
  const [, top, a, b, c] = path.split('/')
  const row = Number(a) + 1
  if (top === 'sides' && a) return `${a === 'inside' ? 'Inside' : 'Outside'}: `
  if (top === 'wall' && a === 'leaves' && b) return `${leafName(b, isTwo(fields))}: `
  if (top === 'wall' && a === 'openings' && b) return `Window ${Number(b) + 1} of this wall: `
  if (top === 'above' && a && b === 'openings' && c) return `Storey ${row} above, window ${Number(c) + 1}: `
  if (top === 'above' && a && b === 'leaves' && c) return `Storey ${row} above, ${leafName(c, isTwo(fields)).toLowerCase()}: `
  if (top === 'above' && a) return `Storey ${row} above: `
  if (top === 'points' && a) return `Point ${row}: `
  if (top === 'forbidden' && a) return `Place ${row}: `
  if (top === 'props' && b === 'table') return `Line ${Number(c) + 1}: `
  return ''
}

/**
 * What a field is called. `prefix` is the row's name, which its heading says already.
 * @param {string} path @param {Record<string, string>} fields
 * @returns {FieldText & {prefix: string, full: string}}
 */
export function fieldText(path, fields) {
  const pattern = path.replace(/\/\d+(?=\/|$)/g, '/#').replace(/^\/sides\/(inside|outside)/, '/sides/#')
    .replace(/(\/table\/#)\/#$/, (_, start) => `${start}/${path.at(-1)}`)
  const known = TEXTS[pattern]
  const prefix = prefixOf(path, fields)
  const label = known?.label ?? plainPath(path)
  return { ...known, label, prefix: known ? prefix : '', full: known ? `${prefix}${label}` : label }
}

/** A key nobody put into words, as words. @param {string} path */
function plainPath(path) {
  const last = path.split('/').filter((part) => part && !/^\d+$/.test(part)).slice(-2).map((part) => part.replace(/_(m|mm|kn|kpa|deg|kn_m2|kn_m3|n_mm2|m_s)$/, '').replaceAll('_', ' '))
  const row = path.match(/leaves\/(\d)/)
  return `${last.at(-1) ?? 'the job'}${row ? ` of leaf ${Number(row[1]) + 1}` : last.length > 1 ? ` (${last[0]})` : ''}`
}

/** The screen on which a path is asked. @param {string} path @returns {'wall'|'above'|'support'} */
export function screenOf(path) {
  if (/^\/(above|roof|points|site)(\/|$)/.test(path)) return 'above'
  if (/^\/(check|engineer|builders_plan|catalogue\/(sections|rates))(\/|$)/.test(path)) return 'support'
  return 'wall'
}

/** Plain words for each check. */
const CHECKS = Object.freeze({
  needle_bending: 'Needle, bending', needle_bending_service: 'Needle, bending in daily use', needle_shear: 'Needle, cut across',
  needle_bending_shear: 'Needle, bent and cut across', needle_ltb: 'Needle, tipping over', needle_web_wall: 'Needle under the wall',
  needle_web_prop: 'Needle on the prop', needle_deflection: 'Needle, sag', prop: 'Prop', bearing_outer: 'Outer leaf on the needle',
  bearing_inner: 'Inner leaf on the needle', arch_outer: 'Outer leaf between needles', arch_inner: 'Inner leaf between needles',
  arch_loose: 'What bears between needles', stage: 'Wall with all holes cut', clear_masonry: 'Wall left between holes',
  end_bay: 'End of the row', end_bay_width: 'Wall beside the opening', board_bending: 'Sole board, bending',
  board_bearing: 'Sole board under the prop', ground: 'Ground under the board', sideways_along: 'Tipping along the wall',
  sideways_across: 'Tipping across the wall', plate_bending: 'Wall plate', room_under_plate: 'Room under the wall plate',
  raker_room: 'Room for the rakers', raker_lift: 'Heads lifted by the rakers', working_room: 'Working room', board_fit: 'Room for the boards', prop_distance: 'Distance of the props',
  bracket: 'Bracket', bracket_rated: 'Maker’s rated load of the bracket', bracket_prop: 'Prop under the bracket', bracket_strut: 'Prop bent by the bracket’s arm',
  bracket_seat: 'Bracket’s plate under the leaf', bracket_clear: 'Prop beside the wall', bracket_arch: 'Arch over the whole opening', no_needles: 'Wall with no needles',
  beam_room: 'Way in for the beam', plate_point: 'Point load on the wall plate', timber_bending: 'Timber needle, bending', timber_shear: 'Timber needle, cut across',
  timber_bearing: 'Timber needle, crushing', packing_bearing: 'Packing between wall and needle',
  header_bending: 'Header, bending', header_bending_service: 'Header, bending in daily use', header_shear: 'Header, cut across', header_bearing: 'Header, crushing',
  header_deflection: 'Header, sag', header_web: 'Header on its props',
  joist_span: 'Joists between wall and header', joist_hogging: 'Joists over the header', joist_shear: 'Joists, cut across', joist_bearing: 'Joists on the header',
  joist_uplift: 'Joists’ far end lifting', line_sideways_along: 'Floor’s line tipping along the wall', line_sideways_across: 'Floor’s line tipping across the wall',
  runner_bending: 'Runner, bending', runner_bending_service: 'Runner, bending in daily use', runner_shear: 'Runner, cut across', runner_bearing: 'Runner, crushing',
  runner_deflection: 'Runner, sag', runner_web: 'Runner on its props',
})

/** Where a figure belongs: names of parts as they stand on the drawing, the rest in words. @param {string} at */
export const atWords = (at) => (at === 'all' ? 'the whole support' : at)

/** A sentence of the app with the names of checks and of prop data in it put into words. @param {string} line */
export function inWords(line) {
  return line.replace(/\b[a-z]+(?:_[a-z]+)+\b/g, (name) => (name in CHECKS ? checkWords(name).replace(/^\w/, (letter) => letter.toLowerCase()) : name)).replace(/\btn79 (\d)/g, 'trade size $1')
}

/** @param {string} name */
export function checkWords(name) {
  const plain = name.replaceAll('_', ' ')
  return CHECKS[/** @type {keyof typeof CHECKS} */ (name)] ?? plain.charAt(0).toUpperCase() + plain.slice(1)
}
