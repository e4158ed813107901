// @ts-check
import { app, failureText } from '../bridge.js'
import { force, h, number } from '../parts/dom.js'
import { choice, quantity, text } from '../parts/field.js'
import { photos } from '../parts/photo.js'
import { flush, site, write } from '../parts/site.js'
import { standingView } from '../parts/standing.js'

const ASKED = Object.freeze([
  ['foot_firm', 'Is its board firm?'],
  ['straight', 'Is it straight and undented?'],
  ['fixed', 'Are its head and foot fixed?'],
  ['packed', 'Is the needle packed and wedged over the full leaf?'],
])
const WHY = Object.freeze([['before loading', 'Before loading'], ['start of the day', 'Start of the day'], ['after a stage', 'After a stage of cutting'], ['before leaving', 'Before leaving'], ['after wind, rain or frost', 'After wind, rain or frost'], ['after a knock', 'After a knock or change'], ['before taking out', 'Before taking out']])

const get = (/** @type {string} */ path) => site.fields[`/round/${path}`]
const num = (/** @type {string} */ path) => {
  const typed = get(path)
  const value = Number((typed ?? '').trim().replace('−', '-').replace(',', '.'))
  return typed === undefined || typed.trim() === '' || !Number.isFinite(value) ? null : value
}
const flag = (/** @type {string} */ path) => (get(path) === undefined ? null : get(path) === 'true')

/** A prop's reading, or null while something is not answered. @param {string} prop */
function reading(prop) {
  const at = (/** @type {string} */ key) => `${prop}/${key}`
  const lean = [num(at('lean_along_mm')), num(at('lean_across_mm'))]
  const numbers = { over_m: num(at('over_m')), head_off_mm: num(at('head_off_mm')), foot_off_mm: num(at('foot_off_mm')) }
  const flags = Object.fromEntries(ASKED.map(([key]) => [key, flag(at(key))]))
  const pin = get(at('pin'))
  if (!pin || lean.includes(null) || Object.values(numbers).includes(null) || Object.values(flags).includes(null)) return null
  return { prop, pin, collar_turns: num(at('collar_turns')) ?? 0, thread_mm: num('thread_mm') ?? 6, lean_mm: lean, ...numbers, ...flags }
}

/** What is entered so far, as the app wants it. @param {string[]} props */
function round(props) {
  const checks = Object.fromEntries(['braces', 'doors_stick', 'load_on_floors', 'digging'].map((key) => [key, flag(key)]))
  const before = site.rounds.flatMap((done) => done.gauges ?? [])
  const gauges = ['1', '2', '3'].filter((i) => get(`gauge${i}_name`) && num(`gauge${i}_mm`) !== null).map((i) => {
    const name = get(`gauge${i}_name`)
    const same = before.filter((gauge) => gauge.name === name)
    return { name, mm: num(`gauge${i}_mm`), first_mm: same.at(-1)?.first_mm ?? same.at(-1)?.mm ?? null, last_mm: same[0]?.mm ?? null }
  })
  return { why: get('why') ?? '', readings: props.map(reading).filter(Boolean), gauges, job_checks: { ...checks, wind_m_s: num('wind_m_s') } }
}

