// @ts-check
/** Feet and inches beside metres and millimetres, for who has that tape. Metric stays first: the pieces are made and ordered in it. */

/** One foot is 0.3048 m and one inch 25.4 mm, by the agreement of 1959. */
const INCH_MM = 25.4
const EIGHTHS = Object.freeze(['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'])

/** To the nearest eighth of an inch, at most 1.6 mm off. @param {number} mm */
export function feetAndInches(mm) {
  const eighths = Math.round((Math.abs(mm) / INCH_MM) * 8)
  const feet = Math.floor(eighths / 96)
  const inches = Math.floor((eighths % 96) / 8)
  const rest = EIGHTHS[eighths % 8]
  const parts = [feet > 0 && `${feet} ft`, (inches > 0 || rest || feet === 0) && `${inches || (rest && feet === 0 ? '' : 0)}${rest} in`]
  return (mm < 0 ? '−' : '') + parts.filter(Boolean).join(' ')
}

/** Below this an eighth of an inch says too little: cracks, gauges, slack. */
const SMALLEST_MM = 12

const LENGTHS = /((?:[\d.]+ × )*)([−-]?\d+(?:\.\d+)?) (mm|m)(?![\w²³/]| per)/g

/** A sentence with feet and inches behind each length in it. @param {string} text */
export function withFeet(text) {
  return text.replace(LENGTHS, (all, before, last, unit) => {
    const each = [...before.split(' × ').filter(Boolean), last].map((one) => Number(one.replace('−', '-')) * (unit === 'm' ? 1000 : 1))
    return each.some((mm) => Math.abs(mm) < SMALLEST_MM) ? all : `${all} (${each.map(feetAndInches).join(' × ')})`
  })
}

const DONE = new WeakMap()

/** @param {Node} $root */
function put($root) {
  const walk = document.createTreeWalker($root, NodeFilter.SHOW_TEXT)
  for (let $text = $root.nodeType === Node.TEXT_NODE ? $root : walk.nextNode(); $text; $text = walk.nextNode()) {
    // A drawing has its own room for words, and a field holds what was typed.
    if (DONE.get($text) === $text.nodeValue || $text.parentElement?.closest('svg, textarea, input')) continue
    const said = withFeet($text.nodeValue ?? '')
    if (said !== $text.nodeValue) $text.nodeValue = said
    DONE.set($text, said)
  }
}

/** Keeps feet and inches beside the lengths on a page, whatever is drawn there later. @param {Node} $page */
export function keepFeet($page) {
  put($page)
  new MutationObserver((changes) => changes.forEach((one) => (one.type === 'characterData' ? put(one.target) : one.addedNodes.forEach(put))))
    .observe($page, { childList: true, characterData: true, subtree: true })
}
