// Body of a function: every number with a length, force, pressure, mass or speed on Support, with what it opens. Left out are
// what somebody types or sets, how to find it out, and the drawings, whose figures stand in the tables.
const unit = /\d\s?(kN|kPa|mm|m|kg|t|N\/mm²|m\/s|km\/h)(?![A-Za-z])/
const bad = []; let seen = 0
const walk = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT)
const block = new Set()
while (walk.nextNode()) block.add(walk.currentNode.parentElement)
for (const el of block) {
  if (el.closest('.field, .hint, .drawing, .planning, .slider, .losable, option, .problems, legend, [hidden]')) continue
  const text = el.textContent
  if (!unit.test(text) && !(/^(kN per m|kN|mm from the wall)$/.test(text.trim()))) continue
  seen += 1
  const why = el.closest('[data-why]')
  const steps = why ? [...why.querySelectorAll('.steps')].find((one) => one.closest('[data-why]') === why) : null
  const source = steps?.nextElementSibling
  if (!steps || steps.children.length < 2 || !source?.matches('.source') || !source.textContent.includes(', ')) bad.push((why ? `[${steps?.children.length}] ` : '[none] ') + text.slice(0, 110))
}
return { seen, bad }
