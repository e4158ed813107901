// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { text } from '../../parts/field.js'
import { meField } from '../../parts/me.js'
import { dated, day, percent, time } from '../../parts/numbers.js'
import { clearBelow, flush, readAgain, site } from '../../parts/site.js'
import { closeWords as say } from '../../words.js'
import { MY_NAME } from '../emergency/people.js'
import { downView, lookView } from './down.js'

const ANYWAY = '/job/out/anyway'
const REASON = '/job/out/reason'

/** Taking the props out, the looks after it, the whole job in short, and closing it. @param {HTMLElement} $main @param {() => void} again */
export async function closeScreen($main, again) {
  const id = /** @type {string} */ (site.id)
  const $page = h('div', {})
  $main.append($page)
  try {
    const [told, due] = await Promise.all([app.summary(id), app.due(id)])
    /** Keeps something, and draws the page as it then stands. @param {() => Promise<any>} work @param {HTMLElement} $said */
    const keep = async (work, $said) => {
      try {
        await flush()
        await work()
        clearBelow('/job/out/')
        await flush()
        await readAgain()
        again()
      } catch (failure) { put($said, failureText(failure)); $said.scrollIntoView({ block: 'nearest' }) }
    }
    const out = site.state.taking_out
    const may = site.state.permits.some((/** @type {any} */ permit) => permit.code === 'permit_to_take_out' && permit.stands)
    put($page, told.closing ? closedView(told.closing, keep) : [
      h('p', { class: due.overdue ? 'wrong' : '' }, due.words),
      out.out_at ? lookView(due.after, told.gauges, keep) : may ? downView(out, told.gauges, keep) : [h('p', {}, say.none), h('a', { class: 'ask aslink', href: `#${id}/order` }, say.toOrder)],
    ], shortView(told), !told.closing && closingView(told, keep, !(out.out_at || may)))
  } catch (failure) { put($page, h('p', { class: 'wrong' }, failureText(failure))) }
}

const mine = () => (site.fields[MY_NAME] ?? '').trim()

/** @param {any} told */
function shortView(told) {
  const lines = [
    told.days ? say.days(day(`${told.days[0]}T12:00:00`), day(`${told.days[1]}T12:00:00`), told.rounds) : say.noRounds,
    say.missing(told.missing_days.map(dated)), say.findings(told.findings, told.closed),
    told.largest && say.largest(percent(told.largest.utilisation), told.largest.prop, time(told.largest.at)),
    ...told.permits, told.names.length > 0 && say.names(told.names), say.seals(told.seals.map((/** @type {any} */ seal) => `${seal.code}, ${dated(seal.at.slice(0, 10))}`)), say.photos(told.photos),
  ].filter(Boolean)
  const pair = (/** @type {any[]} */ two, /** @type {(one: any) => string} */ show) => two.map((one) => (one === null ? '–' : show(one))).join(' → ')
  return h('section', {}, h('h2', {}, say.short), h('ul', { class: 'plainlist' }, lines.map((line) => h('li', {}, line))),
    told.props.length > 0 && [h('h3', {}, say.table), h('p', { class: 'hint' }, say.tableHint),
      h('div', { class: 'sideways', tabindex: '0', role: 'group', 'aria-label': say.table }, h('table', { class: 'ends' }, h('thead', {}, h('tr', {}, say.heads.map((head) => h('th', { scope: 'col' }, head)))),
        h('tbody', {}, told.props.map((/** @type {any} */ prop) => h('tr', {}, h('td', {}, prop.prop),
          h('td', {}, pair(prop.lean_mm_m, (lean) => lean.map((/** @type {number} */ one) => String(Math.round(one) || 0)).join('/'))),
          h('td', {}, pair(prop.take_up_mm, (mm) => mm.toFixed(1))), h('td', {}, `${prop.down_mm.toFixed(1)}${prop.out ? `, ${say.out}` : ''}`))))))])
}

/** @param {any} told @param {(work: () => Promise<any>, $said: HTMLElement) => void} keep @param {boolean} asks whether nobody was asked for a name above */
function closingView(told, keep, asks) {
  const $said = h('p', { class: 'wrong', role: 'alert' })
  const against = told.against.length > 0
  const close = () => keep(() => app.closeJob(/** @type {string} */ (site.id), { name: mine(), anyway: (site.fields[ANYWAY] ?? '').trim() }), $said)
  return h('section', {}, h('h2', {}, say.close),
    against && [h('p', {}, h('strong', {}, say.against)), h('ul', { class: 'plainlist' }, told.against.map((/** @type {string} */ line) => h('li', {}, line)))],
    asks && meField(say.who), against && text(ANYWAY, { label: say.anyway, hint: say.anywayHint }),
    h('button', { class: against ? 'ask' : 'do', type: 'button', onclick: close }, against ? say.closeAnyway : say.closeNow), $said)
}

/** @param {any} closing @param {(work: () => Promise<any>, $said: HTMLElement) => void} keep */
function closedView(closing, keep) {
  const $said = h('p', { class: 'wrong', role: 'alert' })
  const open = () => keep(() => app.reopenJob(/** @type {string} */ (site.id), mine(), (site.fields[REASON] ?? '').trim()), $said)
  return h('section', {}, h('p', {}, h('strong', {}, say.closed(closing.name, time(closing.at)))),
    closing.anyway && [h('p', {}, say.closedAnyway(closing.anyway)), h('ul', { class: 'plainlist' }, closing.against.map((/** @type {string} */ line) => h('li', {}, line)))],
    h('a', { class: 'ask aslink', href: `#${site.id}/record` }, say.toPack),
    h('h2', {}, say.reopen), meField(say.who), text(REASON, { label: say.reason }), h('button', { class: 'ask', type: 'button', onclick: open }, say.reopenNow), $said)
}
