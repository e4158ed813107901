// @ts-check
import { app } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { choice } from '../../parts/field.js'
import { propPlan } from '../../parts/prop-plan.js'
import { flush, readAgain, site, write } from '../../parts/site.js'
import { roundWords, wallWords, words } from '../../words.js'
import { answered, forgetRound, notesOf, openQuestions, reading, roundFailure, roundOf } from './reading.js'
import { propStrip, propView, wholeResult, wholeView } from './round-views.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').Evaluation} Evaluation */

const CHECK_AFTER_MS = 150

/**
 * Prop by prop with the result at once; it goes on where it stopped.
 * @param {HTMLElement} $main @param {() => void} again @param {HTMLElement} $foot
 */
export function roundScreen($main, again, $foot) {
  /** @type {Option|undefined} */
  const option = site.kept?.proposal?.options?.[site.kept.option]
  if (!option) {
    $main.append(h('p', {}, roundWords.none), h('a', { class: 'do', href: `#${site.id}/support` }, roundWords.toSupport))
    return
  }
  // The props of floors' own lines are looked at with the others: a round passes only with all of them.
  const all = [...option.props, ...option.floor_lines.flatMap((line) => line.props)]
  const names = all.map((prop) => prop.name)
  const place = placeOf(names)
  const go = (/** @type {number} */ to) => {
    write('/round/place', names[to] ?? 'whole')
    flush()
    again()
    scrollTo(0, 0)
    document.getElementById('main')?.focus({ preventScroll: true })
  }
  const prop = all[place]
  const $result = h('div', { 'aria-live': 'polite' })
  const $strip = h('div', { class: 'strip', 'aria-live': 'polite' })
  const $said = h('p', { class: 'wrong', role: 'alert' })
  /** @type {Evaluation|null} */
  let found = null
  const stateOf = (/** @type {string} */ name) => (reading(name) ? 'done' : 'open')
  const $plan = h('div', {})
  const drawPlan = () => put($plan, propPlan(all, { now: prop?.name ?? null, state: stateOf, go: (name) => go(names.indexOf(name)), outside: wallWords.outside, inside: wallWords.inside }))
  drawPlan()

  $main.append($plan)
  if (place === 0) $main.append(choice('/round/why', roundWords.whys, { label: roundWords.why }))
  $main.append(prop ? propView(prop) : wholeView(), $result, $said)

  const check = async () => {
    try {
      found = await app.checkRound(/** @type {string} */ (site.id), roundOf(names))
      $said.textContent = ''
    } catch (failure) {
      found = null
      $said.textContent = roundFailure(failure, names)
    }
    show()
  }
  const show = () => {
    const today = found?.props.find((one) => one.name === prop?.name)
    put($strip, prop && (found && today && reading(prop.name) ? propStrip(today, found) : h('span', { class: 'soft' }, roundWords.notRead)))
    put($result, !prop && found && wholeResult(found, !answered(names)))
  }
  /** @type {ReturnType<typeof setTimeout>|undefined} */
  let timer
  $main.addEventListener('input', () => {
    clearTimeout(timer)
    timer = setTimeout(check, CHECK_AFTER_MS)
  })
  check()

  if (!prop) $main.append(h('button', { class: 'do', type: 'button', onclick: finish }, roundWords.finish))
  const step = (/** @type {number} */ to, /** @type {string} */ label, /** @type {boolean} */ shown) => (shown ? h('button', { type: 'button', onclick: () => go(to) }, label) : h('span', {}))
  put($foot, prop && $strip, h('nav', { class: 'bar', 'aria-label': 'Round' },
    place > 0 ? step(place - 1, `‹ ${names[place - 1]}`, true) : h('a', { href: `#${site.id}/support` }, roundWords.leave),
    place > 0 && h('a', { href: `#${site.id}/support` }, roundWords.leave),
    step(place + 1, place + 1 < names.length ? `${names[place + 1]} ›` : `${roundWords.whole} ›`, place < names.length)))

  async function finish() {
    const open = openQuestions(names, found?.stop)
    if (open.length) { $said.textContent = roundWords.open(open.join(', ')); return }
    try {
      // Once a note is kept its field is empty, so that a second try keeps it once.
      for (const note of notesOf(names)) {
        await app.addNote(/** @type {string} */ (site.id), `${note.name}: ${note.words}`)
        write(note.field, null)
      }
      await flush()
      const done = await app.finishRound(/** @type {string} */ (site.id), roundOf(names))
      forgetRound()
      await readAgain()
      put($main, wholeResult(done.evaluation, false), h('p', { class: 'said' }, roundWords.keptLine), h('a', { class: 'do', href: `#${site.id}/record` }, roundWords.toRecord))
      put($foot, h('nav', { class: 'bar', 'aria-label': 'Screens' }, Object.entries(words.screens).map(([name, label]) => h('a', { href: `#${site.id}/${name}` }, label))))
      scrollTo(0, 0)
    } catch (failure) { $said.textContent = roundFailure(failure, names) }
  }
}

/** Where the round goes on. @param {string[]} names */
function placeOf(names) {
  const kept = site.fields['/round/place']
  if (kept === 'whole') return names.length
  return Math.max(0, names.indexOf(kept ?? ''))
}
