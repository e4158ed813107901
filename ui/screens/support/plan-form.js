// @ts-check
import { choices, inWords } from '../../fields.js'
import { h, put } from '../../parts/dom.js'
import { choice, pick, quantity, text } from '../../parts/field.js'
import { below, clearBelow, flush, site, write } from '../../parts/site.js'
import { fold, ofCheck, openAgain, openKeys, opens, partHead, sentences, whyView, worstOfEach } from '../../parts/why.js'
import { supportWords, words } from '../../words.js'
import { placesFrom, placesText, planDrawing } from './plan-drawing.js'

/** The builder's plan: entered on the drawing or in numbers, and judged right under it. */

const PLAN = '/builders_plan/'
const PLACES = `${PLAN}needles_x_m`

/** What the builder proposes, as he says it. @param {() => void} again */
export function planForm(again) {
  const kind = site.fields[`${PLAN}kind`]
  const drop = () => { clearBelow(PLAN); flush(); again() }
  const places = kind ? placesView(kind) : null
  const $verdict = h('div', { role: 'status', class: 'verdict' })
  const $el = fold(supportWords.planTitle, [
    h('p', { class: 'hint' }, supportWords.planHint),
    choice(`${PLAN}kind`, choices.planKind, { changed: (value) => { clearBelow(PLAN); write(`${PLAN}kind`, value); again() } }),
    places?.$el, $verdict, kind && [quantity(`${PLAN}count`), fieldsOf(kind), h('button', { class: 'small', type: 'button', onclick: drop }, supportWords.planDrop)],
  ], kind !== undefined)
  return {
    $el,
    /** @param {import('../../parts/types.js').Proposal} proposal */
    update(proposal) {
      places?.draw()
      const open = openKeys($verdict)
      put($verdict, verdictView(proposal))
      openAgain($verdict, open)
    },
  }
}

/** Where they stand: set on the drawing, typed, or laid out evenly from their number. @param {string} kind */
function placesView(kind) {
  const $places = text(PLACES)
  const $input = /** @type {HTMLInputElement} */ ($places.querySelector('input'))
  const width = Number((site.fields['/opening/width_m'] ?? '').replace(',', '.').replace(/\s*m$/, ''))
  const set = (/** @type {number[]} */ list) => {
    $input.value = placesText(list)
    write(PLACES, $input.value)
    flush()
  }
  const drawn = planDrawing(kind, () => placesFrom($input.value), set)
  $input.addEventListener('input', () => drawn.draw())
  const lay = (/** @type {number} */ count) => { set(Array.from({ length: count }, (_, i) => (width * (i + 0.5)) / count)); drawn.draw() }
  const known = width > 0 && width < 20
  return { draw: drawn.draw, $el: h('div', {}, drawn.$el, known && h('div', { role: 'group', 'aria-label': supportWords.evenly },
    h('p', { class: 'hint' }, supportWords.evenly),
    h('div', { class: 'answers', 'data-count': 6 }, [1, 2, 3, 4, 5, 6].map((count) => h('button', { type: 'button', class: 'count', onclick: () => lay(count), 'aria-label': supportWords.layOut(count, kind) }, String(count))))), $places) }
}

/** @param {string} kind */
function fieldsOf(kind) {
  const own = { needles: needleFields, brackets: bracketFields, props: () => propPick() }[kind] ?? (() => null)
  return [own(), text(`${PLAN}feet`)]
}

function needleFields() {
  return [text(`${PLAN}section`), quantity(`${PLAN}inside_y_mm`), quantity(`${PLAN}outside_y_mm`), propPick(), runnerView()]
}

/** A beam along the wall under the needles, on fewer props. */
function runnerView() {
  const at = `${PLAN}runner/`
  return fold(supportWords.runnerTitle, [text(`${at}section`), quantity(`${at}spacing_m`), text(`${at}props_x_m`)], below(at).length > 0)
}

/** Trade sizes only: whatever else is at hand is said on the Wall screen. */
function propPick() {
  const size = site.fields[`${PLAN}prop/size`] ?? ''
  return pick(`${PLAN}prop/size`, choices.sizes, {
    value: size,
    changed: (value) => {
      clearBelow(`${PLAN}prop/`)
      if (value === '') return
      write(`${PLAN}prop/name`, `size ${value}`)
      write(`${PLAN}prop/data`, 'tn79')
      write(`${PLAN}prop/size`, value)
    },
  })
}

function bracketFields() {
  return [quantity(`${PLAN}rated_kn`), quantity(`${PLAN}arm_mm`), text(`${PLAN}plate_mm`), propPick()]
}

/** The plan judged in words, and every figure behind them. @param {import('../../parts/types.js').Proposal} proposal */
function verdictView({ builders_plan: plan }) {
  if (!plan) return null
  const worst = worstOfEach(plan.checks ?? [])
  const filled = (plan.filled ?? []).map(inWords)
  const first = ofCheck(worst[0])
  return h('div', { class: `trial trial--${plan.standing}` }, h('h3', {}, supportWords.plan), h('p', { class: 'figure' }, h('b', {}, words.standing[plan.standing])), opens(sentences([plan.words].flat().map(inWords)), first, 'plan words'),
    filled.length > 0 && opens(sentences([supportWords.planFilled, ...filled]), first, 'plan filled'),
    worst.length > 0 && fold(supportWords.planFigures((plan.checks ?? []).length), () => [partHead(), worst.map((check) => whyView(check, `plan ${check.name}`))], false, 'plan figures'))
}
