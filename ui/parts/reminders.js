// @ts-check
import { app, failureText } from '../bridge.js'
import { deviceWords } from '../words.js'
import { h, put } from './dom.js'

/** The choice to be reminded, on phones only. */
export function remindersView() {
  const $view = h('div', {})
  const draw = (/** @type {boolean} */ on) => {
    const $said = h('p', { role: 'status' })
    const $box = h('input', { type: 'checkbox', checked: on, onchange: () => want() })
    const want = async () => {
      try {
        const asked = $box.checked
        $box.checked = await app.wantReminders(asked)
        put($said, asked && !$box.checked && deviceWords.remindersNo)
      } catch (failure) {
        $box.checked = on
        put($said, failureText(failure))
      }
    }
    put($view, h('div', { class: 'marks one' }, h('label', {}, $box, deviceWords.reminders)), h('p', { class: 'hint' }, deviceWords.remindersHint), $said)
  }
  app.device().then(({ phone, reminders }) => { if (phone) draw(reminders) }, () => {})
  return $view
}
