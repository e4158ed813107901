// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { choice, pick, quantity } from '../../parts/field.js'
import { below, flush, rows, site, write } from '../../parts/site.js'
import { measureWords as words } from '../../words.js'
import { metres } from '../above/measure.js'
import { TAPS, addThing, dropThing, known, nameOf, path, photoNow, restsOn, said, say, things } from './state.js'

/** What is read and drawn on a photo, each with its ± and its doubts, and taken into the description by one press. */

/** @typedef {{mm: number, plus_minus_mm: number}} Read */
/** @typedef {{path: string, text: string, label: string, read: Read}} Taken */

/** ± from which a rule is asked for, mm; own judgement: half of the search's own step of places. Said at the reading itself, and again when it is taken. */
const ROUGH_MM = 25

/** Metres as the description takes them, to the millimetre. @param {number} mm */
const inMetres = (mm) => String(Number((mm / 1000).toFixed(3)))

/** @param {() => void} again @param {() => void} changed */
export function thingsView(again, changed) {
  const $rows = h('div', {})
  const $cautions = h('div', { class: 'cautions', hidden: true })
  /** @type {Map<number, {$row: HTMLElement, show: (answer: any) => void}>} */
  const shown = new Map()
  const draw = () => {
    shown.clear()
    put($rows, things().map(({ row }) => {
      const one = rowView(row, again, () => { dropThing(row); flush(); draw(); changed() })
      shown.set(row, one)
      return one.$row
    }))
  }
  draw()
  return {
    $view: h('section', { class: 'readings' }, h('h2', {}, words.things), $rows, $cautions, h('h3', {}, words.add),
      h('div', { class: 'adds' }, Object.entries(words.adds).map(([what, label]) => h('button', {
        type: 'button', class: 'ask', onclick: () => { addThing(/** @type {any} */ (what)); flush(); if (what === 'courses') again(); else { draw(); changed() } document.querySelector('.taps')?.scrollIntoView({ block: 'center' }) },
      }, label)))),
    /** @param {any} answer */
    show(answer) {
      shown.forEach((one) => one.show(answer))
      $cautions.hidden = !([answer.lengths, answer.levels, answer.rectangles, answer.coursing].flat().length)
      put($cautions, h('strong', {}, words.cautions), answer.cautions.map((/** @type {string} */ one) => h('p', {}, one)))
    },
  }
}

/** @param {number} row @param {() => void} again @param {() => void} drop */
function rowView(row, again, drop) {
  const what = /** @type {import('./state.js').What} */ (said(`r/${row}/what`))
  const $read = h('div', { 'aria-live': 'polite' })
  const $said = h('p', { role: 'status', class: 'said' }, said(`r/${row}/said`))
  const field = (/** @type {string} */ key) => path(`r/${row}/${key}`)
  const storeys = rows('/above/').map((i) => [`/above/${i}/openings/`, words.storey(i)])
  const above = said(`r/${row}/in`).startsWith('/above/')
  /** @type {any} */
  let last = null
  const take = async () => {
    const { wrong, list } = takes(row, what, last)
    if (wrong) { $said.className = 'wrong'; $said.textContent = wrong; return }
    list.forEach((one) => write(one.path, one.text))
    const texts = list.map((one) => `${one.label} ${words.within(one.read)}`).join(', ')
    const told = words.taken(texts, list.some((one) => one.read.plus_minus_mm > ROUGH_MM))
    say(`r/${row}/said`, told)
    say(`r/${row}/wrote`, JSON.stringify(list.map((one) => [one.path, one.text])))
    try {
      await flush()
      await app.addNote(/** @type {string} */ (site.id), words.takenNote(nameOf(row), photoNow()?.short ?? '', texts, restsOn(), last.doubts.map((/** @type {any} */ one) => one.words).join(' ')))
      $said.className = 'said'
      $said.textContent = told
    } catch (failure) { $said.className = 'wrong'; $said.textContent = failureText(failure) }
  }
  const $take = h('button', { type: 'button', class: 'ask', onclick: take, 'aria-label': `${words.take}: ${nameOf(row)}` }, words.take)
  const $row = h('div', { class: 'onerow reading', role: 'group', 'aria-label': nameOf(row) },
    h('div', { class: 'rowname' }, h('strong', {}, nameOf(row)), h('button', { type: 'button', class: 'small', onclick: drop, 'aria-label': `${words.takeOut}: ${nameOf(row)}` }, words.takeOut)),
    what === 'courses' && [quantity(field('count'), { label: words.count }), choice(field('of'), words.ofs, { label: words.of })],
    $read,
    what === 'length' && pick(field('as'), [...words.takeFields, ...storeys.map(([at]) => [`/above/${storeyOf(at)}/height_m`, words.heightOf(storeyOf(at))])], { label: words.takeAs }),
    what === 'level' && pick(field('as'), [['/opening/head_m', words.headAs], ...storeys.map(([at]) => [levelPath(at), words.floorOf(storeyOf(at))])], { label: words.takeAs }),
    what === 'pier' && choice(field('as'), words.pierSides, { label: words.takeAs }),
    what === 'window' && storeys.length > 0 && pick(field('in'), [['/wall/openings/', words.thisWall], ...storeys], { label: words.windowIn, changed: (value) => { say(`r/${row}/in`, value || null); again() } }),
    what === 'window' && above && quantity(levelPath(said(`r/${row}/in`)), { label: words.level, unit: 'm', hint: words.levelHint }),
    what !== 'courses' && $take, $said)
  return {
    $row,
    /** @param {any} answer */
    show(answer) {
      const named = (/** @type {any} */ one) => one.name === String(row)
      last = [...answer.lengths, ...answer.levels, ...answer.rectangles, ...answer.coursing].find(named) ?? null
      $take.disabled = !last || last.trust === 'refused'
      put($read, readView(row, what, last))
    },
  }
}

