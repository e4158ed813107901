// @ts-check
import { app, failureText } from '../../bridge.js'
import { drawing, h, put } from '../../parts/dom.js'
import { time } from '../../parts/numbers.js'
import { shareButton } from '../../parts/share.js'
import { site } from '../../parts/site.js'
import { recordWords, words } from '../../words.js'

/** Giving a seal away, and those that were given. @param {string} id @param {() => void} again */
export function sealPart(id, again) {
  const $said = h('div', { role: 'status', class: 'outcome' })
  const $given = h('div', {})
  const list = async () => {
    const given = await app.seals(id)
    put($given, given.length > 0 && h('details', { class: 'fold' }, h('summary', { 'data-open': words.open, 'data-close': words.shut }, `${recordWords.seals}: ${given.length}`), h('div', {}, h('ul', { class: 'seals' },
      given.map((one) => h('li', {}, h('span', { class: 'sealcode' }, one.code), ' ', `${time(one.at)}, ${recordWords.sealRow(one.entries)}`))))))
  }
  const give = async () => {
    try {
      const given = await app.giveSeal(id)
      const send = () => recordWords.sealText(site.name, given.code, time(given.at))
      put($said, h('p', {}, recordWords.sealLine), h('p', { class: 'code' }, given.code), h('p', {}, recordWords.sealKeep), shareButton(recordWords.sendSeal, recordWords.seal, send), drawing(given.qr, 'qr'))
      await list()
      again()
    } catch (failure) { put($said, h('p', { class: 'wrong' }, failureText(failure))) }
    $said.scrollIntoView({ block: 'nearest' })
  }
  list().catch(() => {})
  return h('section', {}, h('button', { class: 'ask', type: 'button', onclick: give }, recordWords.seal), h('p', { class: 'hint' }, recordWords.sealHint), $said, $given)
}
