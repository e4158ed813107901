// @ts-check
import { s } from '../../parts/dom.js'
import { mass, number } from '../../parts/numbers.js'
import { rows, site } from '../../parts/site.js'
import { aboveWords } from '../../words.js'
import { metres } from './measure.js'

/** The stack as a drawing: everything on one scale, the weight along the wall underneath on the same x axis. */

/** @typedef {import('./house.js').Piece} Piece */

const WIDE = 340
const SIDE = 14
/** Tallest that the house is drawn, and height of the largest weight. */
const TALL = 262
const HEAVY = 54

/** @param {string} path @param {number} otherwise */
const length = (path, otherwise) => metres(site.fields[path]) ?? otherwise

/** @param {number} n */
const r = (n) => Math.round(n * 100) / 100
/** @param {string} name @param {string} d @param {Record<string, any>} [more] */
const path = (name, d, more = {}) => s('path', { class: name, d, ...more })
/** @param {number} x @param {number} y @param {number} w @param {number} h */
const rect = (x, y, w, h) => `M${r(x)} ${r(y)}h${r(w)}v${r(h)}h${r(-w)}z`
/** @param {number} x @param {number} y @param {string} words @param {string} [name] @param {string} [anchor] */
const text = (x, y, words, name = 'word', anchor = 'middle') => s('text', { class: name, x: r(x), y: r(y), 'text-anchor': anchor, 'aria-hidden': 'true' }, words)

/** What the fields say of the house; a careful ordinary value stands where nothing was said, for the drawing alone. */
function model() {
  const width = length('/opening/width_m', 2.4)
  const head = length('/opening/head_m', 2.1)
  let foot = 2.75
  const storeys = rows('/above/').map((i) => {
    const none = site.fields[`/above/${i}/floor`] === 'null'
    const bearing = metres(site.fields[`/above/${i}/floor/bearing_m`])
    foot = bearing ?? Math.max(foot, i === 0 ? head + 0.5 : 0)
    const depth = none ? 0 : length(`/above/${i}/floor/joist_depth_m`, 0.22)
    const top = foot + length(`/above/${i}/height_m`, 2.6)
    const windows = rows(`/above/${i}/openings/`).map((row) => {
      const of = (/** @type {string} */ key, /** @type {number} */ otherwise) => length(`/above/${i}/openings/${row}/${key}`, otherwise)
      return { row, x: of('x_m', 0), width: of('width_m', 1), low: foot + depth + of('sill_m', 0.9), height: of('height_m', 1) }
    })
    const one = { i, foot, depth, top, none, direction: site.fields[`/above/${i}/floor/direction`] ?? 'onto', windows, inside: length(`/above/${i}/floor/inside_span_m`, 0), outside: length(`/above/${i}/floor/outside_span_m`, 0) }
    foot = top
    return one
  })
  const eaves = storeys.at(-1)?.top ?? length('/roof/bearing_m', Math.max(2.6, head + 0.4))
  const kind = site.fields['/roof/kind'] ?? 'trusses'
  const rise = kind === 'none' ? 0 : kind === 'flat' ? 0.25 : Math.min(1.3, Math.max(0.6, Math.tan((Math.min(length('/roof/pitch_deg', 35), 70) * Math.PI) / 180) * length('/roof/span_m', 7) / 2))
  const points = rows('/points/').map((row) => {
    const level = Number(site.fields[`/points/${row}/level`] ?? storeys.length)
    return { row, x: length(`/points/${row}/x_m`, width / 2), z: storeys[level]?.foot ?? eaves, what: site.fields[`/points/${row}/what`] ?? '', kn: site.fields[`/points/${row}/dead_kn`] ?? '?' }
  })
  let from = -Math.min(Math.max(length('/opening/left_masonry_m', 0.9), 0.3), 1.5)
  let to = width + Math.min(Math.max(length('/opening/right_masonry_m', 0.9), 0.3), 1.5)
  for (const window of storeys.flatMap((one) => one.windows)) {
    from = Math.max(Math.min(from, window.x - 0.3), -3)
    to = Math.min(Math.max(to, window.x + window.width + 0.3), width + 3)
  }
  return { width, head, storeys, eaves, rise, kind, points, from, to, low: Math.max(0, head - 0.55) }
}

