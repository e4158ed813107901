// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { day as dayText } from '../../parts/numbers.js'
import { recordWords } from '../../words.js'
import { entryView } from './entry.js'

/** Entries that are read and drawn at a time. */
const BLOCK = 20
/** Height of an entry that was not drawn yet, px. */
const ABOUT = 130
/** How far beyond the window entries are drawn. */
const NEAR = '1500px 0px'

/**
 * The record from the newest day on. All of its days are laid out; of the entries only those near the window are in the
 * page, so that its length does not matter.
 * @param {string} id
 */
export function timeline(id) {
  const $list = h('div', { class: 'timeline' })
  const $top = h('div', {})
  /** @type {IntersectionObserver|undefined} */
  let watcher
  const load = async () => {
    try {
      const { days, phones } = await app.recordDays(id)
      watcher?.disconnect()
      const seen = new IntersectionObserver((changes) => changes.forEach((change) => turn(change, id, load)), { rootMargin: NEAR })
      watcher = seen
      const missing = days.filter((one) => one.missing).map((one) => one.day)
      const $days = days.map(dayView)
      put($top, missing.length > 0 && h('p', { class: 'wrong' }, recordWords.gaps(missing.length > 5 ? `${missing.length}` : missing.join(', '))),
        phones.length > 0 && h('p', { class: 'soft' }, recordWords.phones(phones)), days.length > 1 && jump(days, $days))
      put($list, $days)
      $list.querySelectorAll('.block').forEach((/** @type {Element} */ $block) => seen.observe($block))
    } catch (failure) { put($top, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  return { $view: h('div', {}, $top, $list), load }
}

/** @typedef {{day: string, first: number, entries: number, missing: boolean}} Day */

/** @param {Day} one */
const named = (one) => (one.day ? dayText(`${one.day}T12:00:00`) : recordWords.undated)

/** A day: its heading, and its entries in blocks that are filled when they come near. @param {Day} one */
function dayView(one) {
  const blocks = []
  for (let done = 0; done < one.entries; done += BLOCK) {
    const count = Math.min(BLOCK, one.entries - done)
    const $block = h('div', { class: 'block', 'data-first': one.first - done, 'data-count': count })
    $block.style.setProperty('min-height', `${count * ABOUT}px`)
    blocks.push($block)
  }
  return h('section', { class: one.missing ? 'day missed' : 'day' }, h('h3', { tabindex: '-1' }, named(one), one.entries > BLOCK && h('small', {}, recordWords.count(one.entries))),
    one.missing && h('p', { class: 'wrong' }, recordWords.missed), blocks)
}

/** @param {Day[]} days @param {Element[]} $days */
function jump(days, $days) {
  const $select = h('select', { id: 'to-day', onchange: () => {
    const $heading = /** @type {HTMLElement|null} */ ($days[Number($select.value)]?.querySelector('h3'))
    $heading?.scrollIntoView({ block: 'start' })
    $heading?.focus({ preventScroll: true })
  } }, days.map((one, at) => h('option', { value: at }, one.missing ? `${named(one)}: ${recordWords.missed}` : named(one))))
  return h('div', { class: 'field' }, h('label', { for: 'to-day' }, recordWords.goTo), h('span', { class: 'pick' }, $select))
}

/** Fills a block that comes near and empties one that went far. @param {IntersectionObserverEntry} change @param {string} id @param {() => void} again */
async function turn({ isIntersecting, target }, id, again) {
  const $block = /** @type {HTMLElement} */ (target)
  $block.dataset.near = String(isIntersecting)
  if (!isIntersecting) {
    // What somebody works on stays.
    if ($block.childElementCount === 0 || $block.contains(document.activeElement)) return
    $block.style.setProperty('min-height', `${$block.offsetHeight}px`)
    put($block)
    return
  }
  if ($block.childElementCount > 0 || $block.dataset.busy) return
  $block.dataset.busy = 'true'
  try {
    const page = await app.record(id, Number($block.dataset.first) + 1, Number($block.dataset.count))
    // It may have gone far again meanwhile.
    if ($block.dataset.near === 'true') hold($block, () => put($block, page.entries.map((/** @type {any} */ entry) => entryView(entry, id, again))))
  } catch (failure) { put($block, h('p', { class: 'wrong' }, failureText(failure))) }
  delete $block.dataset.busy
}

/** Changes a block; what is looked at below it stays where it is. @param {HTMLElement} $block @param {() => void} change */
function hold($block, change) {
  const before = $block.getBoundingClientRect()
  change()
  $block.style.removeProperty('min-height')
  const after = $block.getBoundingClientRect()
  if (before.top < 0 && after.height !== before.height) scrollBy({ top: after.height - before.height, behavior: 'instant' })
}
