// @ts-check
import { app, failureText } from '../bridge.js'
import { shareWords } from '../words.js'
import { h, put } from './dom.js'

/**
 * A button that sends plain text: by the phone's own sharing where there is one, else onto the clipboard, and where neither
 * works by showing the text to be copied by hand. The text is made when it is asked for.
 *
 * @param {string} label @param {string} title @param {() => string} make
 */
export function shareButton(label, title, make) {
  const $said = h('div', { role: 'status' })
  const show = (/** @type {string} */ text) => {
    const $text = h('textarea', { class: 'sent', rows: 10, readonly: true, 'aria-label': shareWords.text })
    $text.value = text
    put($said, h('p', {}, shareWords.copyHere), $text)
    $text.select()
  }
  const send = async () => {
    const text = make()
    put($said)
    if (typeof navigator.share === 'function') {
      try {
        await navigator.share({ title, text })
        return
      } catch (failure) {
        // Whoever closes the sheet wants nothing more.
        if (/** @type {any} */ (failure)?.name === 'AbortError') return
      }
    }
    // On a phone by the app: its web view has no sharing of its own.
    try {
      await app.shareText(text)
      return
    } catch { /* a desktop, which has none */ }
    try {
      await navigator.clipboard.writeText(text)
      put($said, h('p', { class: 'said' }, shareWords.copied))
    } catch { show(text) }
  }
  return h('div', { class: 'share' }, h('button', { class: 'ask', type: 'button', onclick: send }, label), $said)
}

/**
 * Sends a finished paper by the phone's sharing, and saves it where its owner chooses if the system has a picker for that;
 * a desktop shows its folder. A paper that is made only when it is asked for is made once.
 * @param {string|(() => Promise<{path: string}>)} paper its path, or what makes it
 */
export function shareFile(paper) {
  const $said = h('p', { role: 'status' })
  let path = typeof paper === 'string' ? paper : ''
  const doing = (/** @type {(path: string) => Promise<any>} */ work) => async () => {
    put($said)
    try {
      if (typeof paper !== 'string') path ||= (await paper()).path
      put($said, await work(path))
    } catch (failure) { put($said, failureText(failure)) }
  }
  const $send = h('button', { class: 'ask', type: 'button', onclick: doing(app.shareFile) }, shareWords.folder)
  const $save = h('button', { class: 'ask', type: 'button', hidden: true, onclick: doing(async (at) => (await app.saveFile(at)) && shareWords.saved) }, shareWords.save)
  app.device().then(({ phone, picker }) => {
    if (phone) $send.textContent = picker ? shareWords.send : shareWords.file
    $save.hidden = !picker
  }, () => {})
  return h('div', { class: 'share' }, $send, $save, $said)
}
