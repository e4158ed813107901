// @ts-check
import { h, put } from '../../parts/dom.js'
import { aboutWords as say, words } from '../../words.js'
import { licences } from '../../words/en/licences.js'

/** What happens to what is typed, and what the app is built from. @param {HTMLElement} $main */
export function aboutScreen($main) {
  put($main, h('h2', {}, say.privacy), say.lines.map((line) => h('p', {}, line)),
    h('h2', {}, say.licences), h('p', {}, say.licencesLine(licences.length)),
    h('details', { class: 'fold' }, h('summary', { 'data-open': words.open, 'data-close': words.shut }, say.licences), h('div', {},
      h('table', {}, h('thead', {}, h('tr', {}, say.columns.map((name) => h('th', { scope: 'col' }, name)))),
        h('tbody', {}, licences.map((row) => h('tr', {}, row.map((text) => h('td', {}, text)))))))))
}
