// @ts-check
import { h, put, s } from '../../parts/dom.js'
import { flush } from '../../parts/site.js'
import { fold } from '../../parts/why.js'
import { measureWords as words } from '../../words.js'
import { EDGES, addEdge, dropEdge, edges, edgesPx, nameOf, withSpot } from './state.js'

/** Straight edges that show how the lens bends, for whoever wants a smaller ±. Nobody needs them, so they lie folded. */

/** @typedef {{mm: number, plus_minus_mm: number}} Read */

/** @param {() => void} changed */
export function lensView(changed) {
  const $rows = h('div', {})
  const $effect = h('div', { 'aria-live': 'polite' })
  const $add = h('button', { type: 'button', class: 'ask', onclick: () => then(addEdge) }, words.addEdge)
  const then = (/** @type {() => void} */ change) => {
    change()
    flush()
    draw()
    changed()
    if (edges().some(({ points }) => points.some((point) => !point))) document.querySelector('.taps')?.scrollIntoView({ block: 'center' })
  }
  const draw = () => {
    const list = edges()
    $add.disabled = list.length >= EDGES
    put($rows, list.map(({ row, points }, n) => {
      const open = points.filter((point) => !point).length
      const name = words.edge(n + 1)
      return h('div', { class: 'onerow', role: 'group', 'aria-label': name },
        h('div', { class: 'rowname' }, h('strong', {}, name), h('button', { type: 'button', class: 'small', 'aria-label': `${words.takeOut}: ${name}`, onclick: () => then(() => dropEdge(row)) }, words.takeOut)),
        h('p', { class: 'hint' }, open > 0 ? words.notWhole(open) : words.edgeTapped(points.length)),
        open === 0 && h('button', { type: 'button', class: 'ask', 'aria-label': `${words.edgeMore}: ${name}`, onclick: () => then(() => withSpot(row)) }, words.edgeMore))
    }))
  }
  draw()
  return {
    $view: h('section', { class: 'lens' }, fold(words.edgesFold, [picture(), h('p', {}, words.edgesAsk), h('p', { class: 'hint' }, words.edgesHint), $rows, $add, $effect], edges().length > 0, 'edges')),
    draw,
    /** What the edges change. @param {any} now @param {any} before the same without them, or null */
    show(now, before) { put($effect, edgesPx().length > 0 && before?.lens && now?.lens && effect(now, before)) },
  }
}

/** @param {any} now @param {any} before */
function effect(now, before) {
  const percent = (/** @type {any} */ answer) => (answer.lens.plus_minus * 100).toFixed(1)
  if (!now.lens.from_edges) return h('p', { class: 'doubt' }, words.edgesNoHelp)
  const size = (/** @type {any} */ read) => /** @type {Read|undefined} */ (read?.length ?? read?.sizes?.width)
  const rows = ['lengths', 'rectangles', 'levels'].flatMap((list) => now[list].map((/** @type {any} */ read) => {
    const [small, large] = [read, before[list].find((/** @type {any} */ one) => one.name === read.name)].map(size)
    return small && h('li', {}, words.edgeChanges(nameOf(Number(read.name)), large ? Math.ceil(large.plus_minus_mm) : null, Math.ceil(small.plus_minus_mm)))
  })).filter(Boolean)
  return [h('p', { class: 'said' }, words.edgeLens(percent(before), percent(now))), rows.length > 0 && h('ul', {}, rows)]
}

/** A door frame as a lens may bend it, with three spots along one edge; what is straight in truth is dashed. */
function picture() {
  const spot = (/** @type {number} */ x, /** @type {number} */ y) => s('path', { class: 'spot', d: `M${x - 9} ${y}H${x + 9}M${x} ${y - 9}V${y + 9}` })
  return h('div', { class: 'drawing lenspicture' }, s('svg', { viewBox: '0 0 320 116', role: 'img', 'aria-label': words.edgesPicture },
    s('rect', { class: 'frame', x: 4, y: 4, width: 312, height: 108 }), s('path', { class: 'true', d: 'M24 38H296' }),
    s('path', { class: 'bent', d: 'M24 38Q160 2 296 38V108M24 38V108' }), spot(34, 35.5), spot(160, 20), spot(286, 35.5)))
}
