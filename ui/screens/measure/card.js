// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { shareFile } from '../../parts/share.js'
import { measureWords as words } from '../../words.js'

/** The card with scales in true size, saved beside the other papers. */
export function cardView() {
  const $said = h('div', { role: 'status' })
  const save = async () => {
    try {
      const { path } = await app.saveCard()
      put($said, h('p', { class: 'said' }, words.cardSaved(path)), shareFile(path))
    } catch (failure) { put($said, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  return h('div', {}, h('p', { class: 'hint' }, words.cardHint), h('button', { type: 'button', class: 'ask', onclick: save }, words.card), $said)
}
