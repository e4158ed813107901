// @ts-check
import { termWords, words } from '../words.js'
import { h, s } from './dom.js'

/** The trade's own terms, each by a small drawing and one sentence, one touch away from where they are used. */

/** @typedef {keyof typeof termWords.terms} Term */

const line = (/** @type {string} */ d) => s('path', { class: 'line', d })
const thin = (/** @type {string} */ d) => s('path', { class: 'thin', d })
const steel = (/** @type {string} */ d) => s('path', { class: 'steel', d })
const board = (/** @type {string} */ d) => s('path', { class: 'board', d })
const wash = (/** @type {string} */ d) => s('path', { class: 'wash', d })
const cut = (/** @type {string} */ d) => s('path', { class: 'cut', 'stroke-dasharray': '5 4', d })
const asked = (/** @type {string} */ d) => s('path', { class: 'ring', d })

const LEAVES = () => [wash('M38 4h8v34h-8zM50 4h8v34h-8z'), line('M38 4v34M46 4v34M50 4v34M58 4v34'), thin('M38 12h8M38 20h8M38 28h8M50 12h8M50 20h8M50 28h8')]
const GROUND = () => line('M4 68h88')
const FRONT = () => [wash('M6 4h84v22H6z'), line('M6 4v64M90 4v64'), cut('M24 68V26h48v42'), GROUND()]

/** A small drawing of each; the part that is meant carries a ring. @type {Readonly<Record<string, () => any>>} */
const ART = Object.freeze({
  needle: () => [LEAVES(), steel('M14 38h68v7H14z'), steel('M22 45h4v20h-4zM70 45h4v20h-4z'), GROUND(), asked('M10 33h76v17H10z')],
  prop: () => [steel('M26 8h44v6H26z'), steel('M46 14h4v24h-4z'), steel('M45 36h6v27h-6z'), line('M40 14h16M40 63h16M40 38h16'), board('M34 63h28v5H34z'), GROUND(), asked('M36 12h24v54H36z')],
  leaf: () => [LEAVES(), GROUND(), asked('M35 2h14v40H35z')],
  jamb: () => [FRONT(), asked('M18 24h12v46H18z')],
  sole_board: () => [steel('M46 8h4v46h-4z'), line('M38 54h20'), board('M22 54h52v12H22z'), GROUND(), asked('M17 50h62v20H17z')],
  pack: () => [wash('M30 4h36v24H30z'), line('M30 4v24h36V4'), board('M34 28h28v5H34z'), steel('M18 40h60v10H18z'), board('M34 40l28-5v5zM62 33l-28 4v-4z'), asked('M30 25h36v18H30z')],
  wedge: () => [wash('M30 4h36v22H30z'), line('M30 4v22h36V4'), board('M26 38l44-8v8z'), board('M70 27l-44 8v-8z'), steel('M18 38h60v12H18z'), asked('M22 24h52v17H22z')],
  brace: () => [steel('M20 8h4v58h-4zM72 8h4v58h-4z'), line('M24 58L72 18'), line('M16 12h64'), GROUND(), asked('M30 34l20-18 14 12-22 22z')],
  raker: () => [wash('M40 4h12v30H40z'), line('M40 4v30M52 4v30'), steel('M22 34h48v6H22zM26 40h4v26h-4zM62 40h4v26h-4z'), line('M66 42L88 66'), board('M84 62h8v5h-8z'), GROUND(), asked('M64 38l28 22v10h-14z')],
  lacing: () => [steel('M16 10h4v56h-4zM46 10h4v56h-4zM76 10h4v56h-4z'), line('M10 18h76M10 58h76'), GROUND(), asked('M8 12h80v12H8z')],
  header: () => [line('M8 12h80M8 18h80'), thin('M20 12v6M34 12v6M48 12v6M62 12v6M76 12v6'), board('M10 20h76v9H10z'), steel('M22 29h4v36h-4zM70 29h4v36h-4z'), GROUND(), asked('M6 17h84v15H6z')],
  bracket: () => [wash('M38 2h16v28H38z'), line('M38 2v28h16V2'), steel('M42 30h30v5H42z'), steel('M66 30h5v34h-5z'), line('M60 66h16'), GROUND(), asked('M38 27h38v14H38z')],
  underside: () => [LEAVES(), steel('M14 38h68v7H14z'), s('path', { class: 'dim', d: 'M88 45v23M84 45h8M84 68h8' }), GROUND(), asked('M10 43h76v5H10z')],
})

/** The terms that are explained, in their order. */
export const TERMS = /** @type {Term[]} */ (Object.keys(termWords.terms))

/** @param {Term} term */
const picture = (term) => s('svg', { class: 'termpic', viewBox: '0 0 96 72', 'aria-hidden': 'true', focusable: 'false' }, ART[term]?.())

/** All terms over the page, with the asked one first in view. @param {Term} first */
export function showTerms(first) {
  const $list = h('div', { class: 'termlist' }, TERMS.map((term) => h('section', { id: `term-${term}`, tabindex: '-1' }, h('div', { class: 'drawing' }, picture(term)), h('div', {}, h('h3', {}, termWords.names[term]), h('p', {}, termWords.terms[term])))))
  const $dialog = h('dialog', { class: 'sheet terms', 'aria-label': termWords.title }, h('div', { class: 'title' }, h('h2', {}, termWords.title)), h('div', { class: 'scroll', tabindex: '0' }, $list),
    h('button', { class: 'do', type: 'button', onclick: () => $dialog.close() }, words.close))
  $dialog.addEventListener('close', () => $dialog.remove())
  document.body.append($dialog)
  $dialog.showModal()
  const $first = $dialog.querySelector(`#term-${first}`)
  if ($first instanceof HTMLElement) {
    $first.scrollIntoView({ block: 'start' })
    $first.focus({ preventScroll: true })
  }
}

/** A row of terms that stand in the part above it. @param {Term[]} terms */
export function termsRow(terms) {
  return h('div', { class: 'termsrow', role: 'group', 'aria-label': termWords.row }, terms.map((term) => h('button', { type: 'button', class: 'termbutton', 'aria-label': termWords.ask(termWords.names[term]), onclick: () => showTerms(term) }, h('span', { class: 'drawing' }, picture(term)), termWords.names[term])))
}
