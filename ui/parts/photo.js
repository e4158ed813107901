// @ts-check
import { app, failureText } from '../bridge.js'
import { deviceWords, photoWords, words } from '../words.js'
import { h, put } from './dom.js'
import { sheet } from './dialog.js'
import { size, time } from './numbers.js'
import { shareFile } from './share.js'
import { flush, site, wholePhotos, write } from './site.js'

/** @typedef {import('./types.js').Photo} Photo */

let next = 0
/** What the camera was opened for: the system may close the app while somebody takes the picture. */
const CAMERA = '/job/camera'
/** Photos on their way at once: while the pictures of one are made, the next is kept. */
const HANDS = 2
/** What was last said of photos that were added, by job and what they show: who left the page finds it there again. @type {Map<string, {text: string, wrong: boolean}>} */
const told = new Map()

/** The places of the page where photos of one thing stand. @param {string} about */
const boxes = (about) => [...document.querySelectorAll('.photobox')].filter(($box) => /** @type {HTMLElement} */ ($box).dataset.about === about)

/** A photo came into the open job, whichever page stands there by now. @param {Photo} photo */
function came(photo) {
  site.photos = [photo, ...site.photos.filter((other) => other.sha !== photo.sha || other.about !== photo.about)]
  for (const $box of boxes(photo.about)) $box.dispatchEvent(new CustomEvent('photo', { bubbles: true }))
}

/**
 * Takes files into the job that is open now, also when its page, or the job, is left meanwhile.
 * @param {File[]} files @param {string} about @param {string} kind
 */
async function take(files, about, kind) {
  const { name } = site
  const id = /** @type {string} */ (site.id)
  const here = () => (site.id === id ? boxes(about) : [])
  const tell = (/** @type {string} */ text, wrong = false) => {
    told.set(`${id} ${about}`, { text, wrong })
    for (const $box of here()) $box.dispatchEvent(new CustomEvent('told'))
  }
  /** @type {string[]} */
  const failed = []
  const waiting = files.entries()
  const hand = async () => {
    for (const [at, file] of waiting) {
      tell(photoWords.taking(file.name))
      try {
        const photo = await app.addPhoto(id, file, about, kind, (done) => tell(photoWords.part(file.name, Math.round((100 * done) / file.size))))
        if (site.id === id) came(photo)
      } catch (failure) {
        failed[at] = `${file.name}: ${failureText(failure)}`
      }
    }
  }
  await Promise.all(Array.from({ length: HANDS }, hand))
  if (site.id === id && site.fields[CAMERA]) write(CAMERA, null)
  const text = failed.filter(Boolean).join(' ')
  tell(text, failed.length > 0)
  // Whoever went on believes that it is kept.
  if (text && here().length === 0) sheet(photoWords.notTaken(name), () => [h('p', { class: 'wrong' }, text), h('p', {}, photoWords.again)])
}

/** The photo of one thing that was put in last and can be shown. @param {string} about @returns {Photo|undefined} */
export function newestOf(about) {
  const seq = (/** @type {any} */ photo) => photo.entry?.seq ?? 0
  return site.photos.filter((one) => one.view && one.about === about).sort((a, b) => seq(b) - seq(a))[0]
}

/** One photo with its time, where the time comes from, and its marks. @param {Photo} photo */
export function photoView(photo) {
  const label = photoWords.alt(photo.about)
  const about = photo.about === 'other' ? photoWords.other : photo.about
  const $picture = photo.view
    ? h('button', { class: 'picture', type: 'button', onclick: () => enlarge(photo) }, h('img', { src: photo.thumb_url, alt: label, loading: 'lazy', ...sides(photo) }))
    : h('button', { class: 'picture noview', type: 'button', 'aria-label': `${label}: ${photo.words ?? photoWords.noView}`, onclick: () => enlarge(photo) }, photo.words ?? photoWords.noView)
  return h('figure', {}, $picture, h('figcaption', {}, [about, ...timeLines(photo)].join(' · '), ' ', h('span', { class: 'hash' }, photo.short)))
}

/** Its sides as it is shown, so that its place is kept until it comes. @param {Photo} photo */
const sides = ({ width, height, turned }) => (width && height ? (turned ? { width: height, height: width } : { width, height }) : {})

/** Large, with all that is known of it. @param {Photo} photo */
function enlarge(photo) {
  const label = photoWords.alt(photo.about)
  const $picture = h('img', { src: photo.view_url, alt: label, onerror: () => $picture.replaceWith(h('p', { class: 'noview' }, photoWords.noPicture)) })
  sheet(label, () => [photo.view ? $picture : h('p', { class: 'noview' }, photo.words ?? photoWords.noView), dataView(photo), drawnByApp(photo) && sharePhoto(photo)])
}

/** A picture that the app drew itself: nobody's camera wrote a place into it. @param {Photo} photo */
const drawnByApp = (photo) => photo.name.startsWith('set-out drawn on ')

/** Sends a picture as a file. @param {Photo} photo */
export function sharePhoto(photo) {
  const id = /** @type {string} */ (site.id)
  return shareFile(() => app.photoPaper(id, photo.sha))
}

