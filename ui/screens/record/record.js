// @ts-check
import { app, failureText } from '../../bridge.js'
import { drawing, h, put } from '../../parts/dom.js'
import { clock, day, size } from '../../parts/numbers.js'
import { photos, photoView } from '../../parts/photo.js'
import { site } from '../../parts/site.js'
import { recordWords } from '../../words.js'

/** All that was kept, newest first; the seal, the pack, and a note to add. @param {HTMLElement} $main */
export function recordScreen($main) {
  const id = /** @type {string} */ (site.id)
  const $said = h('div', { role: 'status', class: 'outcome' })
  const $list = h('div', { class: 'timeline' })
  const $gaps = h('div', {})
  const $more = h('button', { class: 'ask', type: 'button', hidden: true, onclick: () => load(false) }, recordWords.earlier)
  const $note = h('textarea', { id: 'note', rows: 3 })
  let before = /** @type {number|null} */ (null)
  let lastDay = ''
  const fail = (/** @type {unknown} */ failure) => put($said, h('p', { class: 'wrong' }, failureText(failure)))

  const load = async (/** @type {boolean} */ fresh) => {
    try {
      const page = await app.record(id, fresh ? null : before)
      if (fresh) {
        lastDay = ''
        put($list)
        put($gaps, page.gaps?.length > 0 && h('p', { class: 'wrong' }, recordWords.gaps(page.gaps.map((/** @type {any} */ gap) => gap.day).join(', '))))
      }
      for (const entry of page.entries) {
        const today = day(entry.at)
        if (today !== lastDay) $list.append(h('h3', {}, today))
        lastDay = today
        $list.append(entryView(entry))
      }
      before = page.entries.at(-1)?.position ?? before
      $more.hidden = !page.more
    } catch (failure) { fail(failure) }
  }
  const note = async () => {
    if ($note.value.trim() === '') {
      put($said, h('p', { class: 'wrong' }, recordWords.noteEmpty))
      $note.focus()
      return
    }
    try {
      await app.addNote(id, $note.value)
      $note.value = ''
      put($said, h('p', { class: 'said' }, recordWords.noteKept))
      await load(true)
    } catch (failure) { fail(failure) }
  }
  const seal = async () => {
    try {
      const given = await app.giveSeal(id)
      put($said, h('p', {}, recordWords.sealLine), h('p', { class: 'code' }, given.code), drawing(given.qr, 'qr'))
      await load(true)
    } catch (failure) { fail(failure) }
    scrollTo(0, 0)
  }
  const pack = async () => {
    put($said, h('p', {}, recordWords.making))
    try {
      const made = await app.makePack(id)
      put($said, h('p', {}, h('strong', {}, recordWords.made), ' ', recordWords.madeLine(made, size(made.bytes))), made.seal && h('p', { class: 'code' }, made.seal),
        made.missing.length > 0 && h('p', { class: 'wrong' }, recordWords.packMissing, ' ', made.missing.join(', ')))
      await load(true)
    } catch (failure) { fail(failure) }
    scrollTo(0, 0)
  }
  $main.append(h('div', { class: 'sides' },
    h('div', {}, $said,
      h('button', { class: 'do', type: 'button', onclick: pack }, recordWords.pack), h('p', { class: 'hint' }, recordWords.packHint),
      h('button', { class: 'ask', type: 'button', onclick: seal }, recordWords.seal), h('p', { class: 'hint' }, recordWords.sealHint),
      h('h2', {}, recordWords.add), h('div', { class: 'field' }, h('label', { for: 'note' }, recordWords.note), $note),
      h('button', { class: 'ask', type: 'button', onclick: note }, recordWords.keepNote), photos('other', 'group', recordWords.photoOf)),
    h('div', {}, h('h2', {}, recordWords.all), $gaps, $list, $more)))
  load(true)
}

/** @param {any} entry */
function entryView(entry) {
  return h('article', { class: 'event' },
    h('h4', {}, h('span', { class: 'at' }, clock(entry.at)), ' ', entry.title),
    entry.words && h('p', {}, entry.words),
    entry.photos?.length > 0 && h('div', { class: 'photos' }, entry.photos.map(photoView)),
    h('p', { class: 'hash' }, `${recordWords.entry(entry.seq)} · ${String(entry.hash).slice(0, 16)}`))
}
