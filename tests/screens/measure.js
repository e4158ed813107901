// What can be measured on a page: where it is wider than the screen, and which controls are too small or in each other's way.
((width, least) => {
  const found = []
  const say = ($one) => `<${$one.localName}${$one.className ? ` class="${$one.getAttribute('class')}"` : ''}> ${($one.innerText || $one.getAttribute('aria-label') || $one.name || '').trim().slice(0, 40)}`
  const shown = ($one) => $one.checkVisibility({ visibilityProperty: true })
  if (document.documentElement.scrollWidth > width + 1) {
    // A part that scrolls by itself may be wider; what pushes the page out may not.
    const alone = ($one) => $one.parentElement && (/(auto|scroll|hidden|clip)/.test(getComputedStyle($one.parentElement).overflowX) || alone($one.parentElement))
    const wide = [...document.querySelectorAll('body *')].filter(($one) => shown($one) && !alone($one) && $one.getBoundingClientRect().right > width + 1)
    found.push(`wider than the screen (${document.documentElement.scrollWidth} > ${width}): ${wide.slice(0, 4).map(say).join(' | ')}`)
  }
  const dialog = [...document.querySelectorAll('dialog[open]')].filter(($one) => $one.matches(':modal')).at(-1)
  const controls = new Set()
  for (const $one of (dialog ?? document).querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button]')) {
    // What no finger reaches is there for keys, and for who hears the page.
    if (!shown($one) || $one.disabled || getComputedStyle($one).pointerEvents === 'none') continue
    // A field drawn over its label, or as a part of it, is pressed by the label.
    const $label = $one.closest('label')
    controls.add($label && ['radio', 'checkbox', 'file'].includes($one.type) ? $label : $one)
  }
  const layer = ($one) => { for (let $up = $one; $up; $up = $up.parentElement) if (/(fixed|sticky)/.test(getComputedStyle($up).position)) return $up; return document }
  // Of what lies in a part that scrolls only what can be seen of it can be in something's way.
  const seen = ($one) => {
    let { left, right, top, bottom } = $one.getBoundingClientRect()
    for (let $up = $one.parentElement; $up && $up !== document.body; $up = $up.parentElement) {
      const { overflowX, overflowY } = getComputedStyle($up)
      const part = $up.getBoundingClientRect()
      if (overflowX !== 'visible') { left = Math.max(left, part.left); right = Math.min(right, part.right) }
      if (overflowY !== 'visible') { top = Math.max(top, part.top); bottom = Math.min(bottom, part.bottom) }
    }
    return { left, right, top, bottom }
  }
  // A piece of a drawing to scale may be small and may lie on another, if it can be chosen from a list as well.
  const listed = ($one) => Boolean($one.dataset?.piece) && [...document.querySelectorAll('select option')].some(({ value }) => value === $one.dataset.piece)
  const boxes = []
  for (const $one of controls) {
    const box = $one.getBoundingClientRect()
    if (box.width === 0 || box.right <= 0 || box.left >= width + 2000) continue
    if (listed($one)) continue
    boxes.push([$one, seen($one), layer($one)])
    // A link within a sentence has the height of its line.
    const inline = $one.localName === 'a' && getComputedStyle($one).display === 'inline' && $one.parentElement.innerText.trim() !== $one.innerText.trim()
    if (inline) continue
    if (box.width < least - 0.5 || box.height < least - 0.5) found.push(`too small to press (${Math.round(box.width)} x ${Math.round(box.height)}): ${say($one)}`)
  }
  for (let a = 0; a < boxes.length; a += 1) {
    for (let b = a + 1; b < boxes.length; b += 1) {
      const [$one, one, layerOne] = boxes[a]
      const [$two, two, layerTwo] = boxes[b]
      if (layerOne !== layerTwo || $one.contains($two) || $two.contains($one)) continue
      const across = Math.min(one.right, two.right) - Math.max(one.left, two.left)
      const down = Math.min(one.bottom, two.bottom) - Math.max(one.top, two.top)
      if (across > 2.5 && down > 2.5) found.push(`in each other's way (${Math.round(across)} x ${Math.round(down)}): ${say($one)} | ${say($two)}`)
    }
  }
  return { found, controls: boxes.length }
})
