// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { clearBelow, flush, jobFields, site, write } from '../../parts/site.js'
import { number } from '../../parts/numbers.js'
import { derivation, fold, opens, partRow } from '../../parts/why.js'
import { supportWords, words } from '../../words.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').Swap} Swap */

/** What the yard may bring instead. */
const SIZES = ['0', '1', '2', '3', '4', 'B30', 'B35', 'B40', 'D30', 'D35', 'E30']
const PLAN = '/builders_plan/'

/** @param {string} size */
const asProp = (size) => (/^\d$/.test(size) ? { name: `size ${size}`, data: 'tn79', size: Number(size) } : { name: size, data: 'en1065', class: size })

/** Props that came in another size: all of them, or the one that was swapped. @param {() => void} again */
export function deliveredForm(again) {
  let size = ''
  let which = ''
  const $which = h('div', {})
  const $said = h('div', { role: 'status' })
  let names = ''
  let asked = 0
  const answer = async () => {
    if (size === '' || !site.figures?.proposal) { put($said); return }
    const mine = (asked += 1)
    try {
      const all = await app.swapProps(jobFields(), site.option, asProp(size))
      if (mine !== asked) return
      const shown = all.filter((one) => which === '' || one.prop === which)
      const bad = shown.filter((one) => one.utilisation === null || one.utilisation > 1)
      put($said, h('p', {}, h('strong', { class: bad.length ? 'wrong' : '' }, bad.length ? supportWords.swapBad(bad.map((one) => one.prop).join(', ')) : supportWords.swapGood(shown.length))), shown.map(swapView), which === '' && /^\d$/.test(size) && h('button', { class: 'ask', type: 'button', onclick: enter }, supportWords.swapPlan))
    } catch (failure) {
      if (mine === asked) put($said, h('p', { class: 'wrong' }, failureText(failure)))
    }
  }
  const enter = async () => {
    const option = site.figures?.proposal?.options[site.option] ?? site.figures?.proposal?.nearest
    const first = option?.needles[0]
    if (!option || !first) return
    clearBelow(PLAN)
    write(`${PLAN}kind`, 'needles')
    write(`${PLAN}needles_x_m`, option.needles.map((needle) => String(Math.round(needle.x_m * 1000) / 1000)).join('; '))
    write(`${PLAN}section`, first.section)
    write(`${PLAN}inside_y_mm`, String(first.inside_y_mm))
    write(`${PLAN}outside_y_mm`, String(first.outside_y_mm))
    write(`${PLAN}prop/name`, `size ${size}`)
    write(`${PLAN}prop/data`, 'tn79')
    write(`${PLAN}prop/size`, size)
    await flush()
    again()
  }
  const select = (/** @type {string} */ id, /** @type {string} */ label, /** @type {(readonly string[])[]} */ list, /** @type {string} */ chosen, /** @type {(value: string) => void} */ changed) => h('div', { class: 'field' }, h('label', { for: id }, label), h('span', { class: 'pick' }, h('select', { id, onchange: (/** @type {any} */ event) => changed(event.target.value) }, list.map(([value, text]) => h('option', { value, selected: value === chosen }, text)))))
  const $size = select('came-size', supportWords.swapSize, [['', words.choose], ...SIZES.map((one) => [one, /^\d$/.test(one) ? supportWords.size(one) : supportWords.classOf(one)])], '', (value) => { size = value; answer() })
  const $el = fold(supportWords.swapTitle, [h('p', { class: 'hint' }, supportWords.swapHint), $size, $which, $said])
  return {
    $el,
    /** @param {Option|null} option */
    update(option) {
      const props = option?.kind === 'needles' ? option.props : []
      $el.hidden = props.length === 0
      const now = props.map((prop) => prop.name).join()
      if (now !== names) {
        names = now
        if (!props.some((prop) => prop.name === which)) which = ''
        put($which, select('came-which', supportWords.swapWhich, [['', supportWords.swapAll], ...props.map((prop) => [prop.name, prop.name])], which, (value) => { which = value; answer() }))
      }
      answer()
    },
  }
}

/** @param {Swap} one */
function swapView(one) {
  const name = supportWords.swapLine(one.prop, number(one.length_m, 2))
  if (one.working_load_kn === null || one.utilisation === null || !one.source) {
    return opens(h('span', { class: 'wrong' }, supportWords.swapNoFit(name, number(one.usable_m[0], 2), number(one.usable_m[1], 2))), { steps: one.steps, source: { document: supportWords.swapRange, locator: supportWords.swapLeft, seen: '' } }, `swap ${one.prop}`)
  }
  return h('details', { class: 'why', 'data-why': '' }, h('summary', { 'data-key': `swap ${one.prop}`, 'data-open': words.why, 'data-close': words.shut }, partRow(name, `${number(one.load_kn)} kN`, `${number(one.working_load_kn)} kN`, one.utilisation)), derivation(one.steps, one.source))
}
