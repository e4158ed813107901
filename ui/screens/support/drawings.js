// @ts-check
import { drawing, h, put, s } from '../../parts/dom.js'
import { showDrawing } from '../../parts/large-drawing.js'
import { TERMS, termsRow } from '../../parts/terms.js'
import { fold, opens } from '../../parts/why.js'
import { supportWords } from '../../words.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').Sketches} Sketches */
/** @typedef {(of: string) => import('../../parts/types.js').Derived|null} From */

/** How near a touch must be to a needle, in units of the drawing. */
const NEAR = 26

/** What is lost in the drawing on show; it stays while figures change. */
let lost = ''

/** One drawing with its title and the way to enlarge it. @param {string} title @param {string|null|undefined} svg @param {string} standing @param {(svg: SVGSVGElement) => void} [made] */
export function sketch(title, svg, standing, made) {
  if (!svg) return null
  const $drawing = drawing(svg)
  const $svg = $drawing.querySelector('svg')
  if ($svg && made) made($svg)
  const enlarge = () => showDrawing(title, /** @type {Element} */ ($drawing.cloneNode(true)), standing)
  return h('figure', { class: 'sketch' }, h('figcaption', {}, title), $drawing, h('button', { class: 'small', type: 'button', 'aria-label': `${supportWords.enlarge}: ${title}`, onclick: enlarge }, supportWords.enlarge))
}

/**
 * Front, section and plan; a touch on a needle, or its button, takes it away and shows what then carries.
 * @param {Sketches} drawn @param {Option} option @param {string} standing @param {From} from
 */
export function drawingsView(drawn, option, standing, from) {
  const $said = h('div', { role: 'status', class: 'lostsaid' })
  const all = option.one_lost
  if (!all.some((one) => one.lost === lost)) lost = ''
  /** @type {SVGSVGElement[]} */
  const sheets = []
  const $buttons = h('div', { class: 'answers losable', role: 'group', 'aria-label': supportWords.loseOne, 'data-count': 6 })
  const show = () => {
    const one = all.find((each) => each.lost === lost)
    for (const $svg of sheets) mark($svg, lost, one?.worst ?? '')
    for (const $button of $buttons.querySelectorAll('button')) $button.setAttribute('aria-pressed', String($button.dataset.lost === lost))
    put($said, one && opens(one.words, from(`lost ${one.lost}`), `lost ${one.lost}`, { kind: one.utilisation === null || one.utilisation > 1 ? 'wrong' : '' }), one && option.standing === 'does_not_hold' && h('p', { class: 'warn' }, supportWords.lostNotEven), one && h('p', { class: 'soft' }, supportWords.lostKey))
  }
  const lose = (/** @type {string} */ name) => { lost = lost === name ? '' : name; show() }
  put($buttons, all.map((one) => h('button', { type: 'button', class: 'count', 'data-lost': one.lost, 'aria-pressed': 'false', onclick: () => lose(one.lost) }, one.lost)))
  const touched = (/** @type {SVGSVGElement} */ $svg) => {
    sheets.push($svg)
    $svg.addEventListener('click', (event) => {
      const name = nearest($svg, event, all.map((one) => one.lost))
      if (name) lose(name)
    })
  }
  const $view = h('div', { class: 'drawn' },
    h('div', { class: 'sketches' }, sketch(supportWords.front, drawn.front, standing, touched),
      all.length > 0 && h('div', {}, h('p', { class: 'hint' }, supportWords.loseOne), $buttons, $said),
      sketch(option.kind === 'brackets' ? supportWords.sideBracket : supportWords.side, drawn.side, standing), sketch(supportWords.above, drawn.plan, standing, touched)),
    fold(supportWords.symbols, () => termsRow(TERMS)))
  // Boxes can be measured only once the drawing is on the page.
  requestAnimationFrame(show)
  return $view
}

/** The part nearest to a touch along the wall. @param {SVGSVGElement} $svg @param {MouseEvent} event @param {string[]} names */
function nearest($svg, event, names) {
  const matrix = $svg.getScreenCTM()
  if (!matrix) return ''
  const { x } = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse())
  const far = (/** @type {string} */ name) => {
    const $part = partOf($svg, name)[0]
    if (!$part) return Infinity
    const { x: left, width } = $part.getBBox()
    return Math.abs(left + width / 2 - x)
  }
  const [first] = names.map((name) => ({ name, far: far(name) })).sort((a, b) => a.far - b.far)
  return first && first.far <= NEAR ? first.name : ''
}

/** A support with what belongs to it: N1, N1-in, N1-out. @param {SVGSVGElement} $svg @param {string} name @returns {SVGGraphicsElement[]} */
function partOf($svg, name) {
  const all = /** @type {NodeListOf<SVGGraphicsElement>} */ ($svg.querySelectorAll('[data-part]'))
  return name === '' ? [] : [...all].filter(($part) => $part.dataset.part === name || $part.dataset.part?.startsWith(`${name}-`))
}

/** What is gone is pale with a cross over it; what is then used most wears a ring. @param {SVGSVGElement} $svg @param {string} gone @param {string} worst */
function mark($svg, gone, worst) {
  for (const $old of $svg.querySelectorAll('.mark')) $old.remove()
  for (const $part of $svg.querySelectorAll('.gone')) $part.classList.remove('gone')
  const lostParts = partOf($svg, gone)
  for (const $part of lostParts) $part.classList.add('gone')
  const cross = around(lostParts)
  if (cross) $svg.append(s('path', { class: 'mark cross', d: `M${cross.a} ${cross.b}L${cross.c} ${cross.d}M${cross.c} ${cross.b}L${cross.a} ${cross.d}` }))
  const ring = around(worst === gone ? [] : partOf($svg, worst))
  if (ring) $svg.append(s('rect', { class: 'mark ring', x: ring.a, y: ring.b, width: ring.c - ring.a, height: ring.d - ring.b }))
}

/** What holds all of them, with a little room; names are left out. @param {SVGGraphicsElement[]} parts */
function around(parts) {
  const boxes = parts.flatMap(($part) => [...$part.querySelectorAll('path')]).map(($path) => /** @type {SVGPathElement} */ ($path).getBBox())
  if (boxes.length === 0) return null
  const least = (/** @type {(box: DOMRect) => number} */ of) => Math.min(...boxes.map(of))
  const most = (/** @type {(box: DOMRect) => number} */ of) => Math.max(...boxes.map(of))
  return { a: least((box) => box.x) - 4, b: least((box) => box.y) - 4, c: most((box) => box.x + box.width) + 4, d: most((box) => box.y + box.height) + 4 }
}
