// @ts-check
import { closeWords, emergencyWords, measureWords, roundWords, words } from '../words.js'
import { h, put } from './dom.js'
import { goToField } from './problems.js'
import { mass, number } from './numbers.js'
import { site } from './site.js'

/** What stands around every screen of a job: whose it is, the caution, the live line and the bar. */

/** @param {HTMLElement} $head @param {string} screen */
export function drawHead($head, screen) {
  put($head, site.demo && h('p', { class: 'demo' }, words.demo),
    headline(screen !== 'emergency'), screen !== 'findings' && screen !== 'emergency' && openLine(), h('h1', {}, TITLES[screen] ?? words.screens[/** @type {'wall'} */ (screen)]))
}

/** Pages beside the six screens of the bar. @type {Readonly<Record<string, string>>} */
const TITLES = Object.freeze({ emergency: emergencyWords.title, findings: roundWords.findings, close: closeWords.title, measure: measureWords.title })

/** Whose job it is, the way back, and the way out. @param {boolean} [way] */
export function headline(way = true) {
  return h('div', { class: 'headline' }, h('a', { href: '#', class: 'back' }, words.toJobs), h('span', { class: 'jobname' }, [site.name, site.place].filter(Boolean).join(' · ')), way && emergencyLink())
}

/** One touch away from every screen, in a shape of its own. */
export function emergencyLink() {
  return h('a', { class: 'emergency', href: site.id ? `#${site.id}/emergency` : '#emergency' }, emergencyWords.button)
}

/** How much stands open, on every screen of the job, leading there. */
export function openLine() {
  const open = site.state?.open ?? 0
  return open > 0 && h('a', { class: `openline ${site.state.stop ? 'stops' : ''}`, href: `#${site.id}/findings` }, roundWords.findingsLine(open, site.state.stop))
}

/** The caution, in view wherever a proposal is. */
export function caution() {
  return h('p', { class: 'caution', tabindex: '0' }, words.caution)
}

/** @param {string} screen */
export function bar(screen) {
  return h('nav', { class: 'bar', 'aria-label': words.bar },
    Object.entries(words.screens).map(([name, label]) => h('a', { href: `#${site.id}/${name}`, 'aria-current': name === screen ? 'page' : undefined }, label)))
}

/** One line that follows every change: what is still to say, or the weight and the standing. */
export function strip() {
  const $strip = h('div', { class: 'strip', 'aria-live': 'polite' })
  const update = () => {
    const { problems = [], proposal = null } = site.figures ?? {}
    if (!proposal) {
      const wrong = problems.filter((problem) => problem.wrong !== 'missing')
      const said = wrong.length ? words.wrong(wrong.length) : words.needed(problems.length)
      put($strip, problems.length > 0 && h('button', { type: 'button', onclick: () => toList(wrong[0] ?? problems[0]) }, said))
      return
    }
    const { mean_service_kn_m: mean } = proposal.load
    put($strip, h('a', { href: `#${site.id}/support`, class: `to to--${proposal.standing}` },
      h('span', {}, h('b', {}, number(mean)), ` ${words.perMetre(mass(mean))}`), h('span', { class: 'short' }, words.standingShort[proposal.standing])))
  }
  return { $strip, update }
}

/** @param {import('./types.js').Problem} problem */
function toList(problem) {
  if (goToField(problem.path)) return
  const $first = document.querySelector('.wrongs a, .missing a')
  scrollTo(0, 0)
  if ($first instanceof HTMLElement) $first.focus({ preventScroll: true })
}
