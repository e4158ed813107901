// Called with words and a group: whether the focus stands on what bears them. Called with nothing: what keeps the focus from being seen.
((words, group) => {
  const $one = document.activeElement
  const plain = (text) => (text ?? '').replace(/[\s✓]+/g, ' ').trim().toLowerCase()
  if (words === undefined) {
    const { outlineStyle, outlineWidth } = getComputedStyle($one)
    // A round button that is drawn as its label, and a piece of a drawing, show it on what is drawn.
    const $label = $one.closest('label')
    const marked = (outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2) || ($label && getComputedStyle($label).outlineStyle !== 'none') || Boolean($one.ownerSVGElement)
    const box = ($label ?? $one).getBoundingClientRect()
    const foot = $one.closest('#foot') ? innerHeight : document.getElementById('foot').getBoundingClientRect().top
    if (!marked) return 'no mark shows it'
    return box.bottom > 0 && box.top < foot ? '' : `out of view, ${Math.round(box.top)} to ${Math.round(box.bottom)} of ${Math.round(foot)}`
  }
  const $group = $one.closest('fieldset')
  if (group && plain($group?.querySelector('legend')?.textContent) !== plain(group)) return false
  if (group && words === '') return $one.type === 'radio'
  const names = [$one.innerText, $one.getAttribute('aria-label'), ...[...($one.labels ?? [])].map(($label) => $label.innerText)]
  return names.some((name) => plain(name) === plain(words) || plain(name).startsWith(`${plain(words)} `))
})
