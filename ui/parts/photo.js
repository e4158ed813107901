// @ts-check
import { app, failureText } from '../bridge.js'
import { h, time } from './dom.js'
import { flush, site } from './site.js'

/** Where a photo's time comes from, in words. */
const SOURCES = Object.freeze({ exif: 'time from the photo', phone: 'time of this phone', unknown: 'time not known' })

/** @param {any} photo */
export function photoView(photo) {
  const source = SOURCES[/** @type {keyof typeof SOURCES} */ (photo.source)] ?? ''
  const $picture = photo.view
    ? h('a', { href: photo.view_url, target: '_blank', rel: 'noopener', onclick: (/** @type {Event} */ event) => { event.preventDefault(); enlarge(photo) } }, h('img', { src: photo.thumb_url, alt: `Photo of ${photo.about}`, loading: 'lazy' }))
    : h('p', { class: 'soft' }, 'Kept. No view of this kind of picture here.')
  return h('figure', {}, $picture, h('figcaption', {}, `${photo.about} · ${photo.at ? time(photo.at) : ''} · ${source}`, photo.mark && h('span', {}, ` · ${photo.mark}`), h('br'), h('span', { class: 'hash' }, photo.short)))
}

/** @param {any} photo */
function enlarge(photo) {
  const $dialog = h('dialog', { 'aria-label': `Photo of ${photo.about}` }, h('img', { src: photo.view_url, alt: `Photo of ${photo.about}`, width: '100%' }), h('button', { class: 'ask', onclick: () => $dialog.close() }, 'Close'))
  $dialog.addEventListener('close', () => $dialog.remove())
  document.body.append($dialog)
  $dialog.showModal()
}

/** Photos about one thing, with two ways to add one. @param {string} about @param {string} [kind] @param {string} [called] */
export function photos(about, kind = 'group', called = 'photo') {
  const $shown = h('div', { class: 'photos' }, site.photos.filter((photo) => photo.about === about).map(photoView))
  const $said = h('p', { class: 'wrong', role: 'status', hidden: true })
  const add = async (/** @type {Event} */ event) => {
    const $input = /** @type {HTMLInputElement} */ (event.target)
    const files = [...($input.files ?? [])]
    $input.value = ''
    for (const file of files) {
      try {
        const photo = await app.addPhoto(/** @type {string} */ (site.id), file, about, kind)
        site.photos = [photo, ...site.photos.filter((other) => other.sha !== photo.sha || other.about !== photo.about)]
        $shown.replaceChildren(...site.photos.filter((other) => other.about === about).map(photoView))
        $said.hidden = true
      } catch (failure) {
        $said.textContent = `${file.name}: ${failureText(failure)}`
        $said.hidden = false
      }
    }
  }
  const input = (/** @type {boolean} */ camera) => h('input', { type: 'file', accept: 'image/*', multiple: !camera, capture: camera ? 'environment' : undefined, onclick: () => flush(), onchange: add, 'aria-label': camera ? `Take a ${called}` : `Add a ${called} from this device` })
  return h('div', {}, $shown, $said, h('div', { class: 'two' }, h('label', { class: 'file' }, `Take a ${called}`, input(true)), h('label', { class: 'file' }, 'From this device', input(false))))
}
