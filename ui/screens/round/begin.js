// @ts-check
import { app } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { choice, pick, quantity } from '../../parts/field.js'
import { meField } from '../../parts/me.js'
import { roomWarning } from '../../parts/room.js'
import { site } from '../../parts/site.js'
import { roundWords } from '../../words.js'
import { ringEngineer } from '../emergency/people.js'
import { openFindings } from './findings-list.js'

/** What was due when this was last asked, and of which job: shown until the answer comes. @type {{id: string, due: any}|null} */
let last = null

/**
 * Where a round begins: what stands open, the props on their drawing, and what is asked once for all of it.
 * @param {HTMLElement} $plan
 */
export function beginView($plan) {
  const id = /** @type {string} */ (site.id)
  const $due = h('div', { class: 'duenow' }, last?.id === id && dueView(last.due))
  app.due(id).then((due) => {
    last = { id, due }
    put($due, dueView(due))
  }, () => {})
  return h('div', {}, $due, roomWarning(), site.state?.stop && openFindings(), $plan,
    choice('/round/why', roundWords.whys, { label: roundWords.why }),
    meField(roundWords.who, roundWords.whoHint),
    quantity('/round/over_m', { label: roundWords.over, unit: 'm', hint: roundWords.overHint }),
    h('details', { class: 'fold' }, h('summary', { 'data-open': roundWords.open1, 'data-close': roundWords.shut }, roundWords.more2), h('div', {},
      pick('/round/stage', roundWords.stages, { label: roundWords.stage, hint: roundWords.stageHint }),
      quantity('/round/thread_mm', { label: roundWords.thread, unit: 'mm', hint: roundWords.threadHint }),
      choice('/job/round/scroll', roundWords.scrolls, { label: roundWords.scroll, value: site.fields['/job/round/scroll'] ?? 'yes' }))),
    !site.state?.stop && [openFindings(), ringEngineer()])
}

/** What is due now. @param {any} due */
function dueView(due) {
  // While something stops the work no round is late: first comes the engineer.
  if (site.state?.stop) return [h('p', { class: 'wrong' }, due.words), h('p', { class: 'wrong' }, roundWords.keepOut), ringEngineer()]
  return h('p', { class: due.overdue ? 'wrong' : 'soft' }, due.overdue ? roundWords.overdue(due.words) : roundWords.dueNow(due.words))
}
