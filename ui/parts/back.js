// @ts-check
import { app } from '../bridge.js'
import { backWords } from '../words.js'
import { h } from './dom.js'
import { flush } from './site.js'

/** What the back button of a phone does: closes what lies over the page, then leaves the screen, then asks. */
export function back() {
  const $open = [...document.querySelectorAll('dialog[open]')].at(-1)
  if ($open instanceof HTMLDialogElement) { $open.close(); return }
  if (location.hash.length > 1) { history.back(); return }
  const $ask = h('dialog', { class: 'question', 'aria-label': backWords.leave },
    h('p', {}, backWords.leave), h('p', { class: 'hint' }, backWords.kept),
    h('button', { class: 'do', type: 'button', autofocus: true, onclick: () => $ask.close() }, backWords.stay),
    h('button', { class: 'ask', type: 'button', onclick: async () => { await flush(); await app.leave() } }, backWords.go))
  $ask.addEventListener('close', () => $ask.remove())
  document.body.append($ask)
  $ask.showModal()
}

/** Listens for the button where there is one; elsewhere the system's own back goes through the addresses. */
export function hearBack() {
  app.onBack(back).catch(() => {})
}
