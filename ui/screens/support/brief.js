// @ts-check
import { h } from '../../parts/dom.js'
import { letter } from '../../parts/letter.js'
import { shareButton } from '../../parts/share.js'
import { supportWords } from '../../words.js'
import { readOut } from './hire.js'

/** What goes to the engineer: to be read here, sent as text, or saved as a PDF with the photos. */

/** @param {import('../../parts/types.js').Brief} brief @param {() => void} save @param {HTMLElement} $saved */
export function briefView(brief, save, $saved) {
  const sections = () => brief.sections.map((section) => [section.heading, ...section.lines])
  return h('section', {}, h('h2', {}, supportWords.brief), h('p', { class: 'hint' }, supportWords.briefHint),
    h('button', { class: 'ask', type: 'button', onclick: () => readOut([brief.title, '', ...sections().flatMap((lines) => [...lines, ''])].join('\n'), supportWords.brief) }, supportWords.readBrief),
    h('button', { class: 'ask', type: 'button', onclick: save }, supportWords.saveBrief), $saved,
    shareButton(supportWords.shareBrief, brief.title, () => letter([[brief.title], ...sections()])))
}
