// @ts-check
import { h } from '../../parts/dom.js'
import { choice, quantity, text } from '../../parts/field.js'
import { force, number, percent } from '../../parts/numbers.js'
import { photos } from '../../parts/photo.js'
import { site } from '../../parts/site.js'
import { standingView, usedBar } from '../../parts/standing.js'
import { roundWords } from '../../words.js'
import { kindWords } from '../support/rows.js'
import { gaugeBefore, readingBefore } from './reading.js'

/** @typedef {import('../../parts/types.js').Prop} Prop */
/** @typedef {import('../../parts/types.js').PropToday} PropToday */
/** @typedef {import('../../parts/types.js').Evaluation} Evaluation */

/** What has to be packed over this prop. @param {Prop} prop @param {string} label */
const packedLabel = (prop, label) => (prop.needle === '' ? roundWords.packedUnderBracket : prop.needle.startsWith('F') ? roundWords.packedUnderHeader : label)

/** The questions of one prop; none is answered beforehand. @param {Prop} prop */
export function propView(prop) {
  const at = `/round/${prop.name}`
  const before = readingBefore(prop.name)
  const last = (/** @type {string} */ hint, /** @type {string|undefined} */ was) => [was && roundWords.lastTime(was), hint].filter(Boolean).join(' ')
  const mm = (/** @type {number|undefined} */ value) => (value === undefined ? undefined : `${number(value, 0)} mm`)
  return h('section', { class: 'prop' },
    h('h2', { class: 'figure' }, h('b', {}, prop.name), h('span', {}, roundWords.carries(force(prop.load_kn)))),
    h('p', { class: 'soft' }, roundWords.where(prop, kindWords(prop))),
    choice(`${at}/pin`, roundWords.pins, { label: roundWords.pin, hint: roundWords.pinHint }),
    h('h3', {}, roundWords.lean),
    quantity(`${at}/over_m`, { label: roundWords.over, unit: 'm' }),
    quantity(`${at}/lean_along_mm`, { label: roundWords.along, unit: 'mm', minus: roundWords.toLeft, hint: last('', mm(before?.lean_mm?.[0])) }),
    quantity(`${at}/lean_across_mm`, { label: roundWords.across, unit: 'mm', minus: roundWords.outwards, hint: last(roundWords.leanHint, mm(before?.lean_mm?.[1])) }),
    h('h3', {}, roundWords.centre),
    quantity(`${at}/head_off_mm`, { label: roundWords.head, unit: 'mm', hint: last('', mm(before?.head_off_mm)) }),
    quantity(`${at}/foot_off_mm`, { label: roundWords.foot, unit: 'mm', hint: last(roundWords.centreHint, mm(before?.foot_off_mm)) }),
    h('h3', {}, roundWords.look),
    roundWords.asked.map(([key, label]) => choice(`${at}/${key}`, roundWords.yesNo, { label: key === 'packed' ? packedLabel(prop, label) : label })),
    h('h3', {}, roundWords.collar),
    quantity(`${at}/collar_turns`, { label: roundWords.turns, unit: 'turns', hint: roundWords.turnsHint }),
    quantity('/round/thread_mm', { label: roundWords.thread, unit: 'mm', hint: roundWords.threadHint }),
    text(`${at}/note`, { label: roundWords.note }), photos(prop.name, 'detail', roundWords.photoOf))
}

/** The questions of the whole job. */
export function wholeView() {
  const names = [...new Set(site.rounds.flatMap((done) => done.gauges ?? []).map((gauge) => gauge.name))]
  return h('section', {}, h('h2', {}, roundWords.whole),
    roundWords.wholeAsked.map(([key, label]) => choice(`/round/${key}`, roundWords.yesNo, { label })),
    quantity('/round/wind_m_s', { label: roundWords.wind, unit: 'm/s' }),
    h('h3', {}, roundWords.gauges),
    ['1', '2', '3'].map((i) => h('div', {}, text(`/round/gauge${i}_name`, { label: roundWords.gauge(i), hint: names[Number(i) - 1] ? roundWords.lastTime(`${names[Number(i) - 1]}, ${number(gaugeBefore(names[Number(i) - 1])[0]?.mm)} mm`) : '' }),
      quantity(`/round/gauge${i}_mm`, { label: roundWords.reads(i), unit: 'mm' }))),
    photos('crack', 'detail', roundWords.crackPhoto))
}

/** What a prop is good for today, in one line above the thumb. @param {PropToday} today @param {Evaluation} found */
export function propStrip(today, found) {
  const own = found.reasons.filter((reason) => reason.words.startsWith(`${today.name}:`))
  const bad = today.utilisation > 1 || !today.in_basis || own.length > 0
  const figure = roundWords.usedToday(percent(today.utilisation), percent(today.kappa))
  return h('div', { class: `today ${bad ? 'bad' : today.utilisation > 0.9 ? 'near' : ''}` },
    h('strong', {}, bad ? roundWords.rightFirst(today.name) : roundWords.goodFor(number(today.working_load_kn))),
    h('span', {}, today.in_basis ? figure : roundWords.noFigure), today.in_basis && usedBar(today.utilisation, percent(today.utilisation)),
    own.length > 0 && found.stop && h('strong', { class: 'wrong' }, roundWords.stop),
    today.do.length > 0 && h('ul', {}, today.do.map((line) => h('li', {}, line))))
}

/** The answer of a round. @param {Evaluation} found @param {boolean} partly whether questions are still open */
export function wholeResult(found, partly) {
  const title = found.out ? roundWords.out : found.stop ? roundWords.stop : partly ? roundWords.soFar : found.passed ? roundWords.passed : roundWords.notPassed
  const line = found.out ? roundWords.outLine : found.ring ? roundWords.ringLine : found.passed && !partly ? roundWords.passedLine : roundWords.notPassedLine
  const standing = found.out || found.stop ? 'does_not_hold' : partly ? 'needs_own_design' : found.passed ? 'holds' : 'close'
  return h('div', { class: found.stop || found.out ? 'alarm' : '' }, standingView(standing, h('p', {}, line), title),
    found.reasons.length > 0 && h('ul', { class: 'plainlist' }, found.reasons.map((reason) => h('li', {}, reason.words))),
    found.gauges.map((gauge) => h('p', {}, roundWords.gaugeLine(gauge))),
    h('p', { class: 'soft' }, roundWords.sideways(found.sideways)))
}
