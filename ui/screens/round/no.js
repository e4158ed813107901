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

/** The newest photo of all, or that there is none. */
const newest = () => site.photos[0]?.sha ?? 'none'
const aboutOf = (/** @type {string} */ prop) => prop || roundWords.wholeAbout
const beforePath = (/** @type {string} */ prop) => (prop ? `${prop}/photo_before` : 'photo_before')

/** Remembers the newest photo that was there when something was first answered with "no". @param {string} prop */
export function noteNo(prop) {
  const nos = prop ? nosOf(prop) : nosOfJob()
  if (nos.length > 0 && typed(beforePath(prop)) === undefined) write(`/round/${beforePath(prop)}`, newest())
}

/** Whether a "no" still waits for its photo or for the reason why there is none. @param {string} prop */
export function waitsForPhoto(prop) {
  const nos = prop ? nosOf(prop) : nosOfJob()
  if (nos.length === 0 || (typed(noPhotoPath(prop)) ?? '').trim()) return false
  // A photo counts that stands before the one that was the newest then: older ones that are read later never do.
  const before = typed(beforePath(prop)) ?? newest()
  const then = before === 'none' ? site.photos.length : site.photos.findIndex((photo) => photo.sha === before)
  return !site.photos.slice(0, Math.max(then, 0)).some((photo) => photo.about === aboutOf(prop))
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
