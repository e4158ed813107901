// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { day as dayText } from '../../parts/numbers.js'
import { recordWords } from '../../words.js'
import { entryView } from './entry.js'

/** Entries that are read at a time. */
const BLOCK = 20
/** Entries of a stretch. Its blocks are in the page only near the window: each costs time in every frame, however far away. */
const STRETCH = 320
/** Height of an entry that was not drawn yet, px; rather too little: a block that stood too high would leave a gap, and jump. */
const ABOUT = 130
/** How far beyond the window entries are drawn. */
const NEAR = '1500px 0px'

/** How high the blocks of a stretch were when it was emptied. @type {WeakMap<Element, number[]>} */
const heights = new WeakMap()

/**
 * The record from the newest day on. All of its days are laid out; of the entries only those near the window are in the
 * page, so that its length does not matter.
 * @param {string} id
 */
export function timeline(id) {
  const $list = h('div', { class: 'timeline' })
  const $top = h('div', {})
  /** @type {IntersectionObserver[]} */
  let watchers = []
  const load = async () => {
    try {
      const { days, phones } = await app.recordDays(id)
      watchers.forEach((one) => one.disconnect())
      const blocks = new IntersectionObserver((changes) => changes.forEach((change) => turn(change, id, load)), { rootMargin: NEAR })
      const stretches = new IntersectionObserver((changes) => changes.forEach((change) => reach(change, blocks)), { rootMargin: NEAR })
      watchers = [blocks, stretches]
      const missing = days.filter((one) => one.missing).map((one) => one.day)
      const $days = days.map(dayView)
      put($top, missing.length > 0 && h('p', { class: 'wrong' }, recordWords.gaps(missing.length > 5 ? `${missing.length}` : missing.join(', '))),
        phones.length > 0 && h('p', { class: 'soft' }, recordWords.phones(phones)), days.length > 1 && jump(days, $days))
      put($list, $days)
      $list.querySelectorAll('.stretch').forEach((/** @type {Element} */ $stretch) => stretches.observe($stretch))
    } catch (failure) { put($top, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  return { $view: h('div', {}, $top, $list), load }
}

/** @typedef {{day: string, first: number, entries: number, missing: boolean}} Day */

/** @param {Day} one */
const named = (one) => (one.day ? dayText(`${one.day}T12:00:00`) : recordWords.undated)

/** A day: its heading, and its entries in stretches. @param {Day} one */
function dayView(one) {
  const stretches = parts(one.first, one.entries, STRETCH).map((part) => place('stretch', part))
  return h('section', { class: one.missing ? 'day missed' : 'day' }, h('h3', { tabindex: '-1' }, named(one), one.entries > BLOCK && h('small', {}, recordWords.count(one.entries))),
    one.missing && h('p', { class: 'wrong' }, recordWords.missed), stretches)
}

/** Parts of entries that follow each other downwards. @param {number} first @param {number} all @param {number} most */
const parts = (first, all, most) => Array.from({ length: Math.ceil(all / most) }, (_, at) => ({ first: first - at * most, count: Math.min(most, all - at * most) }))

/** A place that is filled when it comes near. @param {'stretch'|'block'} kind @param {{first: number, count: number}} part @param {number} [height] px */
function place(kind, { first, count }, height = count * ABOUT) {
  const $place = h('div', { class: kind, 'data-first': first, 'data-count': count })
  $place.style.setProperty('min-height', `${height}px`)
  return $place
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

/** Lays out the blocks of a stretch that comes near, and none of one that went far. @param {IntersectionObserverEntry} change @param {IntersectionObserver} blocks */
function reach({ isIntersecting, target }, blocks) {
  const $stretch = /** @type {HTMLElement} */ (target)
  if (isIntersecting === $stretch.childElementCount > 0) return
  if (isIntersecting) {
    const known = heights.get($stretch)
    put($stretch, parts(Number($stretch.dataset.first), Number($stretch.dataset.count), BLOCK).map((part, at) => place('block', part, known?.[at])))
    $stretch.style.removeProperty('min-height')
    for (const $block of $stretch.children) blocks.observe($block)
  } else if (!$stretch.contains(document.activeElement)) {
    const known = [...$stretch.children].map(($block) => $block.getBoundingClientRect().height)
    heights.set($stretch, known)
    $stretch.style.setProperty('min-height', `${known.reduce((all, one) => all + one, 0)}px`)
    for (const $block of $stretch.children) blocks.unobserve($block)
    put($stretch)
  }
}

/** Fills a block that comes near and empties one that went far. @param {IntersectionObserverEntry} change @param {string} id @param {() => void} again */
async function turn({ isIntersecting, target }, id, again) {
  const $block = /** @type {HTMLElement} */ (target)
  $block.dataset.near = String(isIntersecting)
  if (!isIntersecting) {
    // What somebody works on stays.
    if ($block.childElementCount === 0 || $block.contains(document.activeElement)) return
    $block.style.setProperty('min-height', `${$block.getBoundingClientRect().height}px`)
    put($block)
    return
  }
  if ($block.childElementCount > 0 || $block.dataset.busy) return
  $block.dataset.busy = 'true'
  try {
    const page = await app.record(id, Number($block.dataset.first) + 1, Number($block.dataset.count))
    await draw($block, page.entries, (/** @type {any} */ entry) => entryView(entry, id, again))
  } catch (failure) { put($block, h('p', { class: 'wrong' }, failureText(failure))) }
  delete $block.dataset.busy
}

/** Waits until a frame was drawn, for work that an old phone has no time for within one. @returns {Promise<void>} */
const drawn = () => new Promise((go) => { requestAnimationFrame(() => { setTimeout(go) }) })

/**
 * Makes an entry after one frame and puts it in, with its layout, after the next, which leaves the painting to the frame that
 * follows; the block keeps its height until all stand in it.
 * @param {HTMLElement} $block @param {any[]} entries @param {(entry: any) => Element} view
 */
async function draw($block, entries, view) {
  // It may have gone far and come back meanwhile, and is empty then.
  const gone = (/** @type {number} */ done) => !$block.isConnected || (done === 0 && $block.dataset.near !== 'true')
  for (;;) {
    const done = $block.childElementCount
    if (done === entries.length || gone(done)) return
    const $entry = view(entries[done])
    await drawn()
    if ($block.childElementCount !== done || gone(done)) continue
    hold($block, done + 1 === entries.length, () => $block.append($entry))
    await drawn()
  }
}

/**
 * Changes a block, which is full then or not. What is looked at stays where it is: what stands below the block, where all that
 * is drawn in it lies above the window; else its own entries.
 * @param {HTMLElement} $block @param {boolean} full @param {() => void} change
 */
function hold($block, full, change) {
  const before = $block.getBoundingClientRect()
  const edge = $block.lastElementChild?.getBoundingClientRect().bottom ?? before.top
  change()
  if (full) $block.style.removeProperty('min-height')
  const after = $block.getBoundingClientRect()
  if (edge < 0 && after.height !== before.height) scrollBy({ top: after.height - before.height, behavior: 'instant' })
}