/** @param {string} into a path in a storey */
const storeyOf = (into) => Number(into.split('/')[2])

/** Where a storey's floor is kept: one for all its windows. @param {string} into a path in that storey */
const levelPath = (into) => `/job/sight/storey/${storeyOf(into)}/level`

/** @param {number} row @param {import('./state.js').What} what @param {any} read */
function readView(row, what, read) {
  if (!read) {
    const missing = things().find((one) => one.row === row)?.points.filter((point) => !point).length ?? TAPS[what]
    return missing > 0 && h('p', { class: 'hint' }, words.notWhole(missing))
  }
  const figure = (/** @type {string} */ label, /** @type {Read} */ one) => h('div', {}, h('span', { class: 'soft' }, label), h('div', { class: 'figure' }, h('b', {}, words.metres(one.mm).replace('-', '−')), h('span', {}, `± ${Math.ceil(one.plus_minus_mm - 1e-9)} mm`)))
  const { jamb, floor } = known()
  const sizes = read.sizes && /** @type {any[]} */ ([['width', true], ['height', true], ['head', floor], ['sill', floor && what === 'window'], ['x', jamb && what !== 'opening']]).filter(([, there]) => there)
  const reads = /** @type {Read[]} */ (what === 'courses' ? [] : [read.length, ...(sizes ?? []).map((/** @type {any[]} */ [key]) => read.sizes[/** @type {string} */ (key)])].filter(Boolean))
  const within = Math.ceil(Math.max(0, ...reads.map((one) => one.plus_minus_mm)) - 1e-9)
  const rough = within > ROUGH_MM
  const better = (rough || (read.trust === 'refused' && read.doubts.some((/** @type {any} */ doubt) => doubt.code === 'too_rough'))) && read.mostly
  return [h('p', { class: `trust ${rough && read.trust === 'good' ? 'doubtful' : read.trust}` }, rough && read.trust === 'good' ? words.tooRough : words.trust[/** @type {'good'} */ (read.trust)]),
    h('div', { class: 'pair' }, read.length && what !== 'courses' && figure(what === 'level' ? words.overFloor : nameOf(row), read.length), sizes?.map((/** @type {any[]} */ [key]) => figure(words.size[/** @type {'x'} */ (key)], read.sizes[/** @type {string} */ (key)]))),
    rough && h('p', { class: 'doubt' }, words.needsRule(within)), better && h('p', {}, words.better[/** @type {'lens'} */ (better)]),
    what === 'courses' && read.length && h('p', { class: read.agrees ? '' : 'wrong' }, (read.agrees ? words.agrees : words.differs)(words.within(read.counted), words.within(read.length))),
    read.doubts.map((/** @type {any} */ doubt) => h('p', { class: doubt.trust === 'refused' ? 'wrong' : 'doubt' }, doubt.words))]
}

/** What goes where, or why it cannot yet. @param {number} row @param {import('./state.js').What} what @param {any} read @returns {{wrong?: string, list: Taken[]}} */
function takes(row, what, read) {
  const { jamb, floor } = known()
  const as = said(`r/${row}/as`)
  const one = (/** @type {string} */ at, /** @type {string} */ label, /** @type {Read} */ of, less = 0) => ({ path: at, label, text: inMetres(of.mm - less), read: { ...of, mm: of.mm - less } })
  const storeyAs = Number(as.split('/')[as.startsWith('/above/') ? 2 : 4])
  const label = what === 'level' ? (as === '/opening/head_m' ? words.headAs : words.floorOf(storeyAs)) : ([...words.takeFields].find(([at]) => at === as)?.[1] ?? words.heightOf(storeyAs))
  if (!read || read.trust === 'refused') return { wrong: words.refused, list: [] }
  if (what === 'length' || what === 'pier') return as ? { list: [one(as, label, what === 'length' ? read.length : read.sizes.width)] } : { wrong: words.needPlace, list: [] }
  if (!floor) return { wrong: words.needFloor, list: [] }
  if (what === 'level') return as ? { list: [one(as, label, read.length)] } : { wrong: words.needPlace, list: [] }
  if (what === 'opening') return { list: [one('/opening/width_m', words.size.width, read.sizes.width), one('/opening/head_m', words.size.head, read.sizes.head)] }
  if (!jamb) return { wrong: words.needJamb, list: [] }
  const into = said(`r/${row}/in`) || '/wall/openings/'
  const metre = into.startsWith('/above/') ? metres(site.fields[levelPath(into)]) : 0
  if (metre === null) return { wrong: words.needLevel, list: [] }
  const at = `${into}${placeIn(row, into)}`
  return { list: [one(`${at}/x_m`, words.size.x, read.sizes.x), one(`${at}/width_m`, words.size.width, read.sizes.width), one(`${at}/sill_m`, words.size.sill, read.sizes.sill, metre * 1000), one(`${at}/height_m`, words.size.height, read.sizes.height)] }
}

/** The row of the description that this window filled before and that nobody changed since, else a new one. @param {number} row @param {string} into */
function placeIn(row, into) {
  /** @type {[string, string][]} */
  let wrote = []
  try { wrote = JSON.parse(said(`r/${row}/wrote`) || '[]') } catch { /* nothing that can be read was written */ }
  const first = wrote[0]?.[0] ?? ''
  if (first.startsWith(into) && wrote.every(([at, text]) => site.fields[at] === text)) return first.slice(into.length).split('/')[0]
  const taken = rows(into)
  // An empty row that somebody added by hand is filled first.
  const empty = taken.find((i) => below(`${into}${i}/`).every((at) => site.fields[at] === ''))
  return String(empty ?? (taken.length > 0 ? Math.max(...taken) + 1 : 0))
}
