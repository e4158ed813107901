// @ts-check
import { app, failureText } from '../../bridge.js'
import { fieldText } from '../../fields.js'
import { h, put } from '../../parts/dom.js'
import { percent } from '../../parts/numbers.js'
import { linkTo } from '../../parts/problems.js'
import { jobFields, site } from '../../parts/site.js'
import { fold, opens } from '../../parts/why.js'
import { supportWords, words } from '../../words.js'

/** @typedef {import('../../parts/types.js').Helps} Helps */

/** What was found for which figures: drawn anew, the page asks nothing twice. @type {{figures: any, found: Helps|null}} */
let last = { figures: null, found: null }

/**
 * What would help, found by trying. It takes dozens of searches, so it is asked for when somebody opens it; nothing above or
 * beside it moves when it arrives.
 * @param {import('../../parts/types.js').Proposal} proposal
 */
export function helpsView({ standing }) {
  if (standing !== 'does_not_hold' && standing !== 'close') return null
  return fold(supportWords.helpsTitle, () => {
    const $in = h('div', { class: 'helps', role: 'status' })
    fill($in)
    return $in
  }, false, 'helps')
}

/** @param {HTMLElement} $in */
async function fill($in) {
  const { figures } = site
  if (last.figures === figures) { put($in, foundView(last.found)); return }
  put($in, h('p', { class: 'soft' }, supportWords.helpsTrying))
  try {
    const found = await app.tryHelps(jobFields())
    // Something was changed meanwhile: the page that is drawn for it asks again.
    if (figures !== site.figures) return
    last = { figures, found }
    put($in, foundView(found))
  } catch (failure) { put($in, h('p', { class: 'wrong' }, failureText(failure))) }
}

/** @param {Helps|null} found */
function foundView(found) {
  if (!found) return h('p', {}, supportWords.helpsNone(0))
  if (found.helps.length === 0) return h('p', { class: 'warn' }, supportWords.helpsNone(found.tried))
  return [h('ol', { class: 'helplist' }, found.helps.map((one, i) => h('li', {},
    opens([one.words.length > 1 && h('span', { class: 'sentence' }, supportWords.helpsBoth), one.words.map((each) => h('strong', { class: 'sentence' }, each)), ' ', supportWords.helpsThen(words.standing[one.standing], percent(one.worst_utilisation)), one.standing === 'close' && one.away.length > 0 && h('span', { class: 'sentence' }, supportWords.helpsAway(one.away.join(' ')))], one, `help ${i}`),
    one.paths.map((path) => h('a', { class: 'helplink', href: linkTo(path) }, supportWords.change(fieldText(path, site.fields).full)))))),
  h('p', { class: 'soft' }, supportWords.helpsNote(found.tried))]
}
