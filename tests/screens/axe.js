// Runs every rule that axe-core has switched on, and the one on target sizes, over the whole page. What axe-core leaves to a
// person is measured here where it can be: contrast of words on drawings and under other things.
(async () => {
  const { violations, incomplete, passes } = await axe.run(document, { elementRef: true, rules: { 'target-size': { enabled: true } } })
  const parsed = (color) => (color.match(/[\d.]+/g) ?? []).map(Number)
  const solid = (color) => color.startsWith('rgb') && (parsed(color)[3] ?? 1) > 0.5
  const light = (color) => {
    const [r, g, b] = parsed(color).map((one) => one / 255).map((one) => (one <= 0.04045 ? one / 12.92 : ((one + 0.055) / 1.055) ** 2.4))
    return 0.2126 * r + 0.7152 * g + 0.0722 * b
  }
  const ratio = (one, two) => {
    const [low, high] = [light(one), light(two)].sort((a, b) => a - b)
    return (high + 0.05) / (low + 0.05)
  }
  const under = ($one) => {
    for (let $up = $one; $up; $up = $up.parentElement) {
      const { backgroundColor } = getComputedStyle($up)
      if (solid(backgroundColor)) return backgroundColor
    }
    return 'rgb(255, 255, 255)'
  }
  // All colours that a word of a drawing stands on, at three places of it.
  const below = ($text) => {
    const style = getComputedStyle($text)
    if (style.paintOrder.startsWith('stroke') && solid(style.stroke)) return [style.stroke]
    const $svg = $text.ownerSVGElement
    const shapes = [...$svg.querySelectorAll('path, rect, circle, ellipse, polygon, line, polyline')].filter(($one) => !$one.closest('defs, pattern, clipPath') && $one.compareDocumentPosition($text) & Node.DOCUMENT_POSITION_FOLLOWING)
    const box = $text.getBBox()
    return [0.1, 0.5, 0.9].flatMap((share) => {
      const at = new DOMPoint(box.x + box.width * share, box.y + box.height / 2).matrixTransform($text.getScreenCTM())
      const here = []
      for (const $shape of shapes.reverse()) {
        const inner = at.matrixTransform($shape.getScreenCTM().inverse())
        const { fill, stroke, strokeWidth } = getComputedStyle($shape)
        if (solid(stroke) && parseFloat(strokeWidth) >= 3 && $shape.isPointInStroke(inner)) { here.push(stroke); break }
        if (!$shape.isPointInFill(inner)) continue
        const hatch = fill.match(/url\("?#([^")]+)/)
        if (hatch) here.push(...[...document.getElementById(hatch[1])?.querySelectorAll('*') ?? []].flatMap(($line) => [getComputedStyle($line).stroke, getComputedStyle($line).fill]).filter(solid))
        if (solid(fill)) { here.push(fill); break }
      }
      shapes.reverse()
      return here.length > 0 && !here.some((one) => one.startsWith('url')) ? here : [under($svg.parentElement)]
    })
  }
  const measured = ($one) => {
    const inDrawing = Boolean($one.ownerSVGElement)
    const style = getComputedStyle($one)
    const worst = Math.min(...(inDrawing ? below($one) : [under($one)]).map((ground) => ratio(inDrawing ? style.fill : style.color, ground)))
    return worst >= 4.5 ? null : `contrast ${worst.toFixed(2)}`
  }
  // A sign has no letters that its name could differ from.
  const wordless = ($one) => !/[\p{L}\p{N}]/u.test($one.innerText ?? '')
  const settled = (id, { element }) => (id === 'color-contrast' ? measured(element) === null : id === 'label-content-name-mismatch' && wordless(element))
  const left = incomplete.map(({ id, help, nodes }) => ({ id, help, nodes: nodes.filter((node) => !settled(id, node)) })).filter(({ nodes }) => nodes.length > 0)
  const say = (kind) => ({ id, help, nodes }) => `${kind} ${id} (${help}): ${nodes.slice(0, 3).map((node) => `${node.html.slice(0, 160)} ${id === 'color-contrast' ? measured(node.element) : ''} ${[...node.any, ...node.all, ...node.none].map((check) => check.message).join('; ').slice(0, 240)}`).join(' | ')}`
  return {
    found: [...violations.map(say('axe')), ...left.map(say('axe cannot tell'))],
    passed: passes.map(({ id }) => id),
    nodes: passes.reduce((sum, { nodes }) => sum + nodes.length, 0),
  }
})()
