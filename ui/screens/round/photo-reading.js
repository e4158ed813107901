// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { choice, quantity } from '../../parts/field.js'
import { newestOf, photos } from '../../parts/photo.js'
import { flush, site, write } from '../../parts/site.js'
import { readAt, stroke, taps, writeAt } from '../../parts/taps.js'
import { fold } from '../../parts/why.js'
import { measureWords as words } from '../../words.js'
import { cardView } from '../measure/card.js'
import { wrongText } from '../measure/wrong.js'
import { GAUGES, gaugeName } from './reading.js'
import { takeCrack, takeLean, takeOff } from './taken.js'
import { leanLine } from './tilt.js'

/** Lean, off centre and cracks read on a photo by four taps. */

/** @typedef {import('../../parts/taps.js').At} At */
/** @typedef {{mm: number, plus_minus_mm: number}} Read */

/**
 * A photo of one thing with four spots to tap, and what comes of them.
 * @param {string} about what the photo is of @param {string} key where the taps are kept @param {readonly string[]} names
 * @param {(points: At[], tapPx: number, sha: string) => Promise<any>} read @param {(answer: any) => any} show
 * @param {() => string} [lacks] the label of a field that must be filled first
 */
function tapped(about, key, names, read, show, lacks = () => '') {
  const $box = h('div', {})
  const $answer = h('div', { 'aria-live': 'polite' })
  const id = /** @type {string} */ (site.id)
  let again = () => {}
  const draw = async () => {
    const photo = newestOf(about)
    if (!photo) { put($box, h('p', { class: 'hint' }, words.crackPick)); return }
    const path = (/** @type {number} */ i) => `/job/sight/${photo.sha.slice(0, 12)}/${key}/${i}`
    const spots = () => names.map((name, i) => ({ key: path(i), name, at: readAt(site.fields[path(i)]) }))
    try {
      const size = await app.photoSize(id, photo.sha)
      const tool = taps(photo.view_url, size, about, (at, to, done) => {
        write(at, to && writeAt(to))
        if (done) { flush(); tool.set(spots()); again() } else over()
      })
      const over = () => {
        const points = spots().map((spot) => spot.at)
        tool.over([[0, 1], [2, 3]].map(([a, b]) => points[a] && points[b] && stroke([/** @type {At} */ (points[a]), /** @type {At} */ (points[b])], false, a === 0 ? 'known' : 'length')))
      }
      again = async () => {
        over()
        const points = spots().map((spot) => spot.at)
        if (points.some((point) => !point)) { put($answer); return }
        if (lacks()) { put($answer, h('p', { class: 'wrong' }, words.lacks([lacks()]))); return }
        try { put($answer, show(await read(/** @type {At[]} */ (points), tool.tapPx(), photo.sha))) } catch (failure) { put($answer, h('p', { class: 'wrong' }, wrongText(failure))) }
      }
      put($box, tool.$view, $answer)
      tool.set(spots())
      again()
    } catch (failure) { put($box, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  draw()
  return { $box, again: () => again(), draw }
}

/** @param {any} answer */
const saidOf = (answer) => [answer.doubts.map((/** @type {any} */ doubt) => h('p', { class: doubt.trust === 'refused' ? 'wrong' : 'doubt' }, doubt.words)), h('p', { class: 'doubt' }, answer.caution)]

/** @param {() => any} take */
function taking(take) {
  const $said = h('div', { role: 'status' })
  return [h('button', { type: 'button', class: 'ask', onclick: () => { put($said, take()); flush() } }, words.takeReading), $said]
}

/** @param {import('../../parts/types.js').Prop} prop */
export function photoReading(prop) {
  return fold(words.photoFold, () => propBody(prop), false, `photo ${prop.name}`)
}

/** @param {import('../../parts/types.js').Prop} prop */
function propBody(prop) {
  const at = '/job/sight/read'
  const $body = h('div', {})
  const id = /** @type {string} */ (site.id)
  const draw = () => {
    if (!newestOf(prop.name)) { put($body, photos(prop.name, 'detail', words.photoOfProp)); return }
    const what = site.fields[`${at}/what`] ?? ''
    const facing = site.fields[`${at}/facing`] ?? 'wall'
    if (what === 'lean') {
      const key = facing === 'wall' ? 'along' : 'across'
      const side = facing === 'wall' ? (prop.side === 'inside' ? 1 : -1) : facing === 'right' ? 1 : -1
      const tool = tapped(prop.name, 'lean', words.leanSpots, (points, tap_px, sha) => app.readPhoto('lean', id, sha, { vertical_px: points.slice(0, 2), axis_px: points.slice(2), tap_px }), (answer) => {
        const lean = { deg: answer.lean_deg, plus_minus_deg: answer.plus_minus_deg, mm_per_m: answer.mm_per_m, plus_minus_mm_per_m: answer.plus_minus_mm_per_m, limit: answer.limit }
        const there = answer.trust !== 'refused' && typeof lean.mm_per_m === 'number'
        return [saidOf(answer), there && leanLine(key, lean, side * lean.mm_per_m), there && taking(() => takeLean(prop.name, lean.limit === 'unclear' ? [] : [{ key, mm_per_m: side * lean.mm_per_m, plus_minus_mm_per_m: lean.plus_minus_mm_per_m }]))]
      })
      put($body, choice(`${at}/facing`, words.facings, { label: words.facing, hint: words.facingHint, value: facing, changed: (value) => { write(`${at}/facing`, value); draw() } }), tool.$box)
    } else if (what === 'head' || what === 'foot') {
      const tool = tapped(prop.name, what, words.centreSpots, (points, tap_px, sha) => app.readPhoto('off_centre', id, sha, { plate_px: points.slice(0, 2), tube_px: points.slice(2), plate_mm: site.fields[`${at}/plate`] ?? '', tap_px }), (answer) => readView(answer, 0, (read) => takeOff(prop.name, what, read)), () => (site.fields[`${at}/plate`]?.trim() ? '' : words.plate))
      put($body, h('div', { oninput: () => tool.again() }, quantity(`${at}/plate`, { label: words.plate, unit: 'mm', hint: words.plateHint })), tool.$box)
    }
  }
  draw()
  return h('div', { onphoto: draw }, choice(`${at}/what`, words.reads, { label: words.readWhat, changed: (value) => { write(`${at}/what`, value); draw() } }), $body)
}

/** @param {any} answer @param {number} digits @param {(read: Read) => any} take */
function readView(answer, digits, take) {
  const read = answer.trust !== 'refused' && answer.reading
  return [saidOf(answer), read && h('div', { class: 'figure' }, h('b', {}, words.mmWithin({ ...read, mm: Math.abs(read.mm) }, digits))), read && taking(() => take(read))]
}

/**
 * A crack's width beside a scale, into one of the round's gauges: one that is known, or the next free place.
 * @returns {{$view: HTMLElement, draw: () => void}} to be drawn again when a photo came
 */
export function crackReading() {
  /** @type {() => void} */
  let draw = () => {}
  const $view = fold(words.crackFold, () => {
    const at = '/job/sight/crack'
    const id = /** @type {string} */ (site.id)
    const named = GAUGES.filter((i) => gaugeName(i)).map((i) => [i, gaugeName(i)])
    const free = GAUGES.find((i) => !gaugeName(i))
    const places = free ? [...named, [free, words.newGauge]] : named
    const chosen = () => places.find(([i]) => i === site.fields[`${at}/to`])?.[0] ?? places[0]?.[0] ?? '1'
    const tool = tapped('crack', 'crack', words.crackSpots, (points, tap_px, sha) => app.readPhoto('crack', id, sha, { scale_px: points.slice(0, 2), crack_px: points.slice(2), scale_mm: site.fields[`${at}/scale`] ?? '', tap_px }),
      (answer) => readView(answer, 2, (read) => takeCrack(chosen(), gaugeName(chosen()), read)), () => (site.fields[`${at}/scale`]?.trim() ? '' : words.scale))
    draw = tool.draw
    return h('div', {}, h('div', { oninput: () => tool.again() }, quantity(`${at}/scale`, { label: words.scale, unit: 'mm', hint: words.scaleHint })),
      places.length > 1 && choice(`${at}/to`, places, { label: words.crackTo, value: chosen() }), tool.$box, cardView())
  }, false, 'crack photo')
  return { $view, draw: () => draw() }
}
