// @ts-check
import { app, failureText } from '../../bridge.js'
import { choices } from '../../fields.js'
import { h, put } from '../../parts/dom.js'
import { caution } from '../../parts/frame.js'
import { time } from '../../parts/numbers.js'
import { jobsWords, words } from '../../words.js'

/** All jobs with the next thing due on each, a new one, and the demo. @param {HTMLElement} $main */
export async function jobsScreen($main) {
  const $said = h('p', { class: 'wrong', role: 'alert', id: 'said' })
  const fail = (/** @type {unknown} */ failure) => {
    $said.textContent = failureText(failure)
    $said.scrollIntoView({ block: 'center' })
  }
  /** @type {any[]} */
  let jobs = []
  try { jobs = (await app.jobs()).jobs } catch (failure) { fail(failure) }
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
    jobs.length > 0 && h('ul', { class: 'jobs' }, jobs.map(jobView)),
    h('div', { class: 'sides' },
      h('section', {}, h('h2', {}, jobsWords.begin),
        h('form', { onsubmit: begin, novalidate: true }, field('job-name', jobsWords.name, $name), field('job-place', jobsWords.place, $place),
          field('job-country', jobsWords.country, h('span', { class: 'pick' }, $country)), h('button', { class: 'do', type: 'submit' }, jobsWords.beginNow)), $said),
      h('section', {}, h('h2', {}, jobsWords.example), h('p', {}, jobsWords.exampleLine), h('button', { class: 'ask', type: 'button', onclick: openDemo }, jobsWords.openDemo))),
    caution())
}

/** @param {any} job */
function jobView(job) {
  const where = [job.place, job.last && jobsWords.last(time(job.last))].filter(Boolean).join(' · ')
  return h('li', {}, h('a', { href: `#${job.id}${startOf(job)}` },
    h('strong', {}, job.name, job.demo && h('span', { class: 'demomark' }, ` ${words.demoMark}`)),
    job.damaged ? h('span', { class: 'wrong' }, job.damaged) : h('span', { class: 'due' }, h('span', { class: 'soft' }, `${jobsWords.next} `), job.next),
    h('span', { class: 'soft' }, where)))
}

/** Where work goes on: where the description stopped until something is kept, then at the support. @param {any} job */
const startOf = (job) => (job.entries > 2 ? '/support' : '')
