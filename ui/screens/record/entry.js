// @ts-check
import { h } from '../../parts/dom.js'
import { clock, time } from '../../parts/numbers.js'
import { photoView } from '../../parts/photo.js'
import { tongue } from '../../said.js'
import { recordWords } from '../../words.js'
import { changes, correctSheet } from './correct.js'

/** @typedef {import('../../parts/types.js').Entry} Entry */

/**
 * One entry: when, who, what; what it corrects or how it was corrected, with both; a clock that was moved before it.
 * @param {Entry} entry @param {string} id @param {() => void} again
 */
export function entryView(entry, id, again) {
  const { was, now } = entry
  // A title is the app's own word, and may be a single one.
  const title = tongue(entry.title)
  // The last correction is the one to be corrected again.
  const open = entry.may.length > 0 && !entry.now
  const name = `${recordWords.correct}: ${title}, ${clock(entry.at)}`
  return h('article', { class: 'event' },
    entry.clock && h('p', { class: 'moved' }, entry.clock),
    h('h4', {}, h('span', { class: 'at' }, clock(entry.at)), ' ', title, entry.phone && h('span', { class: 'soft' }, ` · ${recordWords.phone(entry.phone)}`)),
    was && [h('p', { class: 'soft' }, recordWords.corrects(time(was.at))), h('p', {}, h('del', {}, was.words)), h('p', { class: 'soft' }, recordWords.saysNow)],
    entry.words && h('p', { class: entry.kind.startsWith('round') ? 'sentence1' : undefined }, now ? h('del', {}, entry.words) : entry.words),
    was && h('ul', {}, changes(was.body, entry.body).map((line) => h('li', {}, line))),
    now && [h('p', { class: 'soft' }, recordWords.corrected(time(now.at))), h('p', {}, now.words), h('ul', {}, changes(entry.body, now.body).map((line) => h('li', {}, line)))],
    entry.photos.length > 0 && h('div', { class: 'photos' }, entry.photos.map(photoView)),
    h('div', { class: 'last' }, h('span', { class: 'hash' }, `${entry.by ? `${entry.by} · ` : ''}${recordWords.entry(entry.seq)} · ${entry.hash.slice(0, 16)}`),
      open && h('button', { class: 'small', type: 'button', 'aria-label': name, onclick: () => correctSheet(entry, id, again) }, recordWords.correct)))
}