/** @param {Photo} photo */
function dataView(photo) {
  const { data } = photoWords
  const rows = [
    [data.about, [photo.about, photoWords.kind[photo.kind]].filter(Boolean).join(', ')],
    [data.at, timeLines(photo).join('. ')],
    [data.name, photo.name],
    [data.size, photoWords.size(photo.width, photo.height, size(photo.bytes), photo.format)],
    [data.kept, photo.words ?? (photo.here ? photoWords.keptHere : '')],
  ]
  return h('table', { class: 'data' }, h('tbody', {}, rows.filter(([, text]) => text).map(([name, text]) => h('tr', {}, h('th', { scope: 'row' }, name), h('td', {}, text))),
    h('tr', {}, h('th', { scope: 'row' }, data.hash), h('td', { class: 'hash' }, photo.sha))))
}

/** When it was taken, who says so, and what does not fit. @param {Photo} photo */
function timeLines(photo) {
  // A mark says the difference itself.
  const differs = !photo.mark && photo.difference_s !== null && Math.abs(photo.difference_s) >= 60
  const lines = [photo.at && time(photo.at), photoWords.source[photo.source], differs && photoWords.differs(/** @type {number} */ (photo.difference_s)), photo.mark]
  return /** @type {string[]} */ (lines.filter(Boolean))
}

/** Shows something over the whole window until it is closed. @param {string} label @param {Element} $what */
export function showLarge(label, $what) {
  const $dialog = h('dialog', { 'aria-label': label, class: 'large' }, h('div', { class: 'scroll', tabindex: '0' }, $what), h('button', { class: 'do', type: 'button', onclick: () => $dialog.close() }, words.close))
  $dialog.addEventListener('close', () => $dialog.remove())
  document.body.append($dialog)
  $dialog.showModal()
}

/**
 * Photos about one thing, with the two ways to add some. Never needed.
 * @param {string} about @param {'group'|'portrait'|'detail'} kind @param {string} of what it is a photo of, in words
 */
export function photos(about, kind, of) {
  const $shown = h('div', { class: 'photos' })
  const $said = h('p', { role: 'status' })
  /** @type {string} */
  let chosen = kind
  const group = `kind-${(next += 1)}`
  const $scale = h('p', { class: 'hint', hidden: kind !== 'detail' }, photoWords.scale)
  const choose = (/** @type {string} */ to) => {
    chosen = to
    $scale.hidden = to !== 'detail'
  }
  // Those that are not in hand yet come when they are read.
  const show = async () => {
    put($shown, site.photos.filter((photo) => photo.about === about).map(photoView))
    if (!site.morePhotos) return
    try {
      await wholePhotos()
      put($shown, site.photos.filter((photo) => photo.about === about).map(photoView))
    } catch (failure) { $said.textContent = failureText(failure) }
  }
  const add = async (/** @type {Event} */ event) => {
    const $input = /** @type {HTMLInputElement} */ (event.target)
    await take([...($input.files ?? [])], about, chosen)
    $input.value = ''
  }
  const say = () => {
    const { text, wrong } = told.get(`${site.id} ${about}`) ?? { text: '', wrong: false }
    $said.className = wrong ? 'wrong' : ''
    $said.textContent = text
  }
  const open = () => {
    write(CAMERA, JSON.stringify({ about, kind: chosen }))
    flush()
  }
  const input = (/** @type {string} */ label, /** @type {Record<string, any>} */ props) => h('input', { type: 'file', accept: 'image/*', 'aria-label': label, onclick: () => flush(), onchange: add, ...props })
  show()
  say()
  const $kinds = h('fieldset', { class: 'field' }, h('legend', {}, photoWords.howClose), h('div', { class: 'answers' }, photoWords.kinds.map(([value, label]) => h('label', {},
    h('input', { type: 'radio', name: group, value, checked: value === kind, onchange: () => choose(value) }), label))))
  return h('div', { class: 'photobox', 'data-about': about, onphoto: show, ontold: say }, $shown, leftView(about, kind), $said, $kinds, $scale, h('div', { class: 'pair' },
    h('label', { class: 'file' }, photoWords.take(of), input(photoWords.take(of), { capture: 'environment', onclick: open })),
    h('label', { class: 'file' }, photoWords.pick, input(photoWords.pickLabel(of), { multiple: true }))))
}

/**
 * Pictures that the camera took while the system had closed the app, offered where the camera was opened.
 * @param {string} about @param {string} kind
 */
function leftView(about, kind) {
  const $left = h('div', {})
  const noted = () => {
    try { return JSON.parse(site.fields[CAMERA] ?? '') } catch { return { about, kind } }
  }
  const draw = async () => {
    const asked = noted()
    const left = asked.about === about ? await app.photosLeft() : []
    put($left, left.map(({ name, bytes }) => {
      const $said = h('p', { class: 'wrong', role: 'alert' })
      const doing = (/** @type {() => Promise<void>} */ work) => async () => {
        try {
          await work()
          if (site.fields[CAMERA]) write(CAMERA, null)
          await draw()
        } catch (failure) { $said.textContent = failureText(failure) }
      }
      const takeIt = doing(async () => came(await app.takeLeft(/** @type {string} */ (site.id), about, asked.kind, name)))
      return h('div', { class: 'left', role: 'status' }, h('p', { class: 'said' }, `${deviceWords.left} ${size(bytes)}`),
        h('button', { class: 'do', type: 'button', onclick: takeIt }, deviceWords.leftFor(about)),
        h('button', { class: 'ask', type: 'button', onclick: doing(() => app.dropLeft(name)) }, deviceWords.leftDrop), $said)
    }))
    // Where somebody took a picture it is not kept from them by what is folded away.
    for (let $fold = left.length > 0 ? $left.closest('details') : null; $fold; $fold = $fold.parentElement?.closest('details') ?? null) $fold.open = true
  }
  draw().catch(() => {})
  return $left
}
