// @ts-check
import { app, failureText } from '../../bridge.js'
import { choices } from '../../fields.js'
import { sheet } from '../../parts/dialog.js'
import { h, put } from '../../parts/dom.js'
import { figure } from '../../parts/numbers.js'
import { readAgain, site } from '../../parts/site.js'
import { photoWords, recordWords } from '../../words.js'

/** @typedef {import('../../parts/types.js').Entry} Entry */

const { keys, read } = recordWords
let next = 0

/** A field that stands in no draft: a correction is kept whole or not at all. @param {string} label @param {any} $input */
function field(label, $input) {
  const id = `c${(next += 1)}`
  $input.setAttribute('id', id)
  $input.classList.add('wide')
  return h('div', { class: 'field' }, h('label', { for: id }, label), $input)
}

/** @param {readonly (readonly string[])[]} options @param {string} value */
const select = (options, value) => h('select', {}, (options.some(([one]) => one === value) ? options : [[value, value], ...options]).map(([one, label]) => h('option', { value: one, selected: one === value }, label)))

/** Corrects an entry. @param {Entry} entry @param {string} id @param {() => void} again */
export function correctSheet(entry, id, again) {
  sheet(`${recordWords.correct}: ${entry.title}`, (close) => {
    const $said = h('p', { class: 'wrong', role: 'alert' })
    const form = entry.kind === 'round_done' ? roundForm(entry.body.round) : entry.may.includes('gauges') ? downForm(entry) : textForm(entry)
    const keep = async (/** @type {Event} */ event) => {
      event.preventDefault()
      const wrong = form.wrong()
      if (wrong) { $said.textContent = wrong; return }
      const change = form.change()
      if (!change) { $said.textContent = recordWords.unchanged; return }
      try {
        await app.correct(id, entry.hash, change)
        close()
        await readAgain()
        again()
      } catch (failure) { $said.textContent = failureText(failure) }
    }
    return h('form', { onsubmit: keep, novalidate: true }, h('p', {}, recordWords.correctLine), form.$fields, $said, h('button', { class: 'do', type: 'submit' }, recordWords.keepIt))
  })
}

/** @param {Entry} entry */
function textForm(entry) {
  const rows = entry.may.filter((key) => key === 'taken_back' || ['string', 'boolean'].includes(typeof entry.body[key])).map((key) => {
    const held = entry.body[key] ?? ''
    const value = String(held)
    if (typeof held === 'boolean') {
      const $yes = select([['true', recordWords.toThe.yes], ['false', recordWords.toThe.no]], value)
      return { key, value, $input: $yes, $row: field(keys[/** @type {'text'} */ (key)] ?? key, $yes) }
    }
    const $input = key === 'kind' ? select(photoWords.kinds, value) : key === 'country' ? select(choices.country, value) : h('textarea', { rows: key === 'text' || key === 'words' ? 4 : 1 })
    $input.value = value
    return { key, value, $input, $row: field(keys[/** @type {'text'} */ (key)] ?? key, $input) }
  })
  const change = () => {
    const changed = rows.filter(({ value, $input }) => $input.value !== value)
    return changed.length > 0 ? Object.fromEntries(changed.map(({ key, $input }) => [key, key === 'set_out' ? $input.value === 'true' : $input.value])) : null
  }
  return { $fields: [rows.map(({ $row }) => $row), entry.may.includes('taken_back') && h('p', { class: 'hint' }, recordWords.takenBackHint)], change, wrong: () => '' }
}

/** The readings of a round: one prop, gauge or the whole job at a time. What is not touched goes back as it was. @param {any} round */
function roundForm(round) {
  const fresh = structuredClone(round)
  const groups = [
    ...(fresh.readings ?? []).map((/** @type {any} */ one) => ({ name: String(one.prop), of: one })),
    ...(fresh.gauges ?? []).map((/** @type {any} */ one) => ({ name: recordWords.gauge(String(one.name)), of: one })),
    ...(fresh.job_checks ? [{ name: recordWords.wholeJob, of: fresh.job_checks }] : []),
  ]
  const $rows = h('div', {})
  const show = () => put($rows, rowsOf(groups[Number($which.value)]?.of ?? {}))
  const $which = h('select', { onchange: show }, groups.map(({ name }, at) => h('option', { value: at }, name)))
  show()
  const change = () => (JSON.stringify(fresh) === JSON.stringify(round) ? null : { round: fresh })
  // Measures go as they were typed, and what is wrong of them is said by the app.
  return { $fields: [field(recordWords.which, $which), $rows], change, wrong: () => '' }
}

