// @ts-check
import { roundWords } from '../words.js'
import { h } from './dom.js'

/** @typedef {import('./types.js').Prop} Prop */

/**
 * The props seen from above, outside, wall, inside, in the order of the needles: where one stands, and the way to any.
 *
 * @param {Prop[]} props
 * @param {{now: string|null, state: (name: string) => 'done'|'open', go: (name: string) => void, outside: string, inside: string}} more
 */
export function propPlan(props, more) {
  // Bracket props have no needle: those at one place share the first part of their names, as B1-in and B1-out.
  const placeOf = (/** @type {Prop} */ prop) => prop.needle || prop.name.split('-')[0]
  const needles = [...new Set(props.map(placeOf))]
  const row = (/** @type {string} */ side) => needles.map((needle) => {
    const prop = props.find((one) => placeOf(one) === needle && one.side === side)
    if (!prop) return h('span', {})
    const now = prop.name === more.now
    const state = more.state(prop.name)
    return h('button', {
      type: 'button', class: `spot ${now ? 'now' : state}`, 'aria-current': now ? 'step' : undefined,
      'aria-label': `${prop.name}, ${now ? roundWords.state.now : roundWords.state[state]}`, onclick: () => more.go(prop.name),
    }, needle)
  })
  return h('div', { class: 'plan', role: 'group', 'aria-label': roundWords.plan, 'data-needles': Math.min(needles.length, 7) },
    h('div', { class: 'side' }, h('span', { class: 'where' }, more.outside), h('div', { class: 'spots' }, row('outside'))),
    h('div', { class: 'wall', 'aria-hidden': 'true' }),
    h('div', { class: 'side' }, h('span', { class: 'where' }, more.inside), h('div', { class: 'spots' }, row('inside'))))
}
