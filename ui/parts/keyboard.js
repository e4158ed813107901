// @ts-check
/**
 * Keeps what somebody types into, and what is fixed at the foot, clear of the keyboard. On Android the page itself gets
 * lower; elsewhere only the part of it that can be seen does, and what is fixed would lie behind the keyboard.
 */

/** Air between the field and what is fixed, in pixels. */
const AIR = 8

/** Height of the page that the keyboard covers. A page that was made larger with two fingers is covered by nothing. */
function covered() {
  const seen = window.visualViewport
  return seen && Math.abs(seen.scale - 1) < 0.01 ? Math.max(0, Math.round(innerHeight - seen.height - seen.offsetTop)) : 0
}

/** Whether an element takes text. @param {Element|null} $held @returns {$held is HTMLElement} */
const typedInto = ($held) => $held instanceof HTMLElement && $held.matches('textarea, select, input:not([type=radio]):not([type=checkbox]):not([type=file])')

/** Scrolls what holds the caret between what is fixed above and below it, as little as it takes. */
function keepInView() {
  const $held = document.activeElement
  if (!typedInto($held)) return
  if (!$held.closest('main')) { $held.scrollIntoView({ block: 'nearest' }); return }
  const $line = $held.closest('.field') ?? $held
  const stuck = document.querySelector('.demo')?.getBoundingClientRect().bottom ?? 0
  const top = Math.max(0, stuck) + AIR
  const foot = document.getElementById('foot')?.getBoundingClientRect().top ?? innerHeight
  const bottom = Math.min(innerHeight - covered(), foot) - AIR
  // The question goes along with its field where both have room.
  const box = [$line, $held].map(($one) => $one.getBoundingClientRect()).find(({ height }) => height <= bottom - top) ?? $held.getBoundingClientRect()
  if (box.bottom > bottom) scrollBy({ top: box.bottom - bottom, behavior: 'instant' })
  else if (box.top < top) scrollBy({ top: box.top - top, behavior: 'instant' })
}

/** Listens for the keyboard, and for a phone that is turned. */
export function keepClear() {
  const now = () => {
    document.documentElement.style.setProperty('--covered', `${covered()}px`)
    keepInView()
  }
  addEventListener('resize', now)
  window.visualViewport?.addEventListener('resize', now)
}
