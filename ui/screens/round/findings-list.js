// @ts-check
import { h } from '../../parts/dom.js'
import { site } from '../../parts/site.js'
import { roundWords } from '../../words.js'

/** What stands open, as a list that leads to each. */
export function openFindings() {
  const open = (site.state?.findings ?? []).filter((/** @type {any} */ one) => one.open)
  return h('section', { class: 'openlist' },
    open.length > 0 && h('h2', {}, roundWords.standsOpen(open.length)),
    open.length > 0 && h('ul', { class: 'plainlist' }, open.map((/** @type {any} */ one) => h('li', {}, h('a', { href: `#${site.id}/findings` }, one.stops && h('b', { class: 'stopword' }, `${roundWords.stopShort} `), one.words)))),
    h('a', { class: 'small seen', href: `#${site.id}/findings` }, roundWords.seenSomething))
}