/** @param {Piece|null} chosen */
export function drawHouse(chosen) {
  const m = model()
  const unit = Math.min((WIDE - 2 * SIDE) / (m.to - m.from), TALL / (m.eaves + m.rise - m.low))
  const x0 = (WIDE - (m.to - m.from) * unit) / 2
  const x = (/** @type {number} */ at) => x0 + (Math.min(Math.max(at, m.from), m.to) - m.from) * unit
  const z = (/** @type {number} */ at) => 18 + (m.eaves + m.rise - at) * unit
  const [left, right, base] = [x(m.from), x(m.to), z(m.low)]
  const is = (/** @type {string} */ kind, storey = 0, row = 0) => chosen?.kind === kind && chosen.storey === storey && (kind !== 'window' && kind !== 'point' ? true : chosen.row === row)
  const piece = (/** @type {string} */ key, /** @type {string} */ label, /** @type {boolean} */ on, /** @type {any[]} */ ...parts) => s('g', { class: on ? 'piece on' : 'piece', 'data-piece': key, tabindex: '0', role: 'button', 'aria-label': label, 'aria-pressed': String(on) }, parts)
  const parts = []
  /** Words on a piece stand beside it in the tree, since its name says more than they do. @param {string} key @param {string} label @param {boolean} on @param {any[]} drawn the words last */
  const worded = (key, label, on, drawn) => parts.push(piece(key, label, on, drawn.slice(0, -1)), drawn.at(-1))
  if (m.kind !== 'none') worded('roof-0', aboveWords.pieces.roof, is('roof'), roof(m, left, right, z, unit))
  for (const one of [...m.storeys].reverse()) {
    parts.push(piece(`wall-${one.i}`, aboveWords.pieces.wall(one.i), is('wall', one.i), path('masonry', rect(left, z(one.top), right - left, z(one.foot) - z(one.top)))))
  }
  const under = m.storeys[0]?.foot ?? m.eaves
  if (under > m.head) parts.push(piece('wall--1', aboveWords.pieces.below, is('wall', -1), path('masonry', rect(left, z(under), right - left, z(m.head) - z(under)))))
  parts.push(path('line', `M${r(left)} ${r(z(m.eaves))}V${r(base)}M${r(right)} ${r(z(m.eaves))}V${r(base)}`))
  for (const one of m.storeys) if (!one.none) worded(`floor-${one.i}`, aboveWords.pieces.floor(one.i, one.direction), is('floor', one.i), floor(one, left, right, z, unit))
  for (const one of m.storeys) for (const window of one.windows) parts.push(windowPiece(one.i, window, x, z, is('window', one.i, window.row), piece))
  for (const point of m.points) {
    const [px, pz] = [x(point.x), z(point.z)]
    parts.push(piece(`point-0-${point.row}`, aboveWords.pieces.point(point.row, point.what, point.kn), is('point', 0, point.row), path('hit', rect(px - 22, pz - 32, 44, 44)), path('load', `M${r(px - 7)} ${r(pz - 14)}h14l-7 14z`), text(px, pz - 18, `${point.what} ${point.kn} kN`.trim())))
  }
  const [a, b, head] = [x(0), x(m.width), z(m.head)]
  parts.push(path('paper', rect(a, head, b - a, base - head)), path('cut', `M${r(a)} ${r(base)}V${r(head)}H${r(b)}V${r(base)}`), text((a + b) / 2, (head + base) / 2 + 4, aboveWords.opening))
  parts.push(path('dim', `M${r(a)} ${r(base + 10)}H${r(b)}M${r(a)} ${r(base + 5)}v10M${r(b)} ${r(base + 5)}v10`), text((a + b) / 2, base + 25, `${number(m.width, 2)} m`, 'dimt'))
  const { parts: weights, height } = weight(x, left, right, base + 34)
  parts.push(...weights)
  const $svg = s('svg', { viewBox: `0 0 ${WIDE} ${r(height)}`, role: 'group', 'aria-label': aboveWords.picture }, parts)
  return { $svg, toMetres: (/** @type {number} */ across, /** @type {number} */ down) => ({ x: m.from + (across * WIDE - x0) / unit, z: m.eaves + m.rise - (down * height - 18) / unit }) }
}

/** @param {ReturnType<typeof model>} m @param {number} left @param {number} right @param {(at: number) => number} z @param {number} unit */
function roof(m, left, right, z, unit) {
  const [eaves, ridge] = [z(m.eaves), z(m.eaves + m.rise)]
  const over = Math.min(length('/roof/overhang_m', 0.3) * unit, left - 2)
  const inset = m.kind === 'flat' ? -over : Math.min(m.rise * unit * 0.6, (right - left) * 0.2)
  const rows = m.kind === 'flat' ? [] : [0.2, 0.4, 0.6, 0.8]
  const gable = site.fields['/wall/gable'] === 'true'
  const middle = (left + right) / 2
  const outline = gable ? `M${r(left - over)} ${r(eaves)}L${r(middle)} ${r(ridge)}L${r(right + over)} ${r(eaves)}z` : `M${r(left - over)} ${r(eaves)}L${r(left + inset)} ${r(ridge)}H${r(right - inset)}L${r(right + over)} ${r(eaves)}z`
  const bears = site.fields['/roof/bears'] !== 'false'
  return [path('tiles', outline), !gable && path('thin', rows.map((k) => `M${r(left - over + (inset + over) * k)} ${r(eaves + (ridge - eaves) * k)}H${r(right + over - (inset + over) * k)}`).join('')),
    text(middle, (eaves + ridge) / 2 + 5, `${aboveWords.roofKinds[/** @type {'flat'} */ (m.kind)] ?? ''} ${site.fields['/roof/span_m'] ?? ''}${site.fields['/roof/span_m'] ? ' m' : ''}${bears ? '' : aboveWords.notOnIt}`.trim(), 'word back')]
}

