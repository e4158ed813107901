// @ts-check
import { app } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { bar } from '../../parts/frame.js'
import { propPlan } from '../../parts/prop-plan.js'
import { goToField } from '../../parts/problems.js'
import { flush, readAgain, site, write } from '../../parts/site.js'
import { MY_NAME } from '../emergency/people.js'
import { roundWords, wallWords } from '../../words.js'
import { sleep, stayAwake } from './awake.js'
import { beginView } from './begin.js'
import { meanings, noteNo, readMeanings, stopsAt, waitsForPhoto } from './no.js'
import { goOnBySelf, propView } from './prop.js'
import { answered, forgetRound, nosOf, notesOf, openAt, openQuestions, openWords, reading, roundFailure, roundOf, typed } from './reading.js'
import { curvesView, propStrip, shake, stopView, wholeResult } from './result.js'
import { wholeView } from './whole.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').Evaluation} Evaluation */

const CHECK_AFTER_MS = 150

/**
 * From the drawing prop by prop with the result at once; it goes on where it stopped.
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
  const every = [...option.props, ...option.floor_lines.flatMap((line) => line.props)]
  const only = typed('only')
  const all = only ? every.filter((prop) => prop.name === only) : every
  const names = all.map((prop) => prop.name)
  const place = typed('place') ?? 'begin'
  const prop = all.find((one) => one.name === place)
  const at = prop ? names.indexOf(prop.name) : place === 'whole' ? names.length : -1
  const go = (/** @type {string} */ to) => {
    write('/round/place', to)
    flush()
    again()
    scrollTo(0, 0)
    document.getElementById('main')?.focus({ preventScroll: true })
  }
  const stateOf = (/** @type {string} */ name) => (nosOf(name).length > 0 || found?.props.some((one) => one.name === name && (one.utilisation > 1 || !one.in_basis)) ? 'wrong' : reading(name) ? 'done' : 'open')
  const $strip = h('div', { class: 'strip', 'aria-live': 'polite' })
  const $result = h('div', { 'aria-live': 'polite' })
  const $said = h('p', { class: 'wrong', role: 'alert' })
  const $asked = h('p', { class: 'wrong', role: 'alert' })
  /** @type {Evaluation|null} */
  let found = null
  const step = (/** @type {string} */ label, /** @type {() => void} */ onclick, /** @type {string} */ kind = '') => h('button', { type: 'button', class: kind, onclick }, label)
  const leave = () => h('a', { href: `#${site.id}/support` }, roundWords.leave)

  if (at < 0) {
    const $plan = h('div', {})
    const count = (/** @type {string} */ one) => names.filter((name) => stateOf(name) === one).length
    const draw = () => put($plan, propPlan(all, { now: null, state: stateOf, go, outside: wallWords.outside, inside: wallWords.inside }), h('p', { class: 'soft' }, roundWords.counts(count('done'), count('open'), count('wrong'))))
    draw()
    // What is wrong by its figures, and not by a "no", is told by the app.
    if (names.some((name) => reading(name))) app.checkRound(/** @type {string} */ (site.id), roundOf(names)).then((now) => { found = now; draw() }, () => {})
    readMeanings()
    $main.append(beginView($plan), $said)
    const first = names.find((name) => !reading(name)) ?? 'whole'
    const begin = () => {
      // Without a name the round could not be finished at its other end.
      const lacking = Object.entries({ '/round/why': typed('why') ? '' : roundWords.openWhy, [MY_NAME]: (site.fields[MY_NAME] ?? '').trim() ? '' : roundWords.openName, '/round/over_m': (typed('over_m') ?? '').trim() ? '' : roundWords.openOver }).filter(([, words]) => words)
      if (lacking[0]) {
        $said.textContent = roundWords.open(lacking.map(([, words]) => words).join(', '))
        document.querySelector(`main [data-field="${CSS.escape(lacking[0][0])}"]`)?.before($said)
        goToField(lacking[0][0])
        return
      }
      go(first)
    }
    const $begin = step(`${reading(names[0] ?? '') || first !== names[0] ? roundWords.goOn(first === 'whole' ? roundWords.whole : first) : roundWords.beginWith(first)} ›`, begin, site.state?.stop ? 'ask' : 'next')
    // While the work stops nobody is led under the wall: the round waits behind the engineer's word.
    if (site.state?.stop) $main.append(h('details', { class: 'fold' }, h('summary', { 'data-open': roundWords.open1, 'data-close': roundWords.shut }, roundWords.mayGoIn), h('div', {}, h('p', {}, roundWords.mayGoInLine), $begin)))
    put($foot, !site.state?.stop && h('nav', { class: 'thumbs', 'aria-label': roundWords.nav }, $begin), bar('round'))
    return
  }

  stayAwake()
  const view = prop ? propView(prop, all, () => show()) : wholeView(() => show())
  $main.append(view.$page, $result, $said, $asked)
  readMeanings().then(() => { view.update(); show() })
  if (prop && site.fields['/job/round/scroll'] !== 'no') goOnBySelf(view.$page, () => openAt(prop.name), prop.name)

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
    const alone = stopsAt(prop?.name ?? '').map((code) => meanings[code]?.title ?? '')
    const own = found?.stop && prop ? found.reasons.filter((reason) => reason.words.startsWith(`${prop.name}:`) && meanings[reason.code]?.stops).map((reason) => reason.words) : []
    const whole = !prop && found?.stop ? found.reasons.filter((reason) => meanings[reason.code]?.stops).map((reason) => reason.words) : []
    const why = own.length > 0 ? own : whole.length > 0 ? whole : alone
    const stops = why.length > 0
    shake(stops ? why.join() : '')
    put($strip, stops ? stopView(Boolean(found?.out), why) : prop && (found && today && reading(prop.name) ? propStrip(today, found) : h('span', { class: 'soft' }, roundWords.notRead(openWords(prop.name)))))
    put($result, !prop && found && wholeResult(found, !answered(names), only))
  }
  /** @type {ReturnType<typeof setTimeout>|undefined} */
  let timer
  $main.addEventListener('input', () => {
    put($asked)
    clearTimeout(timer)
    timer = setTimeout(check, CHECK_AFTER_MS)
  })
  check()

  const before = at > 0 ? names[at - 1] : 'begin'
  const after = at + 1 < names.length ? names[at + 1] : 'whole'
  put($foot, $strip, h('nav', { class: 'thumbs', 'aria-label': roundWords.nav },
    step(`‹ ${before === 'begin' ? roundWords.drawing : before}`, () => go(before), 'back'),
    before === 'begin' ? leave() : step(roundWords.drawing, () => go('begin'), 'mid'),
    prop ? step(`${after === 'whole' ? roundWords.whole : after} ›`, () => go(after), 'next') : step(roundWords.finish, finish, 'next')))

  /** What keeps the round from being finished, with the way to it. @param {string} words @param {string} [to] */
  function tell(words, to) {
    put($asked, words, to && h('button', { type: 'button', class: 'ask', onclick: () => go(to) }, `${to === 'begin' ? roundWords.drawing : to} ›`))
    $asked.scrollIntoView({ block: 'center' })
  }

  async function finish() {
    const open = openQuestions(names, found?.stop)
    if (open.length) { tell(roundWords.open(open.join(', ')), open.some((one) => one === roundWords.openWhy || one === roundWords.openName) ? 'begin' : open.find((one) => names.includes(one))); return }
    // Whoever must get out is not kept in for a photo.
    const photosOf = found?.stop ? [] : [...names, ''].filter((name) => waitsForPhoto(name))
    if (photosOf.length) { tell(roundWords.photoFirst(photosOf.map((name) => name || roundWords.whole).join(', ')), photosOf.find(Boolean)); return }
    try {
      // Once a note is kept its field is empty, so that a second try keeps it once.
      for (const note of notesOf(names)) {
        await app.addNote(/** @type {string} */ (site.id), `${note.name}: ${note.words}`)
        write(note.field, null)
      }
      await flush()
      const done = await app.finishRound(/** @type {string} */ (site.id), roundOf(names))
      app.armReminders().catch(() => {})
      forgetRound()
      sleep()
      shake('')
      await readAgain()
      put($main, wholeResult(done.evaluation, false, only), h('p', { class: 'said' }, roundWords.keptLine),
        (site.state?.open ?? 0) > 0 && h('a', { class: 'ask aslink', href: `#${site.id}/findings` }, roundWords.toFindings(site.state.open)), h('a', { class: 'do', href: `#${site.id}/record` }, roundWords.toRecord), curvesView())
      put($foot, bar('round'))
      scrollTo(0, 0)
    } catch (failure) { tell(roundFailure(failure, names)) }
  }
  noteNo(prop?.name ?? '')
}
