// @ts-check
import { app, failureText } from '../../bridge.js'
import { drawing, h, put } from '../../parts/dom.js'
import { photos } from '../../parts/photo.js'
import { roomWarning } from '../../parts/room.js'
import { site } from '../../parts/site.js'
import { closeWords, recordWords } from '../../words.js'
import { packPart } from './pack.js'
import { sealPart } from './seal.js'
import { timeline } from './timeline.js'
import { awayPart, checkPart } from './whole.js'

/** All that was kept, newest first; the seal, the pack, the check, and a note to add. @param {HTMLElement} $main */
export function recordScreen($main) {
  const id = /** @type {string} */ (site.id)
  const line = timeline(id)
  $main.append(h('div', { class: 'sides' },
    h('div', {}, roomWarning(), packPart(id, line.load), sealPart(id, line.load), checkPart(id), h('section', {}, h('a', { class: 'ask aslink', href: `#${id}/close` }, closeWords.to)), addPart(id, line.load), awayPart(id)),
    h('div', {}, curvesPart(id), h('h2', {}, recordWords.all), line.$view)))
  line.load()
}

/** A note, and a photo of whatever there is. @param {string} id @param {() => void} again */
function addPart(id, again) {
  const $said = h('div', { role: 'status' })
  const $note = h('textarea', { id: 'note', rows: 3 })
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
      again()
    } catch (failure) { put($said, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  return h('section', {}, h('h2', {}, recordWords.add), h('div', { class: 'field' }, h('label', { for: 'note' }, recordWords.note), $note), $said,
    h('button', { class: 'ask', type: 'button', onclick: note }, recordWords.keepNote), photos('other', 'group', recordWords.photoOf))
}

/** Crack and take-up curves, where there are enough readings for one. @param {string} id */
function curvesPart(id) {
  const $part = h('section', {})
  const curves = /** @type {any} */ (app).curves
  // One reading is no curve yet.
  const drawn = (/** @type {any} */ found) => (found?.series ?? []).filter((/** @type {any} */ one) => one.points.length > 1)
  curves?.(id).then((/** @type {any} */ found) => put($part, drawn(found).length > 0 && [h('h2', {}, recordWords.curves), found.words.map((/** @type {string} */ line) => h('p', {}, line)),
    drawn(found).map((/** @type {any} */ one) => h('figure', { class: 'curve' }, drawing(one.svg), h('figcaption', {}, one.words)))]), () => {})
  return $part
}