/** @param {HTMLElement} $main @param {() => void} again @param {HTMLElement} $bar */
export function roundScreen($main, again, $bar) {
  const option = site.kept?.proposal?.options?.[site.kept.option]
  if (!option) { $main.append(h('p', {}, 'A round looks at each prop of a kept proposal. Keep a proposal on the Support screen first.')); return }
  const props = option.props.map((/** @type {any} */ prop) => prop.name)
  const place = Math.min(Number(get('place') ?? 0) || 0, props.length)
  const go = (/** @type {number} */ to) => { write('/round/place', String(Math.max(0, Math.min(props.length, to)))); flush(); again(); document.getElementById('main')?.focus(); scrollTo(0, 0) }
  const $result = h('div', { 'aria-live': 'polite' })
  const $said = h('p', { class: 'wrong', role: 'alert', hidden: true })
  $main.append(h('div', { class: 'dots', role: 'img', 'aria-label': place < props.length ? `Prop ${place + 1} of ${props.length}` : 'The whole job' }, props.map((/** @type {string} */ prop, /** @type {number} */ i) => h('i', { class: i === place ? 'now' : reading(prop) ? 'done' : '' })), h('i', { class: place === props.length ? 'now' : '' })))
  if (place === 0) $main.append(choice('/round/why', 'Why this round?', WHY))
  if (place < props.length) $main.append(propView(option.props[place]), $result)
  else $main.append(wholeView(), $result)
  $main.append($said)
  let timer = 0
  let stopped = false
  const check = async () => {
    const now = round(props)
    const unanswered = Object.entries(now.job_checks).some(([key, value]) => key !== 'wind_m_s' && value === null)
    // Only to look at the props before the whole job is asked about; never kept, and never shown as passed.
    if (unanswered) now.job_checks = { braces: true, doors_stick: false, load_on_floors: false, digging: false, wind_m_s: null }
    if (place < props.length && !reading(props[place])) { $result.replaceChildren(); return }
    try {
      const found = await app.checkRound(/** @type {string} */ (site.id), now)
      const mine = found.props.find((/** @type {any} */ prop) => prop.name === props[place])
      if (place < props.length) { if (mine) $result.replaceChildren(propResult(mine, found)) } else $result.replaceChildren(...(unanswered && !found.stop ? [] : [wholeResult(found)]))
      stopped = found.stop
      $said.hidden = true
    } catch (failure) { $said.textContent = failureText(failure); $said.hidden = false }
  }
  $main.addEventListener('input', () => { clearTimeout(timer); timer = setTimeout(check, 200) })
  check()
  if (place === props.length) {
    $main.append(h('button', { class: 'do', onclick: async () => {
      const now = round(props)
      // Nobody is sent back to the other props once one of them says stop: they are kept as not looked at.
      const open = [...(stopped ? [] : props.filter((/** @type {string} */ prop) => !reading(prop))), ...Object.entries(now.job_checks).filter(([key, value]) => key !== 'wind_m_s' && value === null).map(([key]) => key.replaceAll('_', ' ')), ...(now.why ? [] : ['why this round'])]
      if (open.length) { $said.textContent = `Not answered yet: ${open.join(', ')}.`; $said.hidden = false; return }
      try {
        await flush()
        // A note is an entry of its own; once it is kept its field is empty, so that a second try keeps it once.
        for (const prop of props) {
          const note = get(`${prop}/note`)?.trim()
          if (note) { await app.addNote(/** @type {string} */ (site.id), `${prop}: ${note}`); write(`/round/${prop}/note`, null) }
        }
        await flush()
        const done = await app.finishRound(/** @type {string} */ (site.id), now)
        for (const field of Object.keys(site.fields)) if (field.startsWith('/round/')) delete site.fields[field]
        site.rounds = (await app.open(/** @type {string} */ (site.id))).rounds
        $main.replaceChildren(wholeResult(done.evaluation), h('p', {}, 'Kept in the record.'), h('a', { class: 'ask file', href: `#${site.id}/record` }, 'To the record'))
        scrollTo(0, 0)
      } catch (failure) { $said.textContent = failureText(failure); $said.hidden = false }
    } }, 'Finish this round'))
  }
  const step = (/** @type {number} */ to, /** @type {string} */ label, /** @type {boolean} */ shown) => (shown ? h('button', { onclick: () => go(to) }, label) : h('span', {}))
  $bar.replaceChildren(h('a', { href: `#${site.id}/support` }, 'Leave'), step(place - 1, `‹ ${props[place - 1]}`, place > 0), step(place + 1, place + 1 < props.length ? `${props[place + 1]} ›` : 'The whole job ›', place < props.length))
}

