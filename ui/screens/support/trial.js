// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { flush, jobFields, site, write, clearBelow } from '../../parts/site.js'
import { number, percent } from '../../parts/numbers.js'
import { fold, ofCheck, opens, partHead, sentences, whyView, worstOfEach } from '../../parts/why.js'
import { supportWords, words } from '../../words.js'
import { sketch } from './drawings.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').Trial} Trial */

const PLAN = '/builders_plan/'
const STEP_MM = 25
/** Least and largest distance of the needles that can be tried, and of the props from the wall's faces, mm. */
const SPACING = Object.freeze({ min: 300, max: 1800 })
const AWAY = Object.freeze({ min: 200, max: 1000 })

/** The outermost needles stand no nearer to the jambs than this, m. */
const END_M = 0.15

/** @typedef {{spacing: number, away: number}} Set */

/** Needles about the middle of the opening, as many as the spacing asks for. @param {number} width_m @param {number} spacing_mm */
export function placesOf(width_m, spacing_mm) {
  const apart = spacing_mm / 1000
  const count = Math.max(1, Math.floor((width_m - 2 * END_M) / apart + 1e-9) + 1)
  return Array.from({ length: count }, (_, i) => Math.round((width_m / 2 + (i - (count - 1) / 2) * apart) * 1000) / 1000)
}

/**
 * Sliders for the distance of the needles and the length between their props. They answer while they move: one question at
 * a time is out, and the last place of the sliders is always the last that is asked.
 * @param {() => void} again draws the screen anew
 */
export function trialForm(again) {
  /** @type {Option|null} */
  let from = null
  /** @type {Set|null} */
  let wanted = null
  let asking = false
  const $answer = h('div', { role: 'status', class: 'trialanswer' })
  const slider = (/** @type {string} */ label, /** @type {{min: number, max: number}} */ range, /** @type {(v: number) => string} */ say) => {
    const $out = h('output', {})
    const id = `try-${label.replace(/\W+/g, '-').toLowerCase()}`
    const $input = h('input', { id, type: 'range', step: STEP_MM, ...range, oninput: () => moved() })
    const tell = () => { $out.textContent = say(Number($input.value)); $input.setAttribute('aria-valuetext', $out.textContent) }
    return { $input, tell, $el: h('div', { class: 'slider' }, h('label', { for: id }, label), $out, $input) }
  }
  const spacing = slider(supportWords.trySpacing, SPACING, (mm) => `${mm} mm, ${supportWords.tryCount(placesOf(width(), mm).length)}`)
  const span = slider(supportWords.trySpan, AWAY, (mm) => `${number((2 * mm + thick()) / 1000, 2)} m, ${supportWords.tryAway(mm)}`)
  const width = () => Number(site.figures?.job?.opening?.width_m ?? 0)
  const thick = () => {
    const { leaves = [], cavity_mm: cavity = 0 } = site.figures?.job?.wall ?? {}
    return leaves.reduce((/** @type {number} */ sum, /** @type {any} */ leaf) => sum + Number(leaf.thickness_mm ?? 0), 0) + (leaves.length > 1 ? Number(cavity) : 0)
  }
  const plan = (/** @type {Set} */ set) => ({
    kind: 'needles', needles_x_m: placesOf(width(), set.spacing), section: from?.needles[0]?.section, inside_y_mm: thick() + set.away, outside_y_mm: -set.away,
  })
  const moved = () => {
    spacing.tell()
    span.tell()
    wanted = { spacing: Number(spacing.$input.value), away: Number(span.$input.value) }
    if (!asking) requestAnimationFrame(ask)
    asking = true
  }
  const ask = async () => {
    while (wanted) {
      const now = wanted
      wanted = null
      try {
        const trial = await app.tryPlan(jobFields(), plan(now))
        // A newer place of the sliders makes this answer old.
        if (!wanted) put($answer, answerView(trial, () => keep(now)))
      } catch (failure) {
        put($answer, h('p', { class: 'wrong' }, failureText(failure)))
      }
    }
    asking = false
  }
  const keep = async (/** @type {Set} */ set) => {
    const made = plan(set)
    clearBelow(PLAN)
    write(`${PLAN}kind`, 'needles')
    write(`${PLAN}needles_x_m`, made.needles_x_m.join('; '))
    if (made.section) write(`${PLAN}section`, made.section)
    write(`${PLAN}inside_y_mm`, String(made.inside_y_mm))
    write(`${PLAN}outside_y_mm`, String(made.outside_y_mm))
    await flush()
    again()
  }
  const $in = h('div', {}, h('p', { class: 'hint' }, supportWords.tryHint), spacing.$el, span.$el, $answer)
  const $el = fold(supportWords.tryTitle, $in)
  return {
    $el,
    /** Puts the sliders where the shown arrangement stands, unless somebody is trying. @param {Option|null} option */
    update(option) {
      $el.hidden = !option || option.needles.length === 0
      if (!option || option.needles.length === 0 || (from && $answer.hasChildNodes())) { if (option?.needles.length) from = option; return }
      from = option
      const near = (/** @type {number} */ mm, /** @type {{min: number, max: number}} */ { min, max }) => String(Math.min(max, Math.max(min, Math.round(mm / STEP_MM) * STEP_MM)))
      spacing.$input.value = near(option.spacing_m > 0 ? option.spacing_m * 1000 : width() * 1000, SPACING)
      span.$input.value = near(-(option.needles[0]?.outside_y_mm ?? -350), AWAY)
      spacing.tell()
      span.tell()
    },
  }
}

/** @param {Trial} trial @param {() => void} keep */
function answerView(trial, keep) {
  const { verdict, option, sketches } = trial
  if (!verdict) return h('div', {}, trial.problems.map((problem) => h('p', { class: 'wrong' }, `${problem.wrong}. ${words.right(problem.right)}`)))
  const checks = verdict.checks ?? []
  const worst = worstOfEach(checks)
  const top = ofCheck(worst[0])
  const standing = words.standing[verdict.standing]
  const first = sentences([verdict.words].flat())
  return h('div', { class: `trial trial--${verdict.standing}` },
    h('p', { class: 'triallabel' }, supportWords.tryLabel),
    h('p', { class: 'figure' }, h('b', {}, standing), option && h('span', {}, supportWords.used(percent(option.worst_utilisation)))),
    opens(first, top, 'trial words'),
    sketch(supportWords.tryFront, sketches.front, `${supportWords.tryLabel} ${standing}`), sketch(supportWords.tryAbove, sketches.plan, `${supportWords.tryLabel} ${standing}`),
    worst.length > 0 && fold(supportWords.tryFigures, () => [partHead(), worst.map((check) => whyView(check, `trial ${check.name}`))]),
    h('button', { class: 'ask', type: 'button', onclick: keep }, supportWords.tryKeep))
}
