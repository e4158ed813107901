// @ts-check
import { h, put } from '../../parts/dom.js'
import { headline, openLine } from '../../parts/frame.js'
import { mass, number } from '../../parts/numbers.js'
import { showProblems } from '../../parts/problems.js'
import { flush, site } from '../../parts/site.js'
import { startWords, words } from '../../words.js'
import { filled, openPages, settle, standingSoFar } from './asked.js'
import { feetQuestion, strangeQuestion, windowsQuestion } from './last.js'
import { how, takenHere } from './parts.js'
import { beamQuestion, floorsQuestion, headQuestion, houseQuestion, roofQuestion, sidesQuestion, storeysQuestion, wallQuestion, widthQuestion } from './questions.js'
import { note, pages, remember, said, takenOn } from './state.js'
import { summary } from './summary.js'

/** From an empty job to a first proposal: one question to a page, kept at once, going on where it stopped. */

/** @typedef {import('./state.js').Page} Page */

/** @type {Readonly<Record<Page, (again: () => void) => import('./questions.js').Asked>>} */
const QUESTIONS = Object.freeze({
  house: houseQuestion, width: widthQuestion, head: headQuestion, wall: wallQuestion, storeys: storeysQuestion, floors: floorsQuestion, roof: roofQuestion,
  windows: windowsQuestion, sides: sidesQuestion, feet: feetQuestion, beam: beamQuestion, strange: strangeQuestion,
})

/**
 * The weight when a page was opened, so that it can say what it changed. Until the page is touched, a new figure is still
 * the work of the page before it.
 * @type {{page: string, kn: number|null, touched: boolean}}
 */
let before = { page: '', kn: null, touched: false }

/** @returns {Page|'all'} the page that the address names, else where work stopped */
function pageNow() {
  const named = decodeURIComponent(location.hash.slice(1)).split('/')[2] || note('at')
  const list = /** @type {string[]} */ (pages())
  if (named === 'all') return 'all'
  return /** @type {Page} */ (list.includes(named) ? named : list[0])
}

/**
 * @param {{$head: HTMLElement, $main: HTMLElement, $strip: HTMLElement, $row: HTMLElement}} where @param {() => void} again
 * @returns {() => void}
 */
export function startScreen({ $head, $main, $strip, $row }, again) {
  const page = pageNow()
  const list = pages()
  const at = page === 'all' ? list.length : list.indexOf(page)
  remember('at', page)
  remember('left', null)
  if (before.page !== `${site.id} ${page}`) before = { page: `${site.id} ${page}`, kn: site.figures?.proposal?.load.mean_service_kn_m ?? null, touched: false }
  for (const event of ['pointerdown', 'keydown']) $main.addEventListener(event, () => { before.touched = true }, true)
  const $title = h('h1', { id: 'question', tabindex: '-1' }, startWords.questions[page])
  put($head, site.demo && h('p', { class: 'demo' }, words.demo),
    headline(), openLine(),
    h('div', { class: 'progress' }, h('p', {}, page === 'all' ? startWords.title : startWords.progress(at + 1, list.length)), h('div', { class: 'ruler', 'aria-hidden': 'true' }, list.map((one, i) => h('i', { class: i === at ? 'now' : said(one) || (one === 'strange' && filled(one)) ? 'done' : '' })))), $title)
  const asked = page === 'all' ? null : QUESTIONS[page](again)
  const $taken = h('div', {})
  const $body = h('div', { class: 'question' })
  $main.append($body)
  if (asked && page !== 'all') put($body, startWords.hint[page] && h('p', { class: 'hint' }, startWords.hint[page]), $taken, asked.$view, how(page))
  else put($body, ...[summary()].flat())
  put($body, ...$body.childNodes, h('p', { class: 'ways' }, page !== 'all' && h('a', { href: `#${site.id}/start/all` }, startWords.all), h('a', { href: `#${site.id}/wall`, onclick: () => remember('left', 'yes') }, startWords.onePage)))
  const to = (/** @type {string} */ next) => { flush(); location.hash = `#${site.id}/start/${next}` }
  const onwards = () => {
    // What stands there is what is meant, once somebody goes on from it.
    if (page !== 'all' && !said(page) && filled(page)) remember(`said/${page}`, 'yes')
    settle()
    to(list[at + 1] ?? 'all')
  }
  const $next = h('button', { type: 'button', class: 'next', onclick: onwards })
  put($row, h('div', { class: 'steps2' }, h('button', { type: 'button', class: 'before', onclick: () => (at === 0 ? (location.hash = '#') : to(list[at - 1])) }, at === 0 ? words.toJobs : startWords.back),
    page === 'all' ? h('a', { class: 'next', href: `#${site.id}/support` }, openPages().length > 0 ? startWords.seeLoads : startWords.see) : $next))
  return () => {
    settle()
    asked?.update?.()
    if (page !== 'all') {
      put($taken, takenHere(page))
      $next.textContent = takenOn(page).length > 0 && filled(page) ? startWords.confirm : at === list.length - 1 ? startWords.toAll : startWords.next
    }
    showProblems(h('div', {}))
    put($strip, ...strip())
  }
}

/** What the answers make of the wall so far: its weight, what this page changed, and the standing once everything is asked. */
function strip() {
  const { proposal = null, problems = [] } = site.figures ?? {}
  const { standing, why } = standingSoFar()
  const open = openPages().length
  const kn = proposal?.load.mean_service_kn_m ?? null
  if (!before.touched) before.kn = kn
  const change = kn !== null && before.kn !== null ? kn - before.kn : null
  const wrong = problems.some((problem) => problem.wrong !== 'missing')
  const said = standing ? words.standingShort[standing] : startWords.toGo(open)
  return [h('div', { class: `to sofar ${standing ? `to--${standing}` : ''}` },
    kn === null ? h('span', { class: 'hint' }, wrong ? startWords.wrongBefore : startWords.before) : h('span', {}, h('b', {}, number(kn)), ` ${words.perMetre(mass(kn))}`),
    h('span', { class: standing ? 'short' : 'togo', title: why || undefined }, said),
    change !== null && Math.abs(change) >= 0.05 && h('span', { class: 'change' }, startWords.by(`${change > 0 ? '+' : '−'}${number(Math.abs(change))}`)),
    why && h('span', { class: 'whyline' }, why))]
}
