// How fields stand to the keyboard. `count`: how many can be typed into. `hold(i)`: puts one just over what is fixed, where the
// keyboard will be, and the caret into it. `judge(fixed)`: what hides it, or what of the foot cannot be pressed.
({
  list: () => [...document.querySelectorAll('main :is(textarea, select, input:not([type=radio]):not([type=checkbox]):not([type=file]))')]
    .filter(($one) => !$one.disabled && !$one.readOnly && $one.checkVisibility({ visibilityProperty: true }) && $one.getBoundingClientRect().height > 0),
  count() { return this.list().length },
  hold(i) {
    const $one = this.list()[i]
    const foot = document.getElementById('foot').getBoundingClientRect().top
    const { bottom } = $one.getBoundingClientRect()
    scrollBy({ top: bottom - foot + 10, behavior: 'instant' })
    $one.focus({ preventScroll: true })
    return $one.getBoundingClientRect().top
  },
  judge() {
    const $one = document.activeElement
    const name = [$one.labels?.[0]?.textContent ?? $one.getAttribute('aria-label') ?? $one.tagName, $one.name].join(' ')
    const low = innerHeight - parseFloat(getComputedStyle(document.documentElement).getPropertyValue('--covered'))
    const box = $one.getBoundingClientRect()
    const foot = document.getElementById('foot').getBoundingClientRect()
    const $at = document.elementFromPoint(box.x + box.width / 2, box.y + Math.min(box.height, 48) / 2)
    const found = []
    const bottom = Math.min(foot.top, low)
    // A field of several lines that is higher than what is left need only show where it begins.
    const shown = box.top >= 0 && (box.bottom <= bottom + 0.5 || (box.height > 90 && box.top <= bottom - 48))
    if (!shown) found.push(`${name}: stands from ${Math.round(box.top)} to ${Math.round(box.bottom)}, seen is 0 to ${Math.round(bottom)}`)
    else if (!$at || !($one.contains($at) || $at.contains($one) || $at.closest('label, .field') === $one.closest('label, .field'))) found.push(`${name}: lies under ${$at?.outerHTML.slice(0, 80)}`)
    if (foot.top < 60) found.push(`${name}: the foot leaves only ${Math.round(foot.top)} px`)
    for (const $press of document.querySelectorAll('#foot :is(.thumbs, .bar, .steps) > *, #foot > div:last-child :is(button, a)')) {
      const at = $press.getBoundingClientRect()
      // A row that is moved sideways holds more than is seen at once.
      if (at.left >= innerWidth || at.right <= 0) continue
      const $hit = document.elementFromPoint(Math.min(at.x + at.width / 2, innerWidth - 2), at.y + at.height / 2)
      if (at.bottom > low + 0.5 || at.top < 0 || !($hit && ($press.contains($hit) || $hit.contains($press)))) found.push(`${name}: “${$press.textContent}” cannot be pressed`)
    }
    return found
  },
})
