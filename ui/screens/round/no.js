// @ts-check
import { app } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { text } from '../../parts/field.js'
import { photos } from '../../parts/photo.js'
import { site, write } from '../../parts/site.js'
import { roundWords } from '../../words.js'
import { noPhotoPath, nosOf, nosOfJob, typed } from './reading.js'

/** What a "no" means, what to do now, and the photo that it asks for. */

/** @type {Promise<any[]>|null} */
let asked = null
/** @type {Record<string, {title: string, means: string, do: string[], stops: boolean, ring: boolean, by_hand: boolean}>} */
export const meanings = {}

/** Reads once what each kind of finding means; without an answer the screens go on without it. */
export async function readMeanings() {
  asked ??= app.meanings()
  try { for (const one of await asked) meanings[one.code] = one } catch { asked = null }
}

/** Whether an answer alone stops the work, before anything is worked out. @param {string} prop a prop's name, or nothing for the whole job */
export const stopsAt = (prop) => (prop ? nosOf(prop) : nosOfJob()).filter((code) => meanings[code]?.stops)

/** How many photos there are about something. @param {string} about */
const photosOf = (about) => site.photos.filter((photo) => photo.about === about).length
const aboutOf = (/** @type {string} */ prop) => prop || roundWords.wholeAbout
const countPath = (/** @type {string} */ prop) => (prop ? `${prop}/photos_before` : 'photos_before')

/** Remembers how many photos there were when something was first answered with "no". @param {string} prop */
export function noteNo(prop) {
  const nos = prop ? nosOf(prop) : nosOfJob()
  if (nos.length > 0 && typed(countPath(prop)) === undefined) write(`/round/${countPath(prop)}`, String(photosOf(aboutOf(prop))))
}

/** Whether a "no" still waits for its photo or for the reason why there is none. @param {string} prop */
export function waitsForPhoto(prop) {
  const nos = prop ? nosOf(prop) : nosOfJob()
  if (nos.length === 0 || (typed(noPhotoPath(prop)) ?? '').trim()) return false
  return photosOf(aboutOf(prop)) <= Number(typed(countPath(prop)) ?? 0)
}

/** @param {string} prop @param {() => void} changed when a photo came in or a reason was said */
export function noView(prop, changed) {
  const $box = h('div', { class: 'thenno', role: 'status' })
  let shown = ''
  const update = () => {
    const nos = prop ? nosOf(prop) : nosOfJob()
    if (nos.join() === shown) return
    shown = nos.join()
    put($box, nos.map((code) => meanings[code]).filter(Boolean).map((meaning) => h('div', { class: 'means' },
      h('strong', {}, meaning.title), h('p', {}, meaning.means), h('p', { class: 'donow' }, roundWords.doNow), h('ol', {}, meaning.do.map((line) => h('li', {}, line))))))
    if (nos.length === 0) return
    const $photos = photos(aboutOf(prop), 'detail', prop ? roundWords.photoOf : roundWords.photoOfIt)
    new MutationObserver(changed).observe($photos, { childList: true, subtree: true })
    const reason = noPhotoPath(prop)
    const $reason = text(`/round/${reason}`, { label: roundWords.noPhoto, hint: roundWords.noPhotoHint })
    $box.append(h('p', { class: 'asksphoto' }, roundWords.asksPhoto), $photos, $reason)
  }
  return { $box, update }
}
