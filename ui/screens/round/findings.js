// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { pick, text } from '../../parts/field.js'
import { time } from '../../parts/numbers.js'
import { meField } from '../../parts/me.js'
import { photos } from '../../parts/photo.js'
import { below, flush, wholePhotos, readAgain, site, write } from '../../parts/site.js'
import { roundWords as say } from '../../words.js'
import { MY_NAME, ringEngineer } from '../emergency/people.js'
import { meanings, readMeanings } from './no.js'

/** What stands open, what puts it right, and what somebody has seen between rounds. */

const AT = '/job/finding'
let naming = 0

/** @param {HTMLElement} $main @param {() => void} again */
export async function findingsScreen($main, again) {
  const $said = h('p', { class: 'said', role: 'status' })
  const $open = h('div', {})
  const $write = h('section', {})
  const $past = h('div', {})
  put($main, $said, $open, $write, $past)
  await readMeanings()
  const findings = /** @type {any[]} */ (site.state?.findings ?? [])
  const open = findings.filter((one) => one.open)
  const closed = findings.filter((one) => !one.open)
  put($open, open.length === 0 ? h('p', {}, say.nothingOpen) : [site.state.ring && ringEngineer(), open.map((one) => findingView(one, again))])
  put($write, h('h2', {}, say.seenSomething), seenView(again))
  put($past, closed.length > 0 && h('details', { class: 'fold' }, h('summary', { 'data-open': say.open1, 'data-close': say.shut }, say.putRightBefore(closed.length)),
    h('ul', { class: 'plainlist' }, closed.map((one) => h('li', {}, `${one.words} ${one.closed?.at ? say.closedAt(time(one.closed.at)) : ''}`)))))
}

/** What closes only with a round of every prop. */
const OF_ALL = Object.freeze(['sideways', 'unclear'])

/**
 * Begins a round of one prop, or of the whole job's questions alone; of everything where nothing less closes it.
 * @param {any} one
 */
async function lookAgain(one) {
  const { about } = one
  const started = below('/round/').length > 0
  const names = /** @type {any[]} */ (site.kept?.proposal?.options?.[site.kept.option]?.props ?? []).map((prop) => prop.name)
  const isProp = names.includes(about) || about.startsWith('F')
  const ofAll = !isProp && (one.from === 'hand' || OF_ALL.includes(one.code))
  // A round that stands half done goes on as it is: that prop is read in it.
  if (!started) {
    if (!ofAll) write('/round/only', isProp ? about : 'whole')
    write('/round/why', 'look again')
  }
  write('/round/place', ofAll ? 'begin' : started || isProp ? (isProp ? about : 'whole') : 'whole')
  await flush()
  location.hash = `#${site.id}/round`
}

/** Photos that were taken about something, without those that another finding or repair names: they show another thing. @param {string} about @param {any} [one] */
const takenFor = (about, one) => {
  const named = new Set(/** @type {any[]} */ (site.state?.findings ?? []).filter((other) => other.id !== one?.id).flatMap((other) => [...other.photos, ...other.repairs.flatMap((/** @type {any} */ repair) => repair.photos)]))
  return site.photos.filter((photo) => photo.about === about).map((photo) => photo.sha).filter((sha) => !named.has(sha))
}

/** @param {any} one @param {() => void} again */
function findingView(one, again) {
  const about = `${AT}/${one.id.replaceAll('/', '-').slice(0, 40)}`
  const $said = h('p', { class: 'wrong', role: 'alert' })
  const keep = async () => {
    try {
      await flush()
      await wholePhotos()
      const taken = takenFor(photoAbout(one), one)
      await app.addRepair(/** @type {string} */ (site.id), { finding: one.id, what: (site.fields[`${about}/repair`] ?? '').trim(), name: (site.fields[MY_NAME] ?? '').trim(), photos: taken })
      write(`${about}/repair`, null)
      await flush()
      await readAgain()
      again()
    } catch (failure) { $said.textContent = failureText(failure) }
  }
  const waits = one.waits === 'reading'
  return h('article', { class: `finding ${one.stops ? 'stops' : ''}`, id: `finding-${(naming += 1)}` },
    h('h2', {}, one.stops && h('span', { class: 'stopword' }, `${say.stopShort} `), one.words),
    h('p', { class: 'soft' }, [time(one.at), one.name, one.place].filter(Boolean).join(' · ')),
    h('p', {}, one.means), h('p', { class: 'donow' }, say.doNow), h('ol', {}, one.do.map((/** @type {string} */ line) => h('li', {}, line))),
    one.repairs.map((/** @type {any} */ repair) => h('p', { class: 'said' }, say.repaired(repair.name, repair.words, time(repair.at)), !repair.counts && ` ${repair.why_not}`)),
    one.waits_words && h('p', { class: 'waits' }, one.waits_words),
    waits && h('button', { class: 'do', type: 'button', onclick: () => lookAgain(one) }, one.about ? say.lookAgainAt(one.about) : say.lookAgain),
    h('details', { class: 'fold' }, h('summary', { 'data-open': say.open1, 'data-close': say.shut }, waits ? say.putRightAgain : say.putRight), h('div', {},
      text(`${about}/repair`, { label: say.whatWasDone }), meField(say.who), photos(photoAbout(one), 'detail', say.photoOfRepair),
      h('button', { class: 'do', type: 'button', onclick: keep }, say.keepRepair), $said)),
    !waits && h('button', { class: 'ask', type: 'button', onclick: () => lookAgain(one) }, one.about ? say.lookAgainAt(one.about) : say.lookAgain))
}

/** @param {any} one */
const photoAbout = (one) => `put right ${one.about || one.title}`

/** Something seen between rounds. @param {() => void} again */
function seenView(again) {
  const kind = `${AT}/kind`
  const what = `${AT}/what`
  const where = `${AT}/where`
  const $said = h('p', { class: 'wrong', role: 'alert' })
  const $means = h('div', { role: 'status' })
  const options = Object.entries(meanings).filter(([, meaning]) => meaning.by_hand).map(([code, meaning]) => [code, meaning.title])
  const show = () => {
    const meaning = meanings[site.fields[kind] ?? '']
    put($means, meaning && h('div', { class: 'means' }, h('p', {}, meaning.means), h('p', { class: 'donow' }, say.doNow), h('ol', {}, meaning.do.map((line) => h('li', {}, line)))), meaning?.ring && ringEngineer())
  }
  const keep = async () => {
    if (!site.fields[kind]) { $said.textContent = say.kindFirst; return }
    try {
      await flush()
      await wholePhotos()
      const taken = takenFor(say.seenAbout)
      await app.addFinding(/** @type {string} */ (site.id), { category: site.fields[kind], what: (site.fields[what] ?? '').trim(), where: (site.fields[where] ?? '').trim(), prop: null, name: (site.fields[MY_NAME] ?? '').trim(), photos: taken })
      for (const field of [kind, what, where]) write(field, null)
      await flush()
      await readAgain()
      again()
    } catch (failure) { $said.textContent = failureText(failure) }
  }
  const $kind = pick(kind, options, { label: say.seenKind })
  $kind.addEventListener('change', show)
  show()
  return [$kind, $means, text(what, { label: say.seenWhat }), text(where, { label: say.seenWhere }), meField(say.who), photos(say.seenAbout, 'detail', say.photoOfIt),
    h('button', { class: 'do', type: 'button', onclick: keep }, say.keepSeen), $said]
}
