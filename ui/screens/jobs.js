// @ts-check
import { app, failureText } from '../bridge.js'
import { h, time } from '../parts/dom.js'
import { choices, words } from '../words.js'

/** @param {HTMLElement} $main */
export async function jobsScreen($main) {
  const $said = h('p', { class: 'wrong', role: 'alert', hidden: true })
  const fail = (/** @type {unknown} */ failure) => { $said.textContent = failureText(failure); $said.hidden = false; $said.scrollIntoView({ block: 'center' }) }
  let list = { jobs: [] }
  try { list = await app.jobs() } catch (failure) { fail(failure) }
  const $name = h('input', { id: 'job-name', autocomplete: 'off', required: true })
  const $place = h('input', { id: 'job-place', autocomplete: 'off' })
  const $country = h('select', { id: 'job-country' }, choices.country.map(([value, text]) => h('option', { value }, text)))
  const begin = async (/** @type {Event} */ event) => {
    event.preventDefault()
    try { location.hash = `#${(await app.begin($name.value, $place.value, $country.value)).id}/wall` } catch (failure) { fail(failure) }
  }
  const field = (/** @type {string} */ id, /** @type {string} */ label, /** @type {Node} */ $input) => h('div', { class: 'field' }, h('label', { for: id }, label), $input)
  $main.replaceChildren(...[
    h('h1', {}, 'Jobs'), h('p', { class: 'where' }, 'Hold the wall up before you cut it.'),
    list.jobs.length > 0 && h('ul', { class: 'jobs' }, list.jobs.map((/** @type {any} */ job) => h('li', {}, h('a', { href: `#${job.id}/${job.entries > 1 ? 'record' : 'wall'}` },
      h('strong', {}, job.name, job.demo && h('span', { class: 'demo' }, ' DEMO')), h('span', { class: 'soft' }, [job.place, job.last && time(job.last)].filter(Boolean).join(' · ')),
      job.damaged ? h('span', { class: 'wrong' }, ` ${job.damaged}`) : h('div', {}, job.next))))),
    h('h2', {}, 'Begin a job'),
    h('form', { onsubmit: begin, novalidate: true }, field('job-name', 'Name of the job', $name), field('job-place', 'Place', $place), field('job-country', 'Country', $country), h('button', { class: 'do', type: 'submit' }, 'Begin this job')), $said,
    h('h2', {}, 'Look at an example'),
    h('p', {}, 'A made-up house with a made-up wall, marked DEMO throughout.'),
    h('button', { class: 'ask', onclick: async () => { try { location.hash = `#${(await app.openDemo()).id}/support` } catch (failure) { fail(failure) } } }, 'Open the demo'),
    h('p', { class: 'caution' }, words.caution),
  ].filter((part) => part instanceof Node))
}
