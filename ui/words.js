// @ts-check
/** All text of the screens, a file for each screen. Plain words; symbols and clauses only behind "why". */
export { words } from './words/en/common.js'
export { jobsWords } from './words/en/jobs.js'
export { startWords } from './words/en/start.js'
export { wallWords } from './words/en/wall.js'
export { aboveWords } from './words/en/above.js'
export { supportWords } from './words/en/support.js'
export { orderWords } from './words/en/order.js'
export { roundWords } from './words/en/round.js'
export { recordWords } from './words/en/record.js'
export { shareWords } from './words/en/share.js'
export { photoWords } from './words/en/photo.js'
export { packWords } from './words/en/pack.js'
