// @ts-check
import { app, failureText } from './bridge.js'
import { hearBack } from './parts/back.js'
import { h, put } from './parts/dom.js'
import { keepFeet } from './parts/feet.js'
import { markKept } from './parts/field.js'
import { bar, caution, drawHead, emergencyLink, strip } from './parts/frame.js'
import { keepClear } from './parts/keyboard.js'
import { goToField, showProblems } from './parts/problems.js'
import { light, settings } from './parts/settings.js'
import { flush, listen, openSite, site, wholePhotos } from './parts/site.js'
import { openAgain, openKeys } from './parts/why.js'
import { emergencyScreen } from './screens/emergency/emergency.js'
import { jobsScreen } from './screens/jobs/jobs.js'
import { goesOn } from './screens/start/state.js'
import { aboutWords, emergencyWords, jobsWords, words } from './words.js'
import { language } from './words/language.js'

const $head = /** @type {HTMLElement} */ (document.getElementById('head'))
const $main = /** @type {HTMLElement} */ (document.getElementById('main'))
const $foot = /** @type {HTMLElement} */ (document.getElementById('foot'))

/** Where lengths are the app's own words; what people wrote stays as they wrote it. */
const WITH_FEET = ['above', 'support', 'order', 'round']

/** What a page is drawn with: the head, its own place, what stands in reach of the thumb. @typedef {{$head: HTMLElement, $page: HTMLElement, $sofar: HTMLElement, $row: HTMLElement}} Place */
/** Draws a page; gives what brings it up to date, if it has such. @typedef {(place: Place, again: () => void) => void | (() => void)} Draw */

/**
 * Pages of a job, each fetched when somebody first goes to it: a start that ends at the list of jobs needs none of them. What to
 * do when the wall moves is not among them: it waits for nothing.
 * @type {Record<string, () => Draw | Promise<Draw>>}
 */
const PAGES = {
  wall: async () => {
    const { wallScreen } = await import('./screens/wall/wall.js')
    return ({ $page }, again) => wallScreen($page, again)
  },
  above: async () => {
    const { aboveScreen } = await import('./screens/above/above.js')
    return ({ $page }, again) => aboveScreen($page, again)
  },
  start: async () => {
    const { startScreen } = await import('./screens/start/start.js')
    return ({ $head, $page, $sofar, $row }, again) => startScreen({ $head, $main: $page, $strip: $sofar, $row }, again)
  },
  support: async () => {
    const { supportScreen } = await import('./screens/support/support.js')
    return ({ $page }, again) => supportScreen($page, again)
  },
  order: async () => {
    const { orderScreen } = await import('./screens/order/order.js')
    return ({ $page }) => orderScreen($page)
  },
  close: async () => {
    const { closeScreen } = await import('./screens/close/close.js')
    return ({ $page }, again) => { closeScreen($page, again) }
  },
  measure: async () => {
    const { measureScreen } = await import('./screens/measure/measure.js')
    return ({ $page }, again) => measureScreen($page, again)
  },
  findings: async () => {
    const { findingsScreen } = await import('./screens/round/findings.js')
    return ({ $page }, again) => { findingsScreen($page, again) }
  },
  round: async () => {
    const { roundScreen } = await import('./screens/round/round.js')
    return ({ $page, $row }, again) => roundScreen($page, again, $row)
  },
  record: async () => {
    const { recordScreen } = await import('./screens/record/record.js')
    return ({ $page }) => recordScreen($page)
  },
  emergency: () => ({ $page }) => emergencyScreen($page),
}
/** Those that were fetched. @type {Record<string, Draw>} */
const fetched = {}

/** Pages that belong to no job. @type {Record<string, {title: string, draws: () => (($main: HTMLElement) => void) | Promise<($main: HTMLElement) => void>}>} */
const APART = {
  emergency: { title: emergencyWords.title, draws: () => emergencyScreen },
  about: { title: aboutWords.title, draws: async () => (await import('./screens/about/about.js')).aboutScreen },
}

