// Words of buttons, tiles and answers that are broken within, where nobody gave them a place to break.
(() => {
  const found = []
  const lines = ($text, from, to, boxes) => {
    const range = document.createRange()
    range.setStart($text, from)
    range.setEnd($text, to)
    return boxes([...range.getClientRects()]).map((box) => Math.round(box.top))
  }
  for (const $one of document.querySelectorAll('button, .tile, .answers label, .bar a, .thumbs > *, legend, h1, .answerlist .what')) {
    const walk = document.createTreeWalker($one, NodeFilter.SHOW_TEXT)
    while (walk.nextNode()) {
      const $text = walk.currentNode
      if (!$text.parentElement.checkVisibility()) continue
      for (const word of $text.textContent.matchAll(/[\p{L}]{4,}/gu)) {
        if (new Set(lines($text, word.index, word.index + word[0].length, (boxes) => boxes)).size < 2) continue
        // A letter behind a soft hyphen also has the hyphen's own box, on the line before.
        const tops = [...word[0]].flatMap((_, at) => lines($text, word.index + at, word.index + at + 1, (boxes) => boxes.slice(-1)))
        if (new Set(tops).size > 1) found.push(word[0])
      }
    }
  }
  return found
})()
