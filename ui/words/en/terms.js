// @ts-check
const names = Object.freeze({
  needle: 'needle', prop: 'prop', leaf: 'leaf', jamb: 'jamb', sole_board: 'sole board', pack: 'pack', wedge: 'wedge',
  brace: 'brace', raker: 'raker', lacing: 'lacing', header: 'header', bracket: 'bracket', underside: 'underside',
})

export const termWords = Object.freeze({
  title: 'What the words mean',
  row: 'What these words mean',
  ask: (/** @type {string} */ name) => `What is a ${name}?`.replace('a underside', 'the underside').replace('a lacing', 'lacing'),
  names,
  terms: Object.freeze({
    needle: 'A short steel or timber beam that goes right through the wall and carries what stands on it.',
    prop: 'A steel tube in a steel tube, set to length by a pin and a collar. One stands at each end of a needle.',
    leaf: 'One thickness of masonry. A cavity wall has two, with a gap between them.',
    jamb: 'The upright edge of the opening, left and right.',
    sole_board: 'The board under a prop. It spreads the load over the ground or the floor.',
    pack: 'A steel plate between needle and masonry, under the full thickness of a leaf.',
    wedge: 'Two of them, driven against each other, close the last gap tight. Hardwood or steel.',
    brace: 'A tube fixed slantwise from prop to prop. It keeps the row from tipping along the wall.',
    raker: 'A slanting tube from the heads down to the ground. It keeps the row from tipping across the wall.',
    lacing: 'A level tube that ties the props of a row together at head and foot.',
    header: 'A beam on props under the joists. It holds a floor apart from the wall.',
    bracket: 'An arm on the head of a prop, pushed into a joint. It carries far less than a needle: its load sits beside the prop.',
    underside: 'The lower face of the needle: what the prop’s head touches. Heights are measured to it.',
  }),
})
