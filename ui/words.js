// @ts-check
/** All text of the screens, in one place, ready for another language. Plain words; symbols and clauses only behind "why". */
export const words = Object.freeze({
  answer: 'The answer',
  caution: 'A proposal for your engineer to confirm. Local rules and licensed practice come first. When in doubt, stay out and ring.',
  standing: Object.freeze({
    holds: 'Holds, as described',
    close: 'Close to its limit',
    does_not_hold: 'Does not hold. Do not load',
    needs_own_design: 'Ask for its own design',
  }),
  todo: 'Still to be said',
  wrong: 'Missing or wrong',
  missing: Object.freeze({
    '/opening': 'Wall: how wide and how high the opening is',
    '/wall': 'Wall: how the wall is built',
    '/wall/leaves': 'Wall: how the wall is built',
    '/above': 'Above: how many storeys stand above the opening',
  }),
  screens: Object.freeze({ wall: 'Wall', above: 'Above', support: 'Support', round: 'Round', record: 'Record' }),
  aims: Object.freeze({ fewest: 'Fewest parts', lightest: 'Lightest needles', cheapest: 'Least hire' }),
  engineerFirst: 'For your engineer to check, not to build from.',
  parts: Object.freeze({ wall: 'Wall', floor: 'Floors', roof: 'Roof', snow: 'Snow', point: 'Point loads' }),
  /** Plain words for each check. */
  checks: Object.freeze({
    needle_bending: 'Needle, bending', needle_bending_service: 'Needle, bending in daily use', needle_shear: 'Needle, shear',
    needle_bending_shear: 'Needle, bending with shear', needle_ltb: 'Needle, tipping over', needle_web_wall: 'Needle under the wall',
    needle_web_prop: 'Needle on the prop', needle_deflection: 'Needle, sag', prop: 'Prop', bearing_outer: 'Outer leaf on the needle',
    bearing_inner: 'Inner leaf on the needle', arch_outer: 'Outer leaf between needles', arch_inner: 'Inner leaf between needles',
    arch_loose: 'What bears between needles', stage: 'Wall with all holes cut', clear_masonry: 'Wall left between holes',
    end_bay: 'End of the row', end_bay_width: 'Wall beside the opening', board_bending: 'Sole board, bending',
    board_bearing: 'Sole board under the prop', ground: 'Ground', sideways_along: 'Tipping along the wall',
    sideways_across: 'Tipping across the wall', plate_bending: 'Wall plate', room_under_plate: 'Room under the wall plate',
    working_room: 'Working room', board_fit: 'Room for the boards', prop_distance: 'Distance of the props',
    beam_room: 'Way in for the beam', plate_point: 'Point load on the wall plate', timber_bending: 'Timber needle, bending', timber_shear: 'Timber needle, shear',
    timber_bearing: 'Timber needle, crushing',
  }),
})

/** @param {string} name */
export function checkWords(name) {
  return words.checks[/** @type {keyof typeof words.checks} */ (name)] ?? name.replaceAll('_', ' ')
}

/** What decides, in words. @param {string} governs as the proposal has it: name and place */
export function governsWords(governs) {
  const [name, at] = governs.split(' at ')
  return at ? `${checkWords(name)}: ${at}` : checkWords(name)
}

export const choices = Object.freeze({
  yesNo: [['yes', 'Yes'], ['no', 'No'], ['unknown', 'Not sure']],
  flag: [['true', 'Yes'], ['false', 'No']],
  country: [['england', 'England'], ['wales', 'Wales'], ['scotland', 'Scotland'], ['northern_ireland', 'Northern Ireland'], ['ireland', 'Ireland'], ['other', 'Elsewhere']],
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
  props: [['', 'Trade sizes 0 to 4'], ['B30', 'Class B30'], ['B35', 'Class B35'], ['B40', 'Class B40'], ['D30', 'Class D30'], ['D35', 'Class D35'], ['E30', 'Class E30']],
})
