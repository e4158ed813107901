// @ts-check
import { choices } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { rows, site } from '../../parts/site.js'
import { startWords } from '../../words.js'
import { answered, joists, openPages, strange, strangeAsked, strangeOpen } from './asked.js'
import { fieldLink, plainValue } from './parts.js'
import { note, pageOf, pages, said, storeys, storeysKnown, taken, takenOn, typed } from './state.js'
import { wallKind } from './wall-kinds.js'

/** All answers at a glance: what was said, what stands there from the house type, what is still open. */

/** @typedef {import('./state.js').Page} Page */

/** @param {string} path */
const length = (path) => { const text = typed(path); return text && (/[a-z'"]/i.test(text) ? text : `${text} m`) }

/** @param {Page} page @returns {string} */
function value(page) {
  const { values } = startWords
  switch (page) {
    case 'house': return note('house') ? startWords.houses[/** @type {'none'} */ (note('house'))] : ''
    case 'width': return length('/opening/width_m')
    case 'head': return length('/opening/head_m')
    case 'wall': return [startWords.walls[/** @type {'solid'} */ (wallKind())], rows('/wall/leaves/').map((i) => typed(`/wall/leaves/${i}/thickness_mm`)).filter(Boolean).join(' + ') + (rows('/wall/leaves/').length ? ` ${values.mm}` : '')].filter(Boolean).join(', ')
    case 'storeys': return storeysKnown() ? values.storeys(storeys()) : ''
    case 'floors': return rows('/above/').map((i) => joists(i) && startWords.floors[/** @type {'onto'} */ (joists(i))]).filter(Boolean).join(', ')
    case 'roof': return startWords.roofs[/** @type {'true'} */ (said('roof') === 'unsure' ? 'unsure' : typed('/roof/bears'))] ?? ''
    case 'windows': { const n = rows('/above/').flatMap((i) => rows(`/above/${i}/openings/`)).length; return n > 0 ? values.windows(n) : note('windows') === 'none' ? values.noWindows : '' }
    case 'sides': return [length('/opening/left_masonry_m'), length('/opening/right_masonry_m')].filter(Boolean).join(' · ')
    case 'feet': return ['inside', 'outside'].map((side) => choices.foot.find(([one]) => one === typed(`/sides/${side}/foot/kind`))?.[1]).filter(Boolean).join(' · ')
    case 'beam': return startWords.beams[/** @type {'true'} */ (typed('/opening/flush'))] ?? ''
    case 'strange': {
      const open = strangeAsked().filter((key) => strangeOpen(key)).length
      const heed = strangeAsked().filter((key) => !strangeOpen(key) && strange(key) !== 'no').length
      return open + heed === 0 ? values.nothing : values.things(heed, open)
    }
  }
}

/** @param {Page} page */
function mark(page) {
  if (said(page) === 'unsure') return startWords.unsureMark
  if (takenOn(page).length > 0) return startWords.takenMark
  return answered(page) ? '' : startWords.openMark
}

export function summary() {
  const open = openPages()
  const others = taken().filter((path) => pageOf(path) === null)
  return [
    h('p', { class: open.length > 0 ? 'warn' : '' }, open.length > 0 ? startWords.lead.open : startWords.lead.done),
    h('ul', { class: 'answerlist' }, pages().map((page, i) => h('li', {}, h('a', { href: `#${site.id}/start/${page}`, class: answered(page) ? '' : 'open' },
      h('span', { class: 'no' }, String(i + 1)), h('span', { class: 'what' }, startWords.short[page]), h('span', { class: 'val' }, value(page) || '–'), mark(page) && h('span', { class: 'mark' }, mark(page)))))),
    others.length > 0 && h('section', { class: 'others' }, h('h2', {}, startWords.others), h('p', { class: 'hint' }, startWords.othersLine), h('ul', { class: 'answerlist' }, others.filter((path) => plainValue(path)).map((path) => h('li', {}, fieldLink(path))))),
  ]
}
