// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { packIn } from '../../parts/pack-in.js'
import { jobsWords } from '../../words.js'

/**
 * A job that does not hold together: what is damaged, what is whole, what to do.
 * @param {any} job
 */
export function damagedView(job) {
  const $found = h('div', { role: 'status' })
  const look = async () => {
    put($found, h('p', {}, jobsWords.looking))
    try { put($found, h('ul', {}, (await app.checkJob(job.id)).words.map((line) => h('li', {}, line)))) } catch (failure) { put($found, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  const aside = async () => {
    try {
      const path = await app.setAside(job.id)
      // The list stays as it is, so that the answer below does too.
      $own.replaceChildren(h('p', { class: 'said' }, jobsWords.asideDone(path)), packIn(async () => {}))
    } catch (failure) { put($found, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  const $own = h('div', {}, h('p', { class: 'wrong' }, job.damaged ?? job.faults), h('p', {}, jobsWords.damagedLine), $found,
    // A job that does not even open has nothing to be read entry by entry.
    !job.damaged && h('button', { class: 'ask', type: 'button', onclick: look }, jobsWords.look),
    h('button', { class: 'ask', type: 'button', onclick: aside }, jobsWords.aside))
  return h('section', { class: 'broken' }, h('h2', { class: 'wrong' }, jobsWords.damaged(job.name)), $own)
}
