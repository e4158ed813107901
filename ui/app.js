// @ts-check
import { failureText } from './bridge.js'
import { h } from './parts/dom.js'
import { showProblems, watchKept } from './parts/field.js'
import { flush, onFigures, openSite, site } from './parts/site.js'
import { aboveScreen } from './screens/above.js'
import { jobsScreen } from './screens/jobs.js'
import { recordScreen } from './screens/record.js'
import { roundScreen } from './screens/round.js'
import { supportScreen } from './screens/support.js'
import { wallScreen } from './screens/wall.js'
import { words } from './words.js'

const $main = /** @type {HTMLElement} */ (document.getElementById('main'))
const $foot = /** @type {HTMLElement} */ (document.getElementById('foot'))

/** Shows the screen that the address names: nothing for the jobs, else `#job/screen`. */
async function show() {
  await flush()
  const [id, screen = 'wall'] = location.hash.slice(1).split('/')
  if (!id) {
    site.id = null
    $foot.replaceChildren()
    await jobsScreen($main)
    return
  }
  try {
    if (site.id !== id) await openSite(id)
  } catch (failure) {
    $main.replaceChildren(h('h1', {}, 'This job does not open'), h('p', { class: 'wrong' }, failureText(failure)), h('a', { class: 'file', href: '#' }, 'To the jobs'))
    $foot.replaceChildren()
    return
  }
  draw(screen, true)
}

/** @param {string} screen @param {boolean} fresh whether to start at the top */
function draw(screen, fresh) {
  const title = words.screens[/** @type {'wall'} */ (screen)] ?? words.screens.wall
  const $problems = h('div', {})
  const $bar = h('nav', { class: 'bar', 'aria-label': 'Screens' },
    Object.entries(words.screens).map(([name, label]) => h('a', { href: `#${site.id}/${name}`, 'aria-current': name === screen ? 'page' : undefined }, label)))
  const height = scrollY
  const $page = h('div', {})
  $main.replaceChildren(h('a', { href: '#', class: 'back' }, '‹ Jobs'), h('h1', {}, title), h('p', { class: 'where' }, [site.name, site.place].filter(Boolean).join(' · '), site.demo && h('span', { class: 'demo' }, ' DEMO')), $problems, $page)
  $foot.replaceChildren(...(screen === 'support' ? [h('p', { class: 'caution' }, words.caution)] : []), $bar)
  const again = () => draw(screen, false)
  let update = () => {}
  if (screen === 'above') update = aboveScreen($page, again)
  else if (screen === 'support') update = supportScreen($page)
  else if (screen === 'round') roundScreen($page, again, $bar)
  else if (screen === 'record') recordScreen($page)
  else wallScreen($page, again)
  watchKept($main)
  const refresh = () => {
    update()
    if (screen !== 'round' && screen !== 'record') showProblems($main, site.figures, $problems)
  }
  onFigures(refresh)
  refresh()
  if (fresh) scrollTo(0, 0)
  else scrollTo(0, height)
}

addEventListener('hashchange', show)
show()
