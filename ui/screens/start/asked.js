// @ts-check
import { rows, site, write } from '../../parts/site.js'
import { note, pages, remember, said, sleepers, storeys, storeysKnown, typed } from './state.js'

/** Which questions are answered, what is open, and what may be said of the standing so far. */

/** Everything that takes a job out of the method or near its edge, in the order in which somebody walks round a house. */
export const STRANGE = Object.freeze(/** @type {const} */ (['cellar', 'digging', 'cracked', 'loose', 'corner', 'existing', 'bay', 'veneer', 'gable', 'chimney', 'removed', 'mark', 'sleeping']))
/** @typedef {typeof STRANGE[number]} Strange */

/** Those that the job holds as questions of their own. */
const ANSWERS = ['cellar', 'chimney', 'bay', 'veneer', 'removed', 'digging', 'cracked']

/** @returns {Strange[]} */
export const strangeAsked = () => STRANGE.filter((key) => key !== 'sleeping' || storeys() > 0)

/** Where an answer is kept. @param {Strange} key */
export const strangePath = (key) => (ANSWERS.includes(key) ? `/answers/${key}` : `/job/start/strange/${key}`)

/** @param {Strange} key @returns {'yes'|'no'|'unknown'|''} */
export const strange = (key) => /** @type {'yes'|'no'|'unknown'|''} */ (ANSWERS.includes(key) ? typed(`/answers/${key}`) : note(`strange/${key}`))

/** Takes an answer and what follows from it for the job: a "not sure" always does the careful thing. @param {Strange} key @param {string} answer */
export function sayStrange(key, answer) {
  if (ANSWERS.includes(key)) write(`/answers/${key}`, answer)
  else remember(`strange/${key}`, answer)
  const no = answer === 'no'
  if (key === 'corner') write('/answers/corner_m', no ? null : '0')
  if (key === 'gable') write('/wall/gable', no ? 'false' : 'true')
  if (key === 'loose') write('/wall/condition', no ? 'sound' : answer === 'yes' ? 'poor' : 'doubtful')
  if (key === 'sleeping') sleepers()
}

/** A beam, tank or old opening that is there counts as said only with its place. @param {Strange} key */
export function strangeOpen(key) {
  const answer = strange(key)
  if (!answer) return true
  if (key === 'mark' && answer !== 'no') return answer === 'unknown' || !rows('/points/').some((i) => typed(`/points/${i}/x_m`) && typed(`/points/${i}/dead_kn`))
  if (key === 'existing' && answer !== 'no') return answer === 'unknown' || !rows('/wall/openings/').some((i) => ['x_m', 'width_m', 'sill_m', 'height_m'].every((one) => typed(`/wall/openings/${i}/${one}`)))
  return false
}

/** @param {number} i @returns {string} how the joists of a storey lie, or that nobody is sure */
export function joists(i) {
  if (site.fields[`/above/${i}/floor`] === 'null') return 'none'
  return note(`floor/${i}`) === 'unsure' ? 'unsure' : typed(`/above/${i}/floor/direction`)
}

/** Whether a page's fields hold what it asks for. @param {import('./state.js').Page} page @returns {boolean} */
export function filled(page) {
  const unsure = said(page) === 'unsure'
  switch (page) {
    case 'house': return note('house') !== ''
    case 'width': return typed('/opening/width_m') !== ''
    case 'head': return typed('/opening/head_m') !== ''
    case 'wall': {
      const leaves = rows('/wall/leaves/')
      return !unsure && leaves.length > 0 && leaves.every((i) => ['material', 'thickness_mm', 'mortar'].every((key) => typed(`/wall/leaves/${i}/${key}`)))
    }
    case 'storeys': return storeysKnown()
    case 'floors': return storeys() > 0 && rows('/above/').every((i) => joists(i) !== '')
    case 'roof': return unsure || typed('/roof/bears') !== ''
    case 'windows': return note('windows') === 'none' || rows('/above/').some((i) => rows(`/above/${i}/openings/`).length > 0)
    case 'sides': return unsure || (typed('/opening/left_masonry_m') !== '' && typed('/opening/right_masonry_m') !== '')
    case 'feet': return ['inside', 'outside'].every((side) => typed(`/sides/${side}/foot/kind`) !== '')
    case 'beam': return !unsure && typed('/opening/flush') !== ''
    case 'strange': return strangeAsked().every((key) => !strangeOpen(key))
  }
}

/** @param {import('./state.js').Page} page */
export const answered = (page) => filled(page) && (page === 'strange' || said(page) !== '')

export const openPages = () => pages().filter((page) => !answered(page))

/** What ties the wall just above the opening, as far as it follows from what was said. */
function tie() {
  if (storeys() === 0) return said('roof') === 'unsure' ? 'unknown' : typed('/roof/bears') === 'true' ? 'roof' : 'none'
  const first = joists(0)
  return first === 'onto' ? 'floor' : first === 'unsure' ? 'unknown' : 'none'
}

/**
 * Writes what ties the wall once every question is answered, and takes it away while one is open: without it nothing holds,
 * so no answer can look like a pass before all reasons against it were asked. What somebody entered elsewhere stays.
 */
export function settle() {
  const at = '/answers/restraint'
  const own = note('tie')
  if (typed(at) && typed(at) !== own) return
  const wanted = openPages().length === 0 ? tie() : null
  if ((site.fields[at] ?? null) !== wanted) write(at, wanted)
  remember('tie', wanted)
}

/** Reasons that come of a page or of a row of the list, by their codes. @type {Readonly<Record<string, RegExp>>} */
const OWNERS = Object.freeze({
  width: /^width$/, wall: /^(rubble|perished_mortar|stone)$/, storeys: /^storeys$/, sides: /^pier$/, feet: /^foot_/, floors: /^(beam_and_block|restraint)$/, roof: /^(flat_roof|restraint)$/,
})

/** @param {string} code @returns {boolean} whether a reason follows from something that was answered */
function fromAnswer(code) {
  const key = /** @type {Strange} */ (code.replace(/_unknown$/, '').replace(/^condition_.*/, 'loose').replace('existing_opening', 'existing').replace('point_load', 'mark').replace('slept_in', 'sleeping').replace('gable_lime', 'gable'))
  // How near a corner is follows from the wall beside as well.
  if (STRANGE.includes(key)) return strange(key) !== '' && (key !== 'corner' || said('sides') !== '')
  const owners = Object.entries(OWNERS).filter(([, codes]) => codes.test(code)).map(([page]) => page)
  return owners.length > 0 && owners.every((page) => said(/** @type {import('./state.js').Page} */ (page)) !== '' || !pages().includes(/** @type {import('./state.js').Page} */ (page)))
}

/** Reasons that only come near an edge, and refuse nothing. */
const CAPS = /^(independent_check|slept_in|beam_and_block|flat_roof|condition_doubtful|stone|floor_tie_cut)$/

/**
 * What may be said so far. While a question is open there is no standing but a refusal that an answer brought already.
 * @returns {{standing: import('../../parts/types.js').Standing|null, why: string}}
 */
export function standingSoFar() {
  const proposal = site.figures?.proposal
  if (!proposal) return { standing: null, why: '' }
  const open = openPages().length > 0
  const against = proposal.reasons.filter(({ code }) => !CAPS.test(code) && (!open || fromAnswer(code)) && !(open && code === 'restraint'))
  if (!open) return { standing: proposal.standing, why: proposal.standing === 'needs_own_design' ? against[0]?.words ?? '' : '' }
  return against.length > 0 ? { standing: 'needs_own_design', why: against[0].words } : { standing: null, why: '' }
}
