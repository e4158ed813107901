// @ts-check
import { roundWords } from '../words.js'
import { h, quiet } from './dom.js'

/** @typedef {import('./types.js').Prop} Prop */

/**
 * The props seen from above, outside, wall, inside, in the order of the needles: where one stands, and the way to any.
 *
 * @param {Prop[]} props
 * @param {{now: string|null, state: (name: string) => 'done'|'open'|'wrong', go: (name: string) => void, outside: string, inside: string}} more
 */
export function propPlan(props, more) {
  // Bracket props have no needle: those at one place share the first part of their names, as B1-in and B1-out.
  const placeOf = (/** @type {Prop} */ prop) => prop.needle || prop.name.split('-')[0]
  const ofLine = (/** @type {Prop} */ prop) => prop.needle.startsWith('F')
  const under = props.filter((prop) => !ofLine(prop))
  const lines = [...new Set(props.filter(ofLine).map((prop) => prop.needle))]
  const needles = [...new Set(under.map(placeOf))]
  const spot = (/** @type {Prop} */ prop, /** @type {string} */ label) => {
    const now = prop.name === more.now
    const state = more.state(prop.name)
    return h('button', {
      type: 'button', class: `spot ${now ? 'now' : state}`, 'aria-current': now ? 'step' : undefined,
      onclick: () => more.go(prop.name),
      // Read out with its whole name; shown without what its row says already.
    }, h('span', {}, label, quiet(`${prop.name.startsWith(label) ? prop.name.slice(label.length) : ` ${prop.name}`}, `)), h('small', {}, roundWords.state[now ? 'now' : state]))
  }
  const row = (/** @type {string} */ side) => needles.map((needle) => {
    const prop = under.find((one) => placeOf(one) === needle && one.side === side)
    return prop ? spot(prop, needle) : h('span', {})
  })
  const side = (/** @type {string} */ where, /** @type {any[]} */ spots) => h('div', { class: 'side' }, h('span', { class: 'where' }, where), h('div', { class: 'spots' }, spots))
  const rowOf = (/** @type {string} */ line) => {
    const own = props.filter((prop) => prop.needle === line)
    return side(roundWords.floor(line), own.map((prop) => spot(prop, prop.name.slice(line.length + 1).split(' on ')[0])))
  }
  const linesOn = (/** @type {string} */ where) => lines.filter((line) => props.some((prop) => prop.needle === line && prop.side === where)).map(rowOf)
  return h('div', { class: 'plan', role: 'group', 'aria-label': roundWords.plan, 'data-needles': Math.min(needles.length, 7) },
    linesOn('outside'), side(more.outside, row('outside')), h('div', { class: 'wall', 'aria-hidden': 'true' }), side(more.inside, row('inside')), linesOn('inside'))
}
