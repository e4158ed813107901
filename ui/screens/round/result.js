// @ts-check
import { app } from '../../bridge.js'
import { drawing, h, put } from '../../parts/dom.js'
import { number, percent } from '../../parts/numbers.js'
import { site } from '../../parts/site.js'
import { standingView, usedBar } from '../../parts/standing.js'
import { roundWords } from '../../words.js'
import { ringEngineer } from '../emergency/people.js'
import { todayBefore } from './reading.js'

/** @typedef {import('../../parts/types.js').PropToday} PropToday */
/** @typedef {import('../../parts/types.js').Evaluation} Evaluation */

/** What changed since the last round, in words. @param {PropToday} today */
function since(today) {
  const was = todayBefore(today.name)
  if (!was) return ''
  const by = Math.round((today.utilisation - was.utilisation) * 100)
  return by === 0 ? roundWords.sameAsLast : by > 0 ? roundWords.moreThanLast(by) : roundWords.lessThanLast(-by)
}

/** What a prop is good for today, in one line above the thumb. @param {PropToday} today @param {Evaluation} found */
export function propStrip(today, found) {
  const own = found.reasons.filter((reason) => reason.words.startsWith(`${today.name}:`))
  const bad = today.utilisation > 1 || !today.in_basis || own.length > 0
  return h('div', { class: `today ${bad ? 'bad' : today.utilisation > 0.9 ? 'near' : ''}` },
    h('strong', {}, bad ? roundWords.rightFirst(today.name) : roundWords.goodFor(number(today.working_load_kn))),
    h('span', {}, today.in_basis ? [roundWords.usedToday(percent(today.utilisation), percent(today.kappa)), since(today)].filter(Boolean).join('; ') : roundWords.noFigure),
    today.in_basis && usedBar(today.utilisation, percent(today.utilisation)),
    today.do.length > 0 && h('ul', {}, today.do.map((line) => h('li', {}, line))))
}

/**
 * Stop, so that nobody can take it for anything else: the eight-sided sign, the words, what comes next, and the engineer's
 * number under the thumb.
 * @param {boolean} out whether everybody has to leave @param {string[]} why
 */
export function stopView(out, why) {
  return h('div', { class: 'stopnow', role: 'alert' }, h('span', { class: 'octagon', 'aria-hidden': 'true' }, roundWords.stopSign),
    h('strong', {}, out ? roundWords.out : roundWords.stop), ringEngineer(),
    h('p', {}, [out ? roundWords.outLine : roundWords.ringLine, ...why.slice(0, 2), why.length > 2 ? roundWords.andMore(why.length - 2) : ''].join(' ')))
}

let shaken = ''
/** Shakes the phone once for each stop; nothing where a phone cannot. @param {string} why */
export function shake(why) {
  if (why === shaken) return
  shaken = why
  // A browser shakes only for somebody who has touched the page.
  if (why && navigator.userActivation?.hasBeenActive !== false) navigator.vibrate?.([400, 150, 400, 150, 700])
}

/** The answer of a round. @param {Evaluation} found @param {boolean} partly whether questions are still open @param {string} [only] the one prop that was looked at again */
export function wholeResult(found, partly, only) {
  const told = only ? found.reasons.filter((reason) => reason.code !== 'not_read') : found.reasons
  const unread = told.filter((reason) => reason.code === 'not_read').map((reason) => reason.words.split(' ')[0])
  const good = only ? told.length === 0 : found.passed
  const title = found.out ? roundWords.out : found.stop ? roundWords.stop : partly ? roundWords.soFar : good ? (only ? roundWords.lookedAgain(only) : roundWords.passed) : roundWords.notPassed
  const line = found.out ? roundWords.outLine : found.ring ? roundWords.ringLine : partly && told.length === 0 ? roundWords.soFarLine : good && !partly ? (only ? roundWords.lookedAgainLine : roundWords.passedLine) : roundWords.notPassedLine
  // What was looked at again alone is good or not; it is no answer for the support.
  const standing = found.out || found.stop ? 'does_not_hold' : partly || (only && good) ? 'needs_own_design' : good ? 'holds' : 'close'
  return h('div', { class: found.stop || found.out ? 'alarm' : '' }, standingView(standing, h('p', {}, line), title),
    (found.stop || found.out) && ringEngineer(),
    told.length > 0 && h('ul', { class: 'plainlist' }, told.filter((reason) => reason.code !== 'not_read').map((reason) => h('li', {}, reason.words)), unread.length > 0 && h('li', { class: 'soft' }, roundWords.unread(unread.join(', ')))),
    found.gauges.map((gauge) => h('p', {}, roundWords.gaugeLine(gauge))),
    h('p', { class: 'soft' }, roundWords.sideways(found.sideways)))
}

/** Curves of what was read over all rounds: those that move first. */
export function curvesView() {
  const $curves = h('section', { class: 'curves' })
  app.curves(/** @type {string} */ (site.id)).then((/** @type {any} */ answer) => {
    const order = ['over', 'growing', 'moves', 'steady']
    const series = [...answer.series].filter((one) => one.points.length > 1).sort((a, b) => order.indexOf(a.standing) - order.indexOf(b.standing))
    if (series.length === 0) return
    const one = (/** @type {any} */ line) => h('figure', { class: 'curve' }, h('figcaption', { class: line.stops ? 'wrong' : '' }, line.words), drawing(line.svg))
    const loud = series.filter((line) => line.standing !== 'steady')
    const calm = series.filter((line) => line.standing === 'steady')
    put($curves, h('h2', {}, roundWords.curves), answer.words.map((/** @type {string} */ words) => h('p', {}, words)), loud.map(one),
      calm.length > 0 && h('details', { class: 'fold' }, h('summary', { 'data-open': roundWords.open1, 'data-close': roundWords.shut }, roundWords.calm(calm.length)), h('div', {}, calm.map(one))))
  }, () => {})
  return $curves
}
