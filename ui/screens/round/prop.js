// @ts-check
import { isTwo } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { choice, pick, quantity, text } from '../../parts/field.js'
import { force, number, percent } from '../../parts/numbers.js'
import { photos } from '../../parts/photo.js'
import { site } from '../../parts/site.js'
import { roundWords } from '../../words.js'
import { kindWords } from '../support/rows.js'
import { noteNo, noView } from './no.js'
import { photoReading } from './photo-reading.js'
import { readingBefore, todayBefore, typed } from './reading.js'
import { answeredHere, ruler } from './ruler.js'
import { tiltView } from './tilt.js'

/** @typedef {import('../../parts/types.js').Prop} Prop */

/** What has to be packed over this prop. @param {Prop} prop @param {string} label */
const packedLabel = (prop, label) => (prop.needle === '' ? roundWords.packedUnderBracket : prop.needle.startsWith('F') ? roundWords.packedUnderHeader : isTwo(site.fields) ? label : roundWords.packedOfOne)

const mm = (/** @type {number|undefined} */ value) => (value === undefined ? '' : `${number(value, 0)} mm`)

/** The questions of one prop; none is answered beforehand. @param {Prop} prop @param {Prop[]} all @param {() => void} changed */
export function propView(prop, all, changed) {
  const at = `/round/${prop.name}`
  const before = readingBefore(prop.name)
  const was = todayBefore(prop.name)
  const over = (typed('over_m') ?? '').trim()
  const no = noView(prop.name, changed)
  const at3 = all.findIndex((one) => one.name === prop.name) + 1
  const question = (/** @type {string} */ key, /** @type {string} */ label, /** @type {any} */ options, /** @type {string} */ hint) => {
    const $field = choice(`${at}/${key}`, options, { label, hint })
    $field.dataset.question = `${at}/${key}`
    $field.classList.add('yesno')
    return $field
  }
  const $page = h('section', { class: 'prop' },
    h('div', { class: 'oftotal' }, h('p', {}, roundWords.ofAll(at3, all.length)), h('div', { class: 'ticks', 'aria-hidden': 'true' }, all.map((one) => h('i', { class: one.name === prop.name ? 'now' : typed(`${one.name}/packed`) ? 'done' : '' })))),
    h('h2', { class: 'figure' }, h('b', {}, prop.name), h('span', {}, roundWords.carries(force(prop.load_kn)))),
    h('p', { class: 'soft' }, roundWords.where(prop, kindWords(prop)), was && ` ${roundWords.lastGoodFor(percent(was.utilisation))}`),
    question('pin', roundWords.pin, roundWords.pins, roundWords.pinHint),
    // Where one prop is looked at again, nobody came past the page that asks for it.
    !over && quantity('/round/over_m', { label: roundWords.over, unit: 'm', hint: roundWords.overHint }),
    ruler(`${at}/lean_along_mm`, { label: roundWords.along, sides: [roundWords.toRight, roundWords.toLeft], last: mm(before?.lean_mm?.[0]), hint: over ? roundWords.overLength(over) : roundWords.leanHint }),
    ruler(`${at}/lean_across_mm`, { label: roundWords.across, sides: [roundWords.inwards, roundWords.outwards], last: mm(before?.lean_mm?.[1]) }),
    ruler(`${at}/head_off_mm`, { label: roundWords.head, last: mm(before?.head_off_mm) }),
    ruler(`${at}/foot_off_mm`, { label: roundWords.foot, last: mm(before?.foot_off_mm), hint: roundWords.centreHint }),
    h('div', { class: 'byphone' }, tiltView(prop), photoReading(prop)),
    roundWords.asked.map(([key, label]) => question(key, key === 'packed' ? packedLabel(prop, label) : label, roundWords.yesNo, '')),
    no.$box,
    ruler(`${at}/collar_turns`, { label: roundWords.turns, unit: roundWords.turnsUnit, step: 0.25, marks: [0.25, 0.5, 0.75, 1, 2], sides: [roundWords.tightened, roundWords.letDown], hint: roundWords.turnsHint }),
    h('details', { class: 'fold' }, h('summary', { 'data-open': roundWords.open1, 'data-close': roundWords.shut }, roundWords.more1),
      h('div', {}, pick(`${at}/changed`, roundWords.changes, { label: roundWords.changed, hint: [was && roundWords.wasGoodFor(was), roundWords.changedHint].filter(Boolean).join(' ') }), text(`${at}/note`, { label: roundWords.note }), photos(prop.name, 'detail', roundWords.photoOf))))
  $page.addEventListener('change', (/** @type {Event} */ event) => {
    const $from = /** @type {HTMLInputElement} */ (event.target)
    if ($from.type !== 'radio') return
    noteNo(prop.name)
    no.update()
    // After a "no" what to do now comes first.
    if ($from.value === 'true' || $from.value === 'right') answeredHere($from)
    else no.$box.scrollIntoView({ block: 'center', behavior: 'instant' })
  })
  no.update()
  return { $page, update: no.update }
}

/** Brings the next open question under the thumb, when the one before it was answered by a touch. @param {HTMLElement} $page @param {() => string|undefined} open @param {string} prop */
export function goOnBySelf($page, open, prop) {
  $page.addEventListener('answered', () => {
    const key = open()
    const $next = key ? $page.querySelector(`[data-question="${CSS.escape(`/round/${prop}/${key}`)}"]`) : null
    if (!($next instanceof HTMLElement)) return
    const { top, bottom } = $next.getBoundingClientRect()
    const room = innerHeight - (document.getElementById('foot')?.offsetHeight ?? 0)
    // Only as far as it must: what is in view stays where the thumb has seen it.
    if (bottom > room - 8 || top < 60) scrollBy({ top: top - Math.max(70, room * 0.3), behavior: 'instant' })
  })
}
