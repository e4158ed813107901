// @ts-check
import { h } from './dom.js'
import { words } from '../words.js'

const SVG = 'http://www.w3.org/2000/svg'
const DRAWN = Object.freeze({
  holds: [['M2 12h60v9H2z', true], ['M12 21v23M52 21v23M5 44h14M45 44h14', false]],
  close: [['M2 12h60v9H2z', true], ['M12 21v23M52 21v23M5 44h14M45 44h14M20 26l-4 6M28 26l-4 6M36 26l-4 6M44 26l-4 6', false]],
  does_not_hold: [['M2 12l28 14-3 8L1 21zM62 12L34 28l3 7 26-14z', true], ['M12 24v20M52 24v20M5 44h14M45 44h14', false]],
  needs_own_design: [['M2 12h60v9H2z', false], ['M12 21v23M52 21v23M5 44h14M45 44h14M28 30c0-6 8-6 8-1 0 4-4 4-4 8M32 41v2', false]],
})

/**
 * The answer in words, repeated by a beam on two supports: whole, hatched near its limit, broken beyond it.
 * @param {keyof typeof DRAWN} standing @param {string} line @param {string} [title]
 */
export function standingView(standing, line, title) {
  const text = title ?? words.standing[standing]
  if (!text) throw new TypeError(`Unknown standing: ${standing}`)
  const $svg = document.createElementNS(SVG, 'svg')
  $svg.setAttribute('viewBox', '0 0 64 48')
  $svg.setAttribute('aria-hidden', 'true')
  for (const [d, filled] of DRAWN[standing]) {
    const $path = document.createElementNS(SVG, 'path')
    $path.setAttribute('d', String(d))
    $path.setAttribute('class', filled ? 'steel' : 'line')
    if (!filled) $path.setAttribute('stroke-width', '3')
    $svg.append($path)
  }
  const bad = standing === 'does_not_hold' || standing === 'needs_own_design'
  return h('section', { class: `standing sketch ${bad ? 'bad' : ''}`, 'aria-label': words.answer }, $svg, h('div', {}, h('strong', {}, text), line))
}
