// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { recordWords, words } from '../../words.js'
import { makePack } from './pack.js'

/** Whether the record is whole, in plain words. @param {string} id */
export function checkPart(id) {
  const $said = h('div', { role: 'status', class: 'outcome' })
  const check = async () => {
    put($said, h('p', {}, recordWords.checking), h('progress', { class: 'used', 'aria-label': recordWords.checking }))
    try {
      const { whole, words: lines } = await app.checkJob(id)
      put($said, h('h3', { class: whole ? '' : 'wrong' }, whole ? recordWords.whole : recordWords.notWhole), h('ul', {}, lines.map((line) => h('li', {}, line))))
    } catch (failure) { put($said, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  return h('section', {}, h('button', { class: 'ask', type: 'button', onclick: check }, recordWords.check), h('p', { class: 'hint' }, recordWords.checkHint), $said)
}

/** Putting a job away, only after a pack that was made for it is found to hold all of it. @param {string} id */
export function awayPart(id) {
  const $said = h('div', { role: 'status', class: 'outcome' })
  const away = async () => {
    $do.disabled = true
    try {
      const made = await makePack(id, {}, $said)
      await app.putAway(id, made.path)
      put($said, h('p', { class: 'said' }, recordWords.awayDone(made.path)), h('a', { class: 'do', href: '#' }, words.toJobs))
    } catch (failure) {
      put($said, h('p', { class: 'wrong' }, failureText(failure)))
      $do.disabled = false
    }
  }
  const $do = h('button', { class: 'ask', type: 'button', onclick: away }, recordWords.awayDo)
  return h('details', { class: 'fold' }, h('summary', { 'data-open': words.open, 'data-close': words.shut }, recordWords.away), h('div', {}, h('p', {}, recordWords.awayWhy), $do, $said))
}
