// @ts-check
import { app } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { choice, quantity, text } from '../../parts/field.js'
import { meField } from '../../parts/me.js'
import { figure } from '../../parts/numbers.js'
import { site } from '../../parts/site.js'
import { closeWords as say } from '../../words.js'
import { MY_NAME } from '../emergency/people.js'

/** What is read when props are let down, and at the looks after it. */

const AT = '/job/out/'
const read = (/** @type {string} */ key) => (site.fields[`${AT}${key}`] ?? '').trim()

/** @typedef {(work: () => Promise<any>, $said: HTMLElement) => void} Keep */

/** One step: which props were touched, then every gauge. @param {any} out @param {string[]} gauges @param {Keep} keep */
export function downView(out, gauges, keep) {
  const $said = h('p', { class: 'wrong', role: 'alert' })
  const left = out.props.filter((/** @type {any} */ prop) => !prop.out)
  const names = (/** @type {string} */ step) => left.map((/** @type {any} */ prop) => prop.prop).filter((/** @type {string} */ name) => read(`step/${name}`) === step)
  const write = () => {
    const told = reading(gauges, $said)
    if (!told) return
    const thread = figure(read('thread_mm'))
    if (thread === null && read('thread_mm') !== '') { put($said, say.threadWrong(read('thread_mm'))); return }
    const turns = names('turn').map((/** @type {string} */ prop) => ({ prop, turns: 0.25, ...(thread !== null && { thread_mm: thread }) }))
    keep(() => app.letDown(/** @type {string} */ (site.id), { ...told, turns, out: names('out') }), $said)
  }
  return h('section', {}, h('h2', {}, say.down), h('p', { class: 'figure' }, h('b', {}, left.length), h('span', {}, say.still(left.length))), h('p', {}, say.downLine),
    left.map((/** @type {any} */ prop) => choice(`${AT}step/${prop.prop}`, say.steps, { label: say.prop(prop), value: read(`step/${prop.prop}`) })),
    quantity(`${AT}thread_mm`, { label: say.thread, unit: 'mm', hint: say.threadHint }), readView(gauges, say.moved), h('button', { class: 'do', type: 'button', onclick: write }, say.keepDown), $said)
}

/** How the looks stand, and one more. @param {any} after @param {string[]} gauges @param {Keep} keep */
export function lookView(after, gauges, keep) {
  const $said = h('p', { class: 'wrong', role: 'alert' })
  const write = () => {
    const told = reading(gauges, $said)
    if (told) keep(() => app.lookAfter(/** @type {string} */ (site.id), told), $said)
  }
  return h('section', {}, h('h2', {}, say.looks), after && [h('p', {}, say.looksLine(after.of, after.missing)),
    h('ul', { class: 'plainlist' }, after.looks.map((/** @type {any} */ look) => h('li', { class: look.done ? '' : look.to_come ? 'soft' : 'wrong' }, look.words))), h('p', { class: 'hint' }, say.why)],
    readView(gauges, say.movedAfter), h('button', { class: 'do', type: 'button', onclick: write }, say.keepLook), $said)
}

/** @param {string[]} gauges @param {string} moved */
function readView(gauges, moved) {
  return [gauges.map((name, at) => quantity(`${AT}gauge/${at}`, { label: say.gauge(name), unit: 'mm' })),
    choice(`${AT}moved`, say.yesNo, { label: moved }), text(`${AT}note`, { label: say.note }), meField(say.who)]
}

/** What was read, or nothing and what is still to be said. @param {string[]} gauges @param {HTMLElement} $said */
function reading(gauges, $said) {
  const rows = gauges.map((name, at) => ({ name, mm: figure(read(`gauge/${at}`)) }))
  const open = rows.find((row) => row.mm === null)
  const wrong = open ? say.gaugeOpen(open.name) : read('moved') === '' ? say.movedOpen : ''
  if (wrong) { put($said, wrong); return null }
  return { name: (site.fields[MY_NAME] ?? '').trim(), gauges: rows.map(({ name, mm }) => ({ name, mm: Number(mm) })), moved: read('moved') === 'true', words: read('note') }
}
