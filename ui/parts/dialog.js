// @ts-check
import { words } from '../words.js'
import { h } from './dom.js'

/**
 * A sheet over the whole window, closed by its button, by Escape, or by `close`.
 * @param {string} title @param {(close: () => void) => any} fill what stands in it
 */
export function sheet(title, fill) {
  const close = () => $dialog.close()
  const $dialog = h('dialog', { class: 'large sheet', 'aria-label': title })
  $dialog.append(h('div', { class: 'scroll', tabindex: '0' }, h('h2', {}, title), fill(close)), h('button', { class: 'ask', type: 'button', onclick: close }, words.close))
  // The focus goes back to where it came from by itself.
  $dialog.addEventListener('close', () => $dialog.remove())
  document.body.append($dialog)
  $dialog.showModal()
}