/** @param {any} prop */
function propView(prop) {
  const at = `/round/${prop.name}`
  return h('section', {},
    h('div', { class: 'figure' }, h('b', {}, prop.name), h('span', {}, `carries ${force(prop.load_kn)}`)),
    h('p', { class: 'soft' }, `${prop.side === 'inside' ? 'Inside' : 'Outside'}, under needle ${prop.needle}. ${prop.kind === 'tn79' ? `Size ${prop.size}` : prop.size} at ${number(prop.length_m, 2)} m.`),
    choice(`${at}/pin`, 'Is the right pin in, all the way?', [['right', 'Yes'], ['wrong', 'Wrong one'], ['missing', 'Missing']], { hint: 'A bar is not a pin.' }),
    quantity(`${at}/collar_turns`, 'Collar taken up since last time', 'turns', 'Nothing taken up: leave it empty.'),
    h('h3', {}, 'Lean'), quantity(`${at}/over_m`, 'Measured over a length of', 'm'),
    h('div', { class: 'two' }, quantity(`${at}/lean_along_mm`, 'Lean along the wall', 'mm'), quantity(`${at}/lean_across_mm`, 'Lean across the wall', 'mm')),
    h('p', { class: 'hint' }, 'Along: right is plus. Across: inwards is plus. Limit 25 mm over 1 m.'),
    h('div', { class: 'two' }, quantity(`${at}/head_off_mm`, 'Head off centre', 'mm'), quantity(`${at}/foot_off_mm`, 'Foot off centre', 'mm')),
    ASKED.map(([key, label]) => choice(`${at}/${key}`, label, [['true', 'Yes'], ['false', 'No']])),
    text(`${at}/note`, 'Note'), photos(prop.name, 'detail', 'photo of this prop'))
}

function wholeView() {
  return h('section', {}, h('h2', {}, 'The whole job'),
    choice('/round/braces', 'Are all braces on?', [['true', 'Yes'], ['false', 'No']]),
    choice('/round/doors_stick', 'Do doors or windows stick?', [['true', 'Yes'], ['false', 'No']]),
    choice('/round/load_on_floors', 'Is load stacked on the floors above?', [['true', 'Yes'], ['false', 'No']]),
    choice('/round/digging', 'Is anyone digging near the feet?', [['true', 'Yes'], ['false', 'No']]),
    quantity('/round/wind_m_s', 'Wind now', 'm/s'),
    h('h3', {}, 'Crack gauges'), ['1', '2', '3'].map((i) => h('div', { class: 'two' }, text(`/round/gauge${i}_name`, `Gauge ${i}`), quantity(`/round/gauge${i}_mm`, `Gauge ${i} reads`, 'mm'))), photos('crack', 'detail', 'photo of a crack'))
}

/** @param {any} prop @param {any} found */
function propResult(prop, found) {
  const bad = prop.utilisation > 1 || !prop.in_basis || found.reasons.some((/** @type {any} */ reason) => reason.words.startsWith(`${prop.name}:`))
  const standing = bad ? 'does_not_hold' : prop.utilisation > 0.9 ? 'close' : 'holds'
  const figure = `Used ${Math.round(prop.utilisation * 100)} %; today this prop is good for ${Math.round(prop.kappa * 100)} % of its table`
  const [title, line] = bad ? [`Put ${prop.name} right first`, prop.in_basis ? `${figure}.` : 'Leaning or off centre beyond what prop loads allow for: no figure counts.'] : [`Good for ${number(prop.working_load_kn)} kN today`, `${figure}.`]
  return h('div', {}, standingView(standing, line, title),
    prop.do.length > 0 && h('ul', { class: 'plainlist' }, prop.do.map((/** @type {string} */ line) => h('li', {}, h('strong', {}, line)))))
}

/** @param {any} found */
function wholeResult(found) {
  const title = found.out ? 'Get out. Keep out.' : found.stop ? 'Stop. No more load' : found.passed ? 'This round is passed' : 'Not passed'
  const line = found.ring ? 'Stop the work and ring the engineer.' : found.passed ? 'Look again at the start of each day, after each stage of cutting and before leaving.' : 'Put right what is listed, then look again.'
  return h('div', {}, standingView(found.passed ? 'holds' : found.stop ? 'does_not_hold' : 'close', line, title), h('ul', { class: 'plainlist' }, found.reasons.map((/** @type {any} */ reason) => h('li', {}, reason.words))),
    h('p', { class: 'soft' }, `Braces: asked ${number(found.sideways.demand_kn)} kN, good for ${number(found.sideways.resistance_kn)} kN.`))
}
