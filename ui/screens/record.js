// @ts-check
import { app, failureText } from '../bridge.js'
import { h, sketch, time } from '../parts/dom.js'
import { photos, photoView } from '../parts/photo.js'
import { site } from '../parts/site.js'

/** @param {HTMLElement} $main */
export function recordScreen($main) {
  const id = /** @type {string} */ (site.id)
  const $said = h('div', { role: 'status' })
  const $list = h('div', {})
  const $more = h('button', { class: 'ask', hidden: true, onclick: () => load(false) }, 'Show earlier entries')
  const $note = h('textarea', { id: 'note' })
  let before = /** @type {number|null} */ (null)
  const fail = (/** @type {unknown} */ failure) => $said.replaceChildren(h('p', { class: 'wrong' }, failureText(failure)))
  const load = async (/** @type {boolean} */ fresh) => {
    try {
      const page = await app.record(id, fresh ? null : before)
      const views = page.entries.map((/** @type {any} */ entry) => h('article', { class: 'entry' }, h('strong', {}, entry.title), h('div', { class: 'soft' }, `${time(entry.at)} · entry ${entry.seq}`), entry.words && h('p', {}, entry.words),
        entry.photos?.length > 0 && h('div', { class: 'photos' }, entry.photos.map(photoView)), h('div', { class: 'hash' }, String(entry.hash).slice(0, 16))))
      if (fresh) $list.replaceChildren(...gapsView(page.gaps), ...views)
      else $list.append(...views)
      before = page.entries.at(-1)?.position ?? before
      $more.hidden = !page.more
    } catch (failure) { fail(failure) }
  }
  const note = async () => {
    if ($note.value.trim() === '') { $said.replaceChildren(h('p', { class: 'wrong' }, 'The note is empty: write what you saw.')); return }
    try { await app.addNote(id, $note.value); $note.value = ''; $said.replaceChildren('Kept.'); await load(true) } catch (failure) { fail(failure) }
  }
  const seal = async () => {
    try {
      const given = await app.giveSeal(id)
      $said.replaceChildren(h('p', {}, 'Seal of the record as it stands now. Send it to someone outside the job, so that it lies where nobody here can change it.'), h('p', { class: 'code' }, given.code), sketch(given.qr, 'qr'))
      await load(true)
    } catch (failure) { fail(failure) }
  }
  const pack = async () => {
    $said.replaceChildren('Making the pack …')
    try {
      const made = await app.makePack(id)
      $said.replaceChildren(h('p', {}, h('strong', {}, 'The pack is made. '), `${made.files} files, ${Math.ceil(made.bytes / 1024)} kB, at ${made.path}`), made.seal && h('p', { class: 'code' }, made.seal))
      await load(true)
    } catch (failure) { fail(failure) }
  }
  $main.append($said,
    h('button', { class: 'do', onclick: pack }, 'Make the pack'),
    h('p', { class: 'hint' }, 'One file with the report, all photos as received, the record and its check sums, for insurer, engineer or building control.'),
    h('button', { class: 'ask', onclick: seal }, 'Give a seal'),
    h('h2', {}, 'Add to the record'), h('div', { class: 'field' }, h('label', { for: 'note' }, 'Note'), $note), h('button', { class: 'ask', onclick: note }, 'Keep this note'), photos('other', 'group', 'photo'),
    h('h2', {}, 'All in time order, newest first'), $list, $more)
  load(true)
}

/** @param {any[]} gaps */
function gapsView(gaps) {
  return gaps?.length ? [h('p', { class: 'wrong' }, `Days without a round: ${gaps.map((gap) => gap.day).join(', ')}`)] : []
}
