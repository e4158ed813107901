// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { day, number } from '../../parts/numbers.js'
import { flush, jobFields, site, write } from '../../parts/site.js'
import { fold, opens } from '../../parts/why.js'
import { supportWords } from '../../words.js'

/** Today's gust against the braces: typed in the unit of whatever forecast is at hand. */

const GUST = '/job/gust'
const UNIT = '/job/gust_unit'
/** The day on which the gust was typed: yesterday's is no answer for today. */
const DAY = '/job/gust_day'
/**
 * From here on nobody works beside an open wall, whatever its braces can do, m/s. The published line nearest to it is for
 * braced walls under construction: the zone beside them is left above 35 mph, 15.6 m/s, and above 20 mph while they are not
 * braced yet (Standard Practice for Bracing Masonry Walls Under Construction, as told in masonrymagazine.com, July 2005,
 * p. 34, and learnwithseu.com: secondary texts). That it fits a wall on needles, and 15 for 15.6, is own judgement.
 */
const NOBODY_M_S = 15
/** The same as what opens under the sentence. */
const NOBODY = Object.freeze({ steps: supportWords.gustNobodyWhy, source: supportWords.gustNobodySource })
let next = 0

const today = () => new Date().toDateString()
/** The gust typed today, else nothing. */
const gustNow = () => (site.fields[DAY] === today() ? (site.fields[GUST] ?? '').trim() : '')

/** @param {string} text */
function typed(text) {
  write(GUST, text)
  write(DAY, today())
}

export function gustForm() {
  const id = `gust${(next += 1)}`
  const unit = () => site.fields[UNIT] ?? 'm/s'
  const $said = h('div', { role: 'status' })
  const $entry = h('div', {})
  let asked = 0
  const answer = async () => {
    const text = gustNow()
    if (text === '' || !site.figures?.proposal) { put($said); return }
    const mine = (asked += 1)
    try {
      const gust = await app.gustToday(jobFields(), site.option, unit() === 'beaufort' ? `beaufort ${text}` : `${text} ${unit()}`)
      if (mine !== asked) return
      const words = supportWords.gustStands[gust.stands](number(gust.gust_m_s), number(gust.demand_kn), number(gust.resistance_kn))
      put($said, opens([h('strong', {}, words), gust.most_m_s > 0 && ` ${supportWords.gustMost(number(gust.most_m_s, 0), number(gust.most_m_s * 3.6, 0))}`], gust, 'gust', { kind: gust.stands === 'beyond' || gust.stands === 'too_much' ? 'wrong' : '' }), gust.gust_m_s >= NOBODY_M_S && opens(supportWords.gustNobody, NOBODY, 'nobody', { kind: 'warn' }))
    } catch (failure) {
      if (mine === asked) put($said, h('p', { class: 'wrong' }, failureText(failure).replace('/job/gust: ', '')))
    }
  }
  const drawEntry = () => put($entry, unit() === 'beaufort'
    ? [h('label', { for: id }, supportWords.gustWords), h('span', { class: 'pick' }, h('select', { id, name: GUST, onchange: (/** @type {any} */ event) => { typed(event.target.value); flush(); answer() } },
      h('option', { value: '' }, supportWords.gustChoose), supportWords.beaufort.map((words, force) => h('option', { value: String(force), selected: gustNow() === String(force) }, `${force}: ${words}`)))), h('p', { class: 'hint' }, supportWords.beaufortHint)]
    : h('div', { class: 'line' }, h('label', { for: id }, supportWords.gustLabel), h('span', { class: 'entry' }, h('input', { id, name: GUST, type: 'text', inputmode: 'decimal', autocomplete: 'off', value: gustNow(), oninput: (/** @type {any} */ event) => { typed(event.target.value); answer() }, onblur: () => flush() }), h('span', { class: 'unit' }, unit()))))
  const units = h('fieldset', { class: 'field' }, h('legend', {}, supportWords.gustUnit), h('div', { class: 'answers', 'data-count': 4 }, supportWords.gustUnits.map(([value, label]) => h('label', {}, h('input', { type: 'radio', name: UNIT, value, checked: unit() === value, onchange: () => { write(UNIT, value); write(GUST, null); flush(); drawEntry(); put($said) } }), label))))
  drawEntry()
  const before = site.fields[GUST] && !gustNow() && site.fields[DAY]
  const old = before && supportWords.gustOld(`${unit() === 'beaufort' ? 'Beaufort ' : ''}${site.fields[GUST]}${unit() === 'beaufort' ? '' : ` ${unit()}`}`, day(before))
  return { $el: fold(supportWords.gustTitle, [h('p', { class: 'hint' }, supportWords.gustHint), units, h('div', { class: 'field' }, $entry), old && h('p', { class: 'hint' }, old), $said], Boolean(gustNow())), update: answer }
}