/** What was turned, what came out and what gauges read while or after the props were taken out: one at a time. @param {Entry} entry */
function downForm(entry) {
  const words = textForm(entry)
  const turned = entry.may.includes('turns')
  const { turns = [], out = [], gauges = [] } = structuredClone(/** @type {any} */ (entry.body))
  const names = turned ? [...new Set([...turns.map((/** @type {any} */ turn) => turn.prop), ...out, ...(site.state?.taking_out.props ?? []).map((/** @type {any} */ one) => one.prop)])] : []
  const props = names.map((prop) => ({ prop, turns: null, thread_mm: null, ...turns.find((/** @type {any} */ turn) => turn.prop === prop), out: out.includes(prop) }))
  const groups = [...props.map((of) => ({ name: of.prop, of })), ...gauges.map((/** @type {any} */ of) => ({ name: recordWords.gauge(String(of.name)), of }))]
  const before = JSON.stringify([props, gauges])
  /** What stands in a field as a number; nothing where it is none. @param {any} held @returns {number|null} */
  const told = (held) => (typeof held === 'string' ? figure(held) : held)
  const $rows = h('div', {})
  const show = () => {
    const of = groups[Number($which.value)]?.of
    if (!of) return
    put($rows, 'prop' in of
      ? [number(recordWords.down.turns, of.turns, (text) => { of.turns = text }), number(read.thread_mm, of.thread_mm, (text) => { of.thread_mm = text }), yesNo(recordWords.down.out, of.out, (yes) => { of.out = yes })]
      : number(read.mm, of.mm, (text) => { of.mm = text }))
  }
  const $which = h('select', { onchange: show }, groups.map(({ name }, at) => h('option', { value: at }, name)))
  show()
  const change = () => {
    const texts = words.change()
    if (JSON.stringify([props, gauges]) === before) return texts
    const down = props.filter((one) => (told(one.turns) ?? 0) !== 0).map((one) => ({ prop: one.prop, turns: told(one.turns), ...(told(one.thread_mm) !== null && { thread_mm: told(one.thread_mm) }) }))
    return { ...texts, ...(turned && { turns: down, out: props.filter((one) => one.out).map((one) => one.prop) }), ...(gauges.length > 0 && { gauges: gauges.map((/** @type {any} */ one) => ({ name: one.name, mm: told(one.mm) })) }) }
  }
  // An empty field of a prop means none; a gauge that was read has a reading.
  const wrong = () => {
    const none = (/** @type {any} */ held) => held === null || String(held).trim() === ''
    const bad = [
      ...props.flatMap((one) => [[one.prop, recordWords.down.turns, one.turns], [one.prop, read.thread_mm, one.thread_mm]]).filter(([, , held]) => !none(held)),
      ...gauges.map((/** @type {any} */ one) => [recordWords.gauge(String(one.name)), read.mm, one.mm]),
    ].find(([, , held]) => told(held) === null)
    return bad ? recordWords.noFigure(bad[0], bad[1], String(bad[2] ?? '')) : ''
  }
  return { $fields: [groups.length > 0 && field(recordWords.which, $which), $rows, words.$fields], change, wrong }
}

/** @param {any} of */
function rowsOf(of) {
  return Object.entries(read).flatMap(([key, label]) => {
    const value = of[key]
    if (value === undefined) return []
    if (Array.isArray(value)) return value.map((one, at) => number(label[at] ?? key, one, (text) => { value[at] = text }))
    if (typeof value === 'boolean') return [yesNo(String(label), value, (yes) => { of[key] = yes })]
    if (key === 'pin') {
      const $pin = select(/** @type {any} */ (recordWords.pins), value)
      $pin.addEventListener('change', () => { of.pin = $pin.value })
      return [field(String(label), $pin)]
    }
    return typeof value === 'number' || value === null ? [number(String(label), value, (text) => { of[key] = text })] : []
  })
}

/** A measure as typed: the app reads it, and says so where it cannot. @param {string} label @param {number|null} value @param {(text: any) => void} changed */
function number(label, value, changed) {
  const $input = h('input', { type: 'text', inputmode: 'decimal', autocomplete: 'off', oninput: () => changed($input.value.trim() === '' ? null : $input.value === String(value ?? '') ? value : $input.value) })
  $input.value = value ?? ''
  return field(label, $input)
}

/** @param {string} label @param {boolean} value @param {(yes: boolean) => void} changed */
function yesNo(label, value, changed) {
  const $select = select([['true', recordWords.toThe.yes], ['false', recordWords.toThe.no]], String(value))
  $select.addEventListener('change', () => changed($select.value === 'true'))
  return field(label, $select)
}

/**
 * What differs between two rounds, reading by reading: the sentence of a round may stay the same.
 * @param {any} was @param {any} now @returns {string[]}
 */
export function changes(was, now) {
  if (!was?.round || !now?.round) return []
  const before = leaves(was.round)
  const after = leaves(now.round)
  const paths = [...new Set([...before.keys(), ...after.keys()])]
  return paths.filter((path) => before.get(path) !== after.get(path)).map((path) => `${path}: ${before.get(path) ?? '–'} → ${after.get(path) ?? '–'}`)
}

/** @param {any} round @returns {Map<string, string>} */
function leaves(round) {
  const found = new Map()
  const put = (/** @type {string} */ name, /** @type {any} */ of) => Object.entries(read).forEach(([key, label]) => {
    const value = of?.[key]
    if (Array.isArray(value)) value.forEach((one, at) => found.set(`${name}, ${label[at] ?? key}`, String(one)))
    else if (value !== undefined && value !== null) found.set(`${name}, ${label}`, value === true ? recordWords.toThe.yes : value === false ? recordWords.toThe.no : String(value))
  })
  for (const one of round.readings ?? []) put(String(one.prop), one)
  for (const one of round.gauges ?? []) put(recordWords.gauge(String(one.name)), one)
  put(recordWords.wholeJob, round.job_checks)
  return found
}
