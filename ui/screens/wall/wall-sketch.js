// @ts-check
import { choices } from '../../fields.js'
import { s } from '../../parts/dom.js'
import { wallWords } from '../../words.js'

/** @typedef {Record<string, string>} Fields */

/** What was typed, or what is asked. @param {Fields} fields @param {string} path @param {string} unit @param {string} asked */
function measure(fields, path, unit, asked) {
  const typed = (fields[path] ?? '').trim()
  if (typed === '') return { text: asked, open: true }
  return { text: /[a-z]/i.test(typed) ? typed : `${typed} ${unit}`, open: false }
}

/** @param {number} x @param {number} y @param {{text: string, open: boolean}} what @param {string} [anchor] */
const label = (x, y, what, anchor = 'middle') => s('text', { class: what.open ? 'asked' : 'dimt', x, y, 'text-anchor': anchor }, what.text)

/** The wall from inside with every measure named where it is taken. It explains; it is not to scale. @param {Fields} fields */
export function openingSketch(fields) {
  const flush = fields['/opening/flush'] === 'true'
  return s('svg', { viewBox: '0 0 340 196', role: 'img', 'aria-label': wallWords.drawing },
    s('path', { class: 'wash', d: 'M20 8h300v150H20z' }),
    s('path', { class: 'paper', d: 'M92 66h156v92H92z' }),
    s('path', { class: 'line', d: 'M20 8v150M320 8v150M4 158h332' }),
    s('path', { class: 'thin', d: flush ? 'M20 50h300M20 66h300' : 'M20 24h300M20 36h300' }),
    s('path', { class: 'steel', d: 'M80 50h180v16H80z' }),
    s('text', { class: 'onsteel', x: 170, y: 62, 'text-anchor': 'middle' }, wallWords.beam),
    s('path', { class: 'cut', d: 'M92 158V66h156v92' }),
    s('path', { class: 'dim', d: 'M92 140h156M92 135v10M248 135v10' }), label(170, 132, measure(fields, '/opening/width_m', 'm', wallWords.width)),
    s('path', { class: 'dim', d: 'M226 66v92M221 66h10M221 158h10' }), label(220, 104, measure(fields, '/opening/head_m', 'm', wallWords.head), 'end'),
    s('path', { class: 'dim', d: 'M20 176h72M20 171v10M92 171v10M248 176h72M248 171v10M320 171v10' }),
    label(56, 192, measure(fields, '/opening/left_masonry_m', 'm', wallWords.left)), label(284, 192, measure(fields, '/opening/right_masonry_m', 'm', wallWords.right)),
    s('text', { class: 'word', x: 170, y: 174, 'text-anchor': 'middle' }, wallWords.floor))
}

/** @param {Fields} fields @param {number} i */
function leafWords(fields, i) {
  const material = choices.material.find(([value]) => value === fields[`/wall/leaves/${i}/material`])?.[1]
  return { material: material ?? '', thick: measure(fields, `/wall/leaves/${i}/thickness_mm`, 'mm', '?') }
}

/** The wall cut through, with its leaves. @param {Fields} fields */
export function leavesSketch(fields) {
  const two = Object.keys(fields).some((field) => field.startsWith('/wall/leaves/1/'))
  const outer = leafWords(fields, 0)
  const inner = leafWords(fields, 1)
  const one = 'M120 6h100v44H120z'
  return s('svg', { viewBox: '0 0 340 92', role: 'img', 'aria-label': wallWords.plan },
    s('text', { class: 'word', x: 4, y: 32 }, wallWords.outside), s('text', { class: 'word', x: 336, y: 32, 'text-anchor': 'end' }, wallWords.inside),
    two ? [s('path', { class: 'board', d: 'M66 6h76v44H66zM198 6h76v44h-76z' }), s('path', { class: 'thin', d: 'M142 20h56M142 36h56' })] : s('path', { class: 'board', d: one }),
    two ? [
      label(104, 32, outer.thick), label(236, 32, inner.thick), label(170, 71, measure(fields, '/wall/cavity_mm', 'mm', '?')),
      s('path', { class: 'dim', d: 'M142 55h56M142 51v8M198 51v8' }),
      s('text', { class: 'word', x: 4, y: 88 }, outer.material), s('text', { class: 'word', x: 336, y: 88, 'text-anchor': 'end' }, inner.material),
    ] : [label(170, 32, outer.thick), s('text', { class: 'word', x: 170, y: 68, 'text-anchor': 'middle' }, outer.material)])
}
