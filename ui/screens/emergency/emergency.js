// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { pick, text } from '../../parts/field.js'
import { flush, readAgain, site, write } from '../../parts/site.js'
import { meField } from '../../parts/me.js'
import { emergencyWords as say, words } from '../../words.js'
import { numberOf, sourcesOf } from './numbers.js'
import { ENGINEER_NAME, MY_NAME, phoneField, phoneOf, ring } from './people.js'

const WHAT = '/job/emergency/what'
const KIND = '/job/emergency/kind'

/** What to do when it moves: out first, then whom to ring, and only then anything to write. @param {HTMLElement} $main */
export function emergencyScreen($main) {
  put($main, h('ol', { class: 'out' }, say.steps.map(([what, why]) => h('li', {}, h('strong', {}, what), h('span', {}, why)))))
  const emergency = numberOf(site.id ? site.country : '', 'emergency')
  if (emergency) $main.append(h('div', { class: 'rings' }, ring(say.services, emergency)))
  else $main.append(h('div', { class: 'rings' }, say.elsewhere.map(([where, number]) => ring(where, number))))
  if (!site.id) {
    $main.append(h('p', {}, say.openJob), sources())
    return
  }
  const $rings = h('div', { class: 'rings' })
  const drawRings = () => put($rings, say.people.map(([who, label]) => {
    const number = phoneOf(/** @type {'gas'} */ (who))
    const name = who === 'engineer' ? (site.fields[ENGINEER_NAME] ?? '').trim() : ''
    return number ? ring(name || label, number) : h('p', { class: 'norings' }, say.noNumber(label))
  }))
  drawRings()
  $main.append(h('h2', { class: 'quiet' }, say.whoToRing), $rings, numbers(drawRings), sources(), record())
}

/** Where the numbers known here come from, and how that was seen. */
function sources() {
  return h('details', { class: 'fold' }, h('summary', { 'data-open': words.why, 'data-close': say.shut }, say.from), h('div', {}, h('p', {}, say.fromLine),
    h('ul', { class: 'plainlist' }, sourcesOf(site.id ? site.country : '').map((one) => h('li', {}, h('b', {}, one.number), say.source(one))))))
}

/** Where the numbers are typed, in quieter hours. @param {() => void} changed */
function numbers(changed) {
  const $fields = h('div', {}, text(ENGINEER_NAME, { label: say.engineerName }),
    say.people.map(([who, label]) => text(phoneField(/** @type {'gas'} */ (who)), { label: say.numberOf(label), hint: phoneOf(/** @type {'gas'} */ (who)) && !site.fields[phoneField(/** @type {'gas'} */ (who))] ? say.known : '' })))
  $fields.querySelectorAll('input').forEach((/** @type {HTMLInputElement} */ $input) => { if ($input.name.endsWith('_phone')) { $input.inputMode = 'tel'; $input.type = 'tel' } })
  $fields.addEventListener('input', changed)
  return h('details', { class: 'fold', open: !phoneOf('engineer') }, h('summary', { 'data-open': say.change, 'data-close': say.shut }, say.numbers), $fields)
}

/** What happened, once everybody is out. It becomes a finding, which stays open until somebody has put it right. */
function record() {
  const $said = h('p', { class: 'wrong', role: 'alert' })
  const $section = h('section', {})
  const keep = async () => {
    if (!site.fields[KIND]) { $said.textContent = say.kindFirst; return }
    try {
      await flush()
      const finding = { category: site.fields[KIND], what: (site.fields[WHAT] ?? '').trim() || say.unsaid, where: '', prop: null, name: (site.fields[MY_NAME] ?? '').trim() }
      await app.addFinding(/** @type {string} */ (site.id), finding)
      write(WHAT, null)
      write(KIND, null)
      await flush()
      await readAgain()
      put($section, h('h2', {}, say.record), h('p', { class: 'said' }, say.kept), h('a', { class: 'ask', href: `#${site.id}/findings` }, say.toFindings))
    } catch (failure) { $said.textContent = failureText(failure) }
  }
  put($section, h('h2', {}, say.record), h('p', {}, say.recordLine), pick(KIND, say.kinds, { label: say.kind }), text(WHAT, { label: say.what }),
    meField(say.me), h('button', { class: 'do', type: 'button', onclick: keep }, say.keep), $said)
  return $section
}
