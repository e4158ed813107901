// Called with what the device keeps for itself, in pixels: top, right, bottom, left. Gives what lies in there, as `[what, where]`.
((top, right, bottom, left) => {
  const found = []
  // What is cut off by something that scrolls lies where that lies.
  const cut = ($one, box) => {
    let { left: x, right: x2, top: y, bottom: y2 } = box
    for (let $up = $one; $up && $up !== document.body; $up = $up.parentElement) {
      const { overflowX, overflowY, position } = getComputedStyle($up)
      const edge = $up.getBoundingClientRect()
      if (overflowX !== 'visible') { x = Math.max(x, edge.left); x2 = Math.min(x2, edge.right) }
      if (overflowY !== 'visible') { y = Math.max(y, edge.top); y2 = Math.min(y2, edge.bottom) }
      if (position === 'fixed') break
    }
    return x2 - x > 1 && y2 - y > 1 ? { x, x2, y, y2 } : null
  }
  const judge = ($one, box, what) => {
    const seen = $one.checkVisibility({ visibilityProperty: true, opacityProperty: false }) && cut($one, box)
    // What waits beside the page, for those who listen, is in nobody's way.
    if (!seen || seen.x2 <= 0 || $one.closest('.quiet, .skip')) return
    const fixed = $one.closest('#foot, dialog[open]')
    const wrong = [
      seen.x < left - 0.5 && 'left', seen.x2 > innerWidth - right + 0.5 && 'right',
      (fixed || scrollY === 0) && seen.y < top - 0.5 && 'top', fixed && seen.y2 > innerHeight - bottom + 0.5 && seen.y < innerHeight && 'bottom',
    ].filter(Boolean)
    if (wrong.length > 0) found.push([what.slice(0, 40), `${wrong.join(' ')} ${[seen.x, seen.y, seen.x2, seen.y2].map(Math.round).join(' ')}`])
  }
  const $root = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body
  const walk = document.createTreeWalker($root, NodeFilter.SHOW_TEXT)
  let texts = 0
  for (let $text = walk.nextNode(); $text; $text = walk.nextNode()) {
    const $in = $text.parentElement
    if (!$text.data.trim() || $in.closest('svg, option, script')) continue
    texts += 1
    const range = document.createRange()
    range.selectNodeContents($text)
    for (const box of range.getClientRects()) judge($in, box, $text.data.trim())
  }
  for (const $one of $root.querySelectorAll('button, a, input, select, textarea, summary')) {
    // An input may lie unseen over the words that stand for it.
    if (getComputedStyle($one).opacity !== '0') judge($one, $one.getBoundingClientRect(), $one.tagName)
  }
  // Under the system's own bar lies nothing that scrolls.
  const $under = top > 0 && $root === document.body && document.elementFromPoint(innerWidth / 2, top / 2)
  if ($under && $under !== document.body && $under !== document.documentElement) found.push([$under.tagName, 'runs through the bar above'])
  return { found, texts }
})