/** Shows what the address names: nothing for the jobs, else `#job/screen`, with a field's path behind it to go to. */
async function show() {
  const address = location.hash
  // Going back with something open over the page leaves that too.
  for (const $over of document.querySelectorAll('dialog[open]')) /** @type {HTMLDialogElement} */ ($over).close()
  await flush()
  const [id, named, ...field] = decodeURIComponent(address.slice(1)).split('/')
  // What takes long to open must not draw itself over the page that was asked for after it.
  const left = () => location.hash !== address
  if (left()) return
  if (!id || Object.hasOwn(APART, id)) {
    const drawApart = id ? await APART[id].draws() : jobsScreen
    if (left()) return
    site.id = null
    listen({ figures: () => {}, kept: () => {}, trouble: () => {} })
    document.body.dataset.screen = id || 'jobs'
    put($head, h('div', { class: 'headline' }, id ? h('a', { href: '#', class: 'back' }, words.toJobs) : emergencyLink()), h('h1', {}, id ? APART[id].title : jobsWords.title))
    put($foot)
    await drawApart($main)
    scrollTo(0, 0)
    return
  }
  let screen = 'wall'
  try {
    if (site.id !== id) await openSite(id)
    if (left()) return
    const asked = named ?? goesOn()
    if (Object.hasOwn(PAGES, asked)) screen = asked
    fetched[screen] ??= await PAGES[screen]()
  } catch (failure) {
    if (left()) return
    put($head, h('div', { class: 'headline' }, emergencyLink()), h('h1', {}, words.jobDoesNotOpen))
    put($main, h('p', { class: 'wrong' }, failureText(failure)), h('a', { class: 'do', href: '#' }, words.toJobs))
    put($foot)
    return
  }
  if (left()) return
  // These go by the newest photo of one thing, which may be older than the photos that came with the job.
  if (screen === 'measure' || screen === 'round') await wholePhotos().catch(() => {})
  if (left()) return
  draw(screen)
  if (screen === 'start') {
    // Each question is a page of its own: it begins at its top, and is read out.
    scrollTo(0, 0)
    document.getElementById('question')?.focus({ preventScroll: true })
  } else if (field.length > 0) {
    goToField(`/${field.join('/')}`)
    // The address keeps the screen only, so that going back does not jump again.
    history.replaceState(null, '', `#${id}/${screen}`)
  } else scrollTo(0, 0)
}

/** @param {string} screen */
function draw(screen) {
  document.body.dataset.screen = screen
  if (screen !== 'start') drawHead($head, screen)
  const $problems = h('div', { class: 'problems' })
  const $page = h('div', {})
  const $trouble = h('p', { class: 'trouble', role: 'alert' })
  put($main, $problems, $page)
  if (WITH_FEET.includes(screen) && settings().lengths === 'feet') keepFeet($page)
  const live = strip()
  const $sofar = h('div', { class: 'strip', 'aria-live': 'polite' })
  const asks = screen === 'wall' || screen === 'above'
  const $row = h('div', {})
  put($foot, $trouble, (screen === 'support' || screen === 'order') && caution(), asks && live.$strip, screen === 'start' && $sofar, $row)
  if (screen !== 'start') put($row, bar(screen))
  const again = () => drawAgain(screen)
  const update = fetched[screen]({ $head, $page, $sofar, $row }, again) ?? (() => {})
  const refresh = () => {
    // What comes in above must not push away what somebody works on.
    const $held = document.activeElement
    const top = $held && $main.contains($held) && $held !== $main ? $held.getBoundingClientRect().top : null
    update()
    live.update()
    if (asks || screen === 'support') showProblems($problems)
    if (top !== null && $held?.isConnected) scrollBy(0, $held.getBoundingClientRect().top - top)
  }
  listen({ figures: refresh, kept: markKept, trouble: (words) => put($trouble, words) })
  refresh()
}

/** Draws a screen anew after its questions changed: the place on the page and the caret stay. @param {string} screen */
function drawAgain(screen) {
  const held = /** @type {HTMLInputElement|null} */ (document.activeElement)
  const { name, value, type } = held ?? {}
  const opened = openKeys($main)
  const top = scrollY
  draw(screen)
  openAgain($main, opened)
  scrollTo(0, top)
  if (!name) return
  const selector = `[name="${CSS.escape(name)}"]${type === 'radio' ? `[value="${CSS.escape(value ?? '')}"]` : ''}`
  const $again = $main.querySelector(selector)
  if ($again instanceof HTMLElement) $again.focus({ preventScroll: true })
}

light()
document.documentElement.lang = language
const $skip = document.querySelector('.skip')
if ($skip) $skip.textContent = words.toPage
/** A pack that another app handed over is offered on the list of jobs; what is open there keeps what was typed. */
async function handed() {
  const { packs } = await app.device()
  if (packs.length > 0) location.hash = ''
}

addEventListener('hashchange', show)
addEventListener('pack-opened', () => { handed().catch(() => {}) })
// A file that is dropped must never take the place of the page; the list of jobs takes a pack that way.
for (const kind of ['dragover', 'drop']) addEventListener(kind, (event) => event.preventDefault())
hearBack()
keepClear()
// A phone may have forgotten its reminders while it was off.
app.armReminders().catch(() => {})
show()
