// Called with an element: brings it into view and gives the place to press, or what keeps a finger from it.
(async ($element) => {
  if (!$element) return { why: 'gone' }
  $element.scrollIntoView({ block: 'center', behavior: 'instant' })
  await new Promise((done) => requestAnimationFrame(() => done(1)))
  if (!$element.isConnected) return { why: 'drawn anew' }
  const box = $element.getClientRects()[0]
  if (!box) return { why: 'not drawn' }
  const [x, y] = [box.left + box.width / 2, box.top + box.height / 2]
  const $hit = document.elementFromPoint(x, y)
  const $labels = [...($element.labels ?? [])]
  if (!$hit) return { why: `outside of the screen at ${x}, ${y}` }
  if ($element.contains($hit) || $labels.some(($label) => $label.contains($hit))) return { x, y }
  return { why: `covered by ${$hit.outerHTML.slice(0, 200)}` }
})