/** A floor with its joists: their ends and arrows onto the wall, or arrows along it. @param {ReturnType<typeof model>['storeys'][number]} one @param {number} left @param {number} right @param {(at: number) => number} z @param {number} unit */
function floor(one, left, right, z, unit) {
  const [low, high] = [z(one.foot), z(one.foot + one.depth)]
  const middle = (low + high) / 2
  const band = [path('hit', rect(left, middle - 16, right - left, 32)), path('floor', rect(left, high, right - left, low - high))]
  const words = [one.inside > 0 && number(one.inside), one.outside > 0 && number(one.outside)].filter(Boolean).join(' + ')
  if (one.direction === 'along') return [...band, path('dim', `M${r(left + 8)} ${r(middle)}H${r(right - 8)}M${r(left + 14)} ${r(middle - 4)}l-6 4 6 4M${r(right - 14)} ${r(middle - 4)}l6 4-6 4`), text(left + 14, high - 6, aboveWords.joists.along, 'word', 'start')]
  let ends = ''
  for (let at = left + 0.2 * unit; at < right - 2; at += 0.4 * unit) ends += rect(at, high, 3, low - high)
  // The joists come out of the room onto the wall: arrows that run into it from the front.
  const arrows = [left + 20, right - 20].map((at) => `M${r(at - 9)} ${r(high - 15)}L${r(at)} ${r(high - 2)}M${r(at - 6.5)} ${r(high - 4)}L${r(at)} ${r(high - 2)}L${r(at - 0.8)} ${r(high - 9)}`).join('')
  return [...band, path('ends', ends), path('dim', arrows), text(left + 30, high - 6, `${aboveWords.joists.onto} ${words}${words ? ' m' : ''}`.trim(), 'word', 'start')]
}

/** @param {number} storey @param {{row: number, x: number, width: number, low: number, height: number}} window @param {(at: number) => number} x @param {(at: number) => number} z @param {boolean} on @param {(key: string, label: string, on: boolean, ...parts: any[]) => any} piece */
function windowPiece(storey, window, x, z, on, piece) {
  const [a, b, top, low] = [x(window.x), x(window.x + window.width), z(window.low + window.height), z(window.low)]
  const [w, tall] = [Math.max(b - a, 2), Math.max(low - top, 2)]
  const grow = (/** @type {number} */ side) => Math.max(0, (48 - side) / 2)
  return piece(`window-${storey}-${window.row}`, aboveWords.pieces.window(storey, window.row, number(window.x, 2), number(window.width, 2), number(window.height, 2)), on,
    path('hit', rect(a - grow(w), top - grow(tall), w + 2 * grow(w), tall + 2 * grow(tall))), path('pane', rect(a, top, w, tall)), path('thin', `M${r((a + b) / 2)} ${r(top)}v${r(tall)}M${r(a)} ${r(top + tall / 2)}h${r(w)}`),
    on && [s('circle', { class: 'grip', cx: r(b), cy: r((top + low) / 2), r: 7 }), s('circle', { class: 'hit', 'data-part': 'wide', cx: r(b + 6), cy: r((top + low) / 2), r: 22 }), s('circle', { class: 'grip', cx: r((a + b) / 2), cy: r(top), r: 7 }), s('circle', { class: 'hit', 'data-part': 'high', cx: r((a + b) / 2), cy: r(top - 6), r: 22 }),
      text((a + b) / 2, low + 13, `${number(window.width, 2)} m`, 'dimt back')])
}

/** The weight along the wall, as the app found it. @param {(at: number) => number} x @param {number} left @param {number} right @param {number} top */
function weight(x, left, right, top) {
  const profile = site.figures?.proposal?.load.profile
  if (!profile) return { parts: [], height: top }
  const base = top + 14 + HEAVY
  /** @type {{from: number, to: number, kn: number}[]} */
  const steps = []
  profile.g_kn_m.forEach((g, i) => {
    const kn = g + profile.q_kn_m[i]
    const last = steps.at(-1)
    if (last && number(last.kn) === number(kn)) last.to = profile.x_m[i + 1]
    else steps.push({ from: profile.x_m[i], to: profile.x_m[i + 1], kn })
  })
  const most = Math.max(...steps.map((step) => step.kn), 0.001)
  const tall = (/** @type {number} */ kn) => (kn / most) * HEAVY
  const outline = `M${r(x(steps[0].from))} ${r(base)}${steps.map((step) => `V${r(base - tall(step.kn))}H${r(x(step.to))}`).join('')}V${r(base)}`
  /** @type {number[]} */
  const placed = []
  const figures = [...steps].sort((one, other) => other.kn - one.kn).flatMap((step, i) => {
    const middle = (x(step.from) + x(step.to)) / 2
    if (placed.some((other) => Math.abs(other - middle) < 34)) return []
    placed.push(middle)
    return [text(middle, base - tall(step.kn) - 5, number(step.kn), i === 0 ? 'word strong back' : 'word back')]
  })
  return { parts: [path('washed', `${outline}z`), path('weightline', outline), path('line', `M${r(left)} ${r(base)}H${r(right)}`), ...figures, text(WIDE / 2, base + 17, aboveWords.weightLine(mass(most)))], height: base + 24 }
}
