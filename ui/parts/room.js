// @ts-check
import { app } from '../bridge.js'
import { h, put } from './dom.js'

/** A warning where the room on this phone runs low; nothing where there is room, or where nobody can tell. */
export function roomWarning() {
  const $warning = h('div', { role: 'status' })
  app.room().then(({ words }) => put($warning, words && h('p', { class: 'warn tight' }, words)), () => {})
  return $warning
}
