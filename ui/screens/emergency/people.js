// @ts-check
import { app, failureText } from '../../bridge.js'
import { h } from '../../parts/dom.js'
import { showLarge } from '../../parts/photo.js'
import { site } from '../../parts/site.js'
import { emergencyWords } from '../../words.js'
import { dialled, numberOf } from './numbers.js'

/**
 * Names and numbers of a job's people. They lie beside the description, under `/job/people/`, so that they never reach what
 * is computed, and stay on this phone: a pack does not hold them.
 */

/** @typedef {'engineer'|'control'|'gas'|'electricity'} Who */

/** Field of somebody's number. @param {Who} who */
export const phoneField = (who) => `/job/people/${who}_phone`
export const ENGINEER_NAME = '/job/people/engineer'
/** Who holds this phone. */
export { MY_NAME } from '../../parts/name.js'

/** The number of somebody: as typed, else by the country. @param {Who} who */
export const phoneOf = (who) => (site.fields[phoneField(who)] ?? '').trim() || (who === 'gas' || who === 'electricity' ? numberOf(site.country, who) : '')

/** What a large link says to ring: the number stands in it, for a phone that is not this one. @param {string} who @param {string} number */
export function ring(who, number) {
  // Followed as a link the window would leave the app for a page that says it cannot show this address.
  const onclick = async (/** @type {Event} */ event) => {
    event.preventDefault()
    try { await app.dial(dialled(number)) } catch (failure) {
      showLarge(emergencyWords.ring(who), h('div', { class: 'dial' }, h('p', {}, emergencyWords.ring(who)), h('p', { class: 'digits' }, number), h('p', {}, failureText(failure))))
    }
  }
  return h('a', { class: 'ring', href: `tel:${dialled(number)}`, onclick }, h('span', {}, emergencyWords.ring(who)), h('b', {}, number))
}

/** The engineer, one touch away; where nobody wrote the number, the way to write it. */
export function ringEngineer() {
  const number = phoneOf('engineer')
  const name = (site.fields[ENGINEER_NAME] ?? '').trim()
  if (dialled(number)) return ring(name || emergencyWords.engineer, number)
  return h('a', { class: 'ring none', href: `#${site.id}/emergency` }, h('span', {}, emergencyWords.noEngineer), h('b', {}, emergencyWords.whoToRing))
}
