// @ts-check
import { app, failureText } from '../../bridge.js'
import { choices } from '../../fields.js'
import { h, put } from '../../parts/dom.js'
import { choice } from '../../parts/field.js'
import { caution } from '../../parts/frame.js'
import { time } from '../../parts/numbers.js'
import { packIn } from '../../parts/pack-in.js'
import { remindersView } from '../../parts/reminders.js'
import { roomWarning } from '../../parts/room.js'
import { set, settings } from '../../parts/settings.js'
import { aboutWords, jobsWords, words } from '../../words.js'
import { damagedView } from './damaged.js'

/** All jobs with the next thing due on each, a new one, and the demo. @param {HTMLElement} $main */
export async function jobsScreen($main) {
  const $said = h('p', { class: 'wrong', role: 'alert', id: 'said' })
  const fail = (/** @type {unknown} */ failure) => {
    $said.textContent = failureText(failure)
    $said.scrollIntoView({ block: 'center' })
  }
  const $list = h('div', {})
  const list = async () => {
    try {
      const { jobs } = await app.jobs()
      // Where somebody must keep out comes before all else.
      const whole = jobs.filter((job) => !isDamaged(job)).sort((one, other) => Number(Boolean(other.stop)) - Number(Boolean(one.stop)))
      put($list, whole.length > 0 && h('ul', { class: 'jobs' }, whole.map(jobView)), jobs.filter(isDamaged).map(damagedView))
      checkAll(jobs, list)
    } catch (failure) { fail(failure) }
  }
  await list()
  // Somebody went on to a job while the list was read.
  if (location.hash.length > 1) return
  const $name = h('input', { id: 'job-name', class: 'wide', autocomplete: 'off', required: true, 'aria-describedby': 'said' })
  const $place = h('input', { id: 'job-place', class: 'wide', autocomplete: 'off' })
  const $country = h('select', { id: 'job-country' }, choices.country.map(([value, text]) => h('option', { value }, text)))
  const begin = async (/** @type {Event} */ event) => {
    event.preventDefault()
    try {
      const { id } = await app.begin($name.value, $place.value, $country.value)
      location.hash = `#${id}/start`
    } catch (failure) {
      fail(failure)
      if (/** @type {any} */ (failure)?.code === 'name_missing') { $name.setAttribute('aria-invalid', 'true'); $name.focus() }
    }
  }
  const openDemo = async () => {
    try { location.hash = `#${(await app.openDemo()).id}/support` } catch (failure) { fail(failure) }
  }
  const field = (/** @type {string} */ id, /** @type {string} */ label, /** @type {Node} */ $input) => h('div', { class: 'field' }, h('label', { for: id }, label), $input)
  put($main,
    h('p', { class: 'motto' }, jobsWords.motto),
    roomWarning(), $list, remindersView(),
    h('div', { class: 'sides' },
      h('section', {}, h('h2', {}, jobsWords.begin),
        h('form', { onsubmit: begin, novalidate: true }, field('job-name', jobsWords.name, $name), field('job-place', jobsWords.place, $place),
          field('job-country', jobsWords.country, h('span', { class: 'pick' }, $country)), h('button', { class: 'do', type: 'submit' }, jobsWords.beginNow)), $said),
      packIn(list),
      h('section', {}, h('h2', {}, jobsWords.example), h('p', {}, jobsWords.exampleLine), h('button', { class: 'ask', type: 'button', onclick: openDemo }, jobsWords.openDemo)),
      shown()),
    h('p', {}, h('a', { class: 'back', href: '#about' }, aboutWords.link)),
    caution())
}

/** What a person chooses for this phone, out of the way of the work. */
function shown() {
  const kept = settings()
  return h('details', { class: 'fold' }, h('summary', { 'data-open': words.open, 'data-close': words.shut }, jobsWords.shown),
    choice('/shown/language', jobsWords.languages, { label: jobsWords.language, hint: jobsWords.languageHint, value: kept.language, changed: (language) => { set({ language: /** @type {'phone'} */ (language) }); location.reload() } }),
    choice('/shown/light', jobsWords.lights, { label: jobsWords.light, value: kept.light, changed: (light) => set({ light: /** @type {'phone'} */ (light) }) }),
    choice('/shown/lengths', jobsWords.lengthsOf, { label: jobsWords.lengths, hint: jobsWords.lengthsHint, value: kept.lengths, changed: (lengths) => set({ lengths: /** @type {'feet'} */ (lengths) }) }))
}

/** @param {any} job */
const isDamaged = (job) => Boolean(job.damaged || job.faults)

/**
 * Has every job checked that was not since the start, after the list stands, and lists them again where one does not hold.
 * @param {any[]} jobs @param {() => Promise<void>} list
 */
async function checkAll(jobs, list) {
  let wrong = false
  for (const { id } of jobs.filter(({ checked }) => !checked)) {
    // What cannot be asked now is asked again with the next list, and by the first write in any case.
    try { wrong = isDamaged(await app.checked(id)) || wrong } catch { return }
  }
  if (wrong && location.hash.length <= 1) await list()
}

/** @param {any} job */
function jobView(job) {
  const where = [job.place, job.last && jobsWords.last(time(job.last))].filter(Boolean).join(' · ')
  return h('li', {}, h('a', { href: `#${job.id}${startOf(job)}` },
    h('strong', {}, job.name, job.demo && h('span', { class: 'demomark' }, ` ${words.demoMark}`)),
    job.closed && h('strong', {}, jobsWords.closed),
    job.stop && h('span', { class: 'wrong' }, jobsWords.stop),
    job.open_findings > 0 && h('span', { class: 'wrong' }, jobsWords.open(job.open_findings)),
    job.question && h('span', { class: 'wrong' }, job.question),
    h('span', { class: 'due' }, h('span', { class: 'soft' }, `${jobsWords.next} `), h('span', { class: job.due?.overdue ? 'wrong' : '' }, job.next)),
    h('span', { class: 'soft' }, where)))
}

/** Where work goes on: where the description stopped until something is kept, then at the support. @param {any} job */
const startOf = (job) => (job.entries > 2 ? '/support' : '')
