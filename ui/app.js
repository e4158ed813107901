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
import { aboutScreen } from './screens/about/about.js'
import { aboveScreen } from './screens/above/above.js'
import { closeScreen } from './screens/close/close.js'
import { emergencyScreen } from './screens/emergency/emergency.js'
import { jobsScreen } from './screens/jobs/jobs.js'
import { measureScreen } from './screens/measure/measure.js'
import { orderScreen } from './screens/order/order.js'
import { recordScreen } from './screens/record/record.js'
import { findingsScreen } from './screens/round/findings.js'
import { roundScreen } from './screens/round/round.js'
import { startScreen } from './screens/start/start.js'
import { goesOn } from './screens/start/state.js'
import { supportScreen } from './screens/support/support.js'
import { wallScreen } from './screens/wall/wall.js'
import { aboutWords, emergencyWords, jobsWords, words } from './words.js'
import { language } from './words/language.js'

const $head = /** @type {HTMLElement} */ (document.getElementById('head'))
const $main = /** @type {HTMLElement} */ (document.getElementById('main'))
const $foot = /** @type {HTMLElement} */ (document.getElementById('foot'))

/** Pages of a job beside those of the bar. */
const BESIDE = ['start', 'emergency', 'findings', 'close', 'measure']

/** Where lengths are the app's own words; what people wrote stays as they wrote it. */
const WITH_FEET = ['above', 'support', 'order', 'round']

/** Pages that belong to no job. @type {Record<string, {title: string, draw: ($main: HTMLElement) => void}>} */
const APART = { emergency: { title: emergencyWords.title, draw: emergencyScreen }, about: { title: aboutWords.title, draw: aboutScreen } }

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
    site.id = null
    listen({ figures: () => {}, kept: () => {}, trouble: () => {} })
    document.body.dataset.screen = id || 'jobs'
    put($head, h('div', { class: 'headline' }, id ? h('a', { href: '#', class: 'back' }, words.toJobs) : emergencyLink()), h('h1', {}, id ? APART[id].title : jobsWords.title))
    put($foot)
    if (id) APART[id].draw($main)
    else await jobsScreen($main)
    scrollTo(0, 0)
    return
  }
  try {
    if (site.id !== id) await openSite(id)
  } catch (failure) {
    if (left()) return
    put($head, h('div', { class: 'headline' }, emergencyLink()), h('h1', {}, words.jobDoesNotOpen))
    put($main, h('p', { class: 'wrong' }, failureText(failure)), h('a', { class: 'do', href: '#' }, words.toJobs))
    put($foot)
    return
  }
  if (left()) return
  const screen = named ?? goesOn()
  // These go by the newest photo of one thing, which may be older than the photos that came with the job.
  if (screen === 'measure' || screen === 'round') await wholePhotos().catch(() => {})
  if (left()) return
  draw(BESIDE.includes(screen) || screen in words.screens ? screen : 'wall')
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
  let update = () => {}
  if (screen === 'above') update = aboveScreen($page, again)
  else if (screen === 'start') update = startScreen({ $head, $main: $page, $strip: $sofar, $row }, again)
  else if (screen === 'support') update = supportScreen($page, again)
  else if (screen === 'order') update = orderScreen($page)
  else if (screen === 'emergency') emergencyScreen($page)
  else if (screen === 'close') closeScreen($page, again)
  else if (screen === 'measure') update = measureScreen($page, again)
  else if (screen === 'findings') findingsScreen($page, again)
  else if (screen === 'round') roundScreen($page, again, $row)
  else if (screen === 'record') recordScreen($page)
  else update = wallScreen($page, again)
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
