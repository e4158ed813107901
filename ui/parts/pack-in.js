// @ts-check
import { app, failureText } from '../bridge.js'
import { deviceWords, packWords, words } from '../words.js'
import { h, put } from './dom.js'
import { size, time } from './numbers.js'

/** A pack is a ZIP file: it begins like one. */
const BEGINS = [0x50, 0x4b, 0x03, 0x04]

/** Codes of failures that lie in what the pack holds. */
const OF_THE_PACK = ['pack_changed', 'foreign', 'body', 'correction', 'other_job', 'pack_too_large']

/**
 * Opens a pack from this phone's files, part by part, so that its size does not matter.
 * @param {() => Promise<void>} done after something came in
 */
export function packIn(done) {
  const $answer = h('div', { role: 'status', class: 'outcome' })
  const $input = h('input', { type: 'file', accept: '.zip,application/zip', 'aria-label': packWords.pick, onchange: () => begin($input.files?.[0]) })
  const $pick = h('label', { class: 'file' }, packWords.pick, $input)
  const begin = async (/** @type {File|undefined} */ file) => {
    $input.value = ''
    if (!file) return
    // One at a time.
    $input.disabled = true
    $pick.hidden = true
    try {
      const found = await takeIn(file, $answer)
      // The job's line comes into the list above first: what is offered to be pressed must not move any more.
      if (brought(found)) await done()
      put($answer, answerView(found))
    } catch (failure) {
      put($answer, refusedView(failure))
    }
    $input.disabled = false
    $pick.hidden = false
    $answer.scrollIntoView({ block: 'nearest' })
  }
  const $part = h('section', { class: 'packin' }, h('h2', {}, packWords.open), h('p', {}, packWords.openLine), handedOver($answer, done), $answer, $pick)
  // A file dropped onto the window is taken as if it had been chosen.
  const drop = (/** @type {Event} */ event) => {
    if (!$part.isConnected) { removeEventListener('drop', drop); return }
    const file = /** @type {DragEvent} */ (event).dataTransfer?.files[0]
    if (file && !$input.disabled) begin(file)
  }
  addEventListener('drop', drop)
  return $part
}

/** Packs that another app handed over, each with a button. @param {Element} $answer @param {() => Promise<void>} done */
function handedOver($answer, done) {
  const $wait = h('div', {})
  const draw = async () => {
    const { packs } = await app.device()
    put($wait, packs.length > 0 && h('div', { class: 'handed', role: 'status' }, h('h3', {}, deviceWords.handedOver), h('p', {}, deviceWords.handedOverLine),
      packs.map((name) => h('button', { class: 'do', type: 'button', onclick: (/** @type {Event} */ event) => take(name, /** @type {HTMLButtonElement} */ (event.currentTarget)) }, deviceWords.takeIn))))
  }
  const take = async (/** @type {string} */ name, /** @type {HTMLButtonElement} */ $button) => {
    $button.disabled = true
    put($answer, h('p', {}, packWords.checking), h('progress', { class: 'used', 'aria-label': packWords.checking }))
    /** @type {Node} */
    let $said
    try {
      const found = await app.takeHandedOver(name)
      if (brought(found)) await done()
      $said = answerView(found)
    } catch (failure) { $said = refusedView(failure) }
    await draw()
    put($answer, $said)
  }
  const again = () => {
    if ($wait.isConnected) draw().catch(() => {})
    else removeEventListener('pack-opened', again)
  }
  draw().catch(() => {})
  addEventListener('pack-opened', again)
  return $wait
}

/** @param {File} file @param {Element} $answer @returns {Promise<import('./types.js').Imported>} */
async function takeIn(file, $answer) {
  if (file.size === 0) throw said(packWords.empty(file.name))
  const first = new Uint8Array(await file.slice(0, 4).arrayBuffer())
  if (BEGINS.some((byte, at) => first[at] !== byte)) throw said(packWords.noPack(file.name))
  const { free_bytes: free } = await app.room()
  // It lies here twice for a moment: as the pack, and as what is taken in from it.
  if (free !== null && 2 * file.size > free) throw said(packWords.tooLarge(size(2 * file.size), size(free)))

  const upload = crypto.randomUUID()
  let stopped = false
  const $bar = h('progress', { class: 'used', max: file.size, value: 0, 'aria-label': packWords.open })
  const $line = h('p', {})
  const $stop = h('button', { class: 'ask', type: 'button', onclick: () => { stopped = true } }, packWords.stop)
  put($answer, $line, $bar, $stop)
  try {
    await app.send(upload, file, (at) => {
      if (stopped) throw said(packWords.stopped)
      $line.textContent = packWords.sending(size(at), size(file.size))
      $bar.value = at
    })
  } catch (failure) {
    await app.forgetPack(upload).catch(() => {})
    throw failure
  }
  put($answer, h('p', {}, packWords.checking), h('progress', { class: 'used', 'aria-label': packWords.checking }))
  return app.packArrived(upload)
}

/** Whether anything came in by a pack. @param {import('./types.js').Imported} found */
const brought = (found) => found.new_job || found.added > 0 || found.photos > 0

/** @param {string} message */
const said = (message) => ({ code: 'said', message })

/** What came of a pack. @param {import('./types.js').Imported} found */
export function answerView(found) {
  const fork = found.left_out.length > 0
  const some = found.added > 0 || found.photos > 0
  const title = fork ? packWords.fork : found.new_job ? packWords.newJob : some ? packWords.merged : packWords.nothing
  return h('div', { class: fork ? 'fork' : '' }, h('h3', { class: fork ? 'wrong' : '' }, title),
    some && h('p', {}, packWords.came(found.added, found.photos)),
    fork && h('p', {}, packWords.forkWhy),
    fork && h('ul', {}, found.left_out.map((one) => h('li', {}, packWords.leftOut(one, time(one.at))))),
    fork && h('p', { class: 'said' }, packWords.forkDo),
    h('a', { class: 'do', href: `#${found.job}/record` }, packWords.goTo))
}

/** Why nothing was taken in, and what to do. @param {unknown} failure */
function refusedView(failure) {
  const { code = '' } = /** @type {{code?: string}} */ (failure ?? {})
  // The pack itself is at fault only where the check of it says so.
  if (!OF_THE_PACK.includes(code)) return h('p', { class: 'wrong' }, failureText(failure))
  return h('div', { class: 'fork' }, h('h3', { class: 'wrong' }, packWords.refused),
    h('p', {}, packWords.refusedDo), h('details', { class: 'fold' }, h('summary', { 'data-open': words.open, 'data-close': words.shut }, packWords.refusedWhere), h('div', {}, h('p', {}, failureText(failure)))))
}
