// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { size } from '../../parts/numbers.js'
import { shareButton, shareFile } from '../../parts/share.js'
import { site, wholePhotos } from '../../parts/site.js'
import { photoWords, recordWords, words } from '../../words.js'

const LOOK_MS = 200

/** Makes a pack, shows how far it is, and lets it be stopped. @param {string} id @param {any} chosen @param {Element} $said */
export async function makePack(id, chosen, $said) {
  const work = crypto.randomUUID()
  const $line = h('p', {}, recordWords.making)
  const $bar = h('progress', { class: 'used', 'aria-label': recordWords.pack })
  put($said, $line, $bar, h('button', { class: 'ask', type: 'button', onclick: () => app.stopPack(work) }, recordWords.stop))
  const timer = setInterval(async () => {
    const at = await app.packProgress(work)
    if (!at?.total_bytes) return
    $bar.max = at.total_bytes
    $bar.value = at.done_bytes
    // Each photo is read twice; people count it once.
    $line.textContent = recordWords.copying(size(at.done_bytes / 2), size(at.total_bytes / 2))
  }, LOOK_MS)
  try { return await app.makePackOf(id, chosen, work) } finally { clearInterval(timer) }
}

/** @param {string} id @param {() => void} again */
export function packPart(id, again) {
  const $said = h('div', { role: 'status', class: 'outcome' })
  const choice = choiceOf()
  const make = async () => {
    $make.disabled = true
    try {
      const made = await makePack(id, choice.read(), $said)
      put($said, madeView(made))
    } catch (failure) { put($said, h('p', { class: 'wrong' }, failureText(failure))) }
    $make.disabled = false
    again()
    $said.scrollIntoView({ block: 'nearest' })
  }
  const $make = h('button', { class: 'do', type: 'button', onclick: make }, recordWords.pack)
  return h('section', {}, $said, $make, h('p', { class: 'hint' }, recordWords.packHint), choice.$view)
}

/** @param {import('../../parts/types.js').Packed} made */
function madeView(made) {
  return [h('p', {}, h('strong', {}, recordWords.made), ' ', recordWords.madeLine(made, size(made.bytes))),
    made.seal && h('p', {}, recordWords.lastSeal(made.seal)),
    made.not_chosen > 0 && h('p', {}, recordWords.notChosen(made.not_chosen)),
    made.missing.length > 0 && h('p', { class: 'wrong' }, recordWords.packMissing, ' ', made.missing.join(', ')),
    shareFile(made.path),
    shareButton(recordWords.where, recordWords.pack, () => made.path)]
}

/** Which photos go in: all, unless somebody chooses. The choice is laid out when it is opened, from the photos there are then. */
function choiceOf() {
  /** @type {() => any} */
  let read = () => ({})
  let laid = -1
  const $in = h('div', {})
  const lay = async () => {
    // A choice leaves out what it does not name, so nothing is laid out before every photo is known.
    await wholePhotos()
    if (laid === site.photos.length) return
    laid = site.photos.length
    const { $parts, read: own } = choiceView()
    put($in, $parts)
    read = own
  }
  const $view = h('details', { class: 'fold', ontoggle: lay }, h('summary', { 'data-open': words.open, 'data-close': words.shut }, recordWords.choose), $in)
  return { $view, read: () => read() }
}

function choiceView() {
  const all = site.photos
  const abouts = [...new Set(all.map((photo) => photo.about))].sort()
  const marks = (/** @type {string} */ name, /** @type {readonly (readonly string[])[]} */ options) => h('fieldset', { class: 'field' }, h('legend', {}, name), h('div', { class: 'marks' },
    options.map(([value, label]) => h('label', {}, h('input', { type: 'checkbox', value, checked: true, onchange: () => count() }), label))))
  const $about = marks(recordWords.ofWhat, abouts.map((about) => [about, about === 'other' ? photoWords.other : about]))
  const $kinds = marks(recordWords.kinds, photoWords.kinds)
  const date = (/** @type {string} */ id, /** @type {string} */ label) => [h('label', { for: id }, label), h('input', { id, type: 'date', class: 'wide' })]
  const [$fromLabel, $from] = date('pack-from', recordWords.from)
  const [$toLabel, $to] = date('pack-to', recordWords.to)
  const $place = h('input', { type: 'checkbox' })
  const $count = h('p', { class: 'soft', 'aria-live': 'polite' }, recordWords.chosen(all.length, all.length))
  const ticked = (/** @type {Element} */ $set) => {
    const $boxes = /** @type {HTMLInputElement[]} */ ([...$set.querySelectorAll('input')])
    // All of them is no choice: it holds for what is added later too.
    return $boxes.every(($box) => $box.checked) ? null : $boxes.filter(($box) => $box.checked).map(($box) => $box.value)
  }
  const read = () => {
    // A choice of nothing is kept as one that fits nothing.
    const list = (/** @type {string[]|null} */ chosen) => (chosen === null ? [] : chosen.length > 0 ? chosen : ['–'])
    return { from: $from.value || null, to: $to.value || null, about: list(ticked($about)), kinds: list(ticked($kinds)), without_place: $place.checked }
  }
  const count = () => {
    const { about, kinds } = read()
    const fits = (/** @type {string[]} */ chosen, /** @type {string} */ one) => chosen.length === 0 || chosen.includes(one)
    $count.textContent = recordWords.chosen(all.filter((photo) => fits(about, photo.about) && fits(kinds, photo.kind)).length, all.length)
    $count.hidden = Boolean($from.value || $to.value)
  }
  for (const $day of [$from, $to]) $day.addEventListener('input', count)
  const $parts = [all.length === 0 ? h('p', {}, recordWords.none) : [h('div', { class: 'pair' }, h('div', { class: 'field' }, $fromLabel, $from), h('div', { class: 'field' }, $toLabel, $to)), $about, $kinds, $count],
    h('div', { class: 'marks one' }, h('label', {}, $place, recordWords.place)), h('p', { class: 'hint' }, recordWords.placeHint)]
  return { $parts, read }
}
