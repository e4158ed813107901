// Called with an element: brings it into view and gives the place to press, or what keeps a finger from it.
(async ($element) => {
  if (!$element) return { why: 'gone' }
  $element.scrollIntoView({ block: 'center', behavior: 'instant' })
  await new Promise((done) => requestAnimationFrame(() => done(1)))
  if (!$element.isConnected) return { why: 'drawn anew' }
  const before = $element.getClientRects()[0]
  // What still moves is not pressed: an answer that comes in above pushes things away from under a finger.
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(1))))
  const box = $element.getClientRects()[0]
  if (!box || !before) return { why: 'not drawn' }
  if (box.left !== before.left || box.top !== before.top) return { why: 'still moving' }
  const [x, y] = [box.left + box.width / 2, box.top + box.height / 2]
  const $hit = document.elementFromPoint(x, y)
  const $labels = [...($element.labels ?? [])]
  if (!$hit) return { why: `outside of the screen at ${x}, ${y}` }
  if ($element.contains($hit) || $labels.some(($label) => $label.contains($hit))) return { x, y }
  return { why: `covered by ${$hit.outerHTML.slice(0, 200)}` }
})
