// @ts-check
import { app, failureText } from '../../bridge.js'
import { h, put } from '../../parts/dom.js'
import { choice, pick, quantity } from '../../parts/field.js'
import { newestOf, photos } from '../../parts/photo.js'
import { flush, site } from '../../parts/site.js'
import { stroke, taps, wordsAt, writeAt } from '../../parts/taps.js'
import { fold } from '../../parts/why.js'
import { measureWords as words } from '../../words.js'
import { goesOn } from '../start/state.js'
import { cardView } from './card.js'
import { lensView } from './lens.js'
import { thingsView } from './readings.js'
import { setOutView } from './set-out.js'
import { CORNERS, at, choosePhoto, edges, edgesPx, lacking, nameOf, ofThePhoto, path, photoNow, request, said, say, spots, things } from './state.js'
import { wrongText } from './wrong.js'

/** @typedef {import('../../parts/taps.js').At} At */

/**
 * The photo as the measuring tool: something of known size, four taps, then readings that go into the description.
 * @param {HTMLElement} $main @param {() => void} again
 * @returns {() => void}
 */
export function measureScreen($main, again) {
  const photo = photoNow()
  const start = goesOn() === 'start'
  $main.append(h('p', { class: 'ways' }, h('a', { href: `#${site.id}/${start ? 'start' : 'wall'}` }, start ? words.toStart : words.back)))
  const $choose = photoView(again)
  $main.append($choose)
  if (!photo) return () => {}
  $main.append(referenceView(again))
  const $taps = h('section', {}, h('h2', {}, words.taps), h('p', { class: 'hint' }, words.kindFirst))
  $main.append($taps)
  if (said('kind')) tapping($main, $taps, photo, again)
  return () => {}
}

/** @param {() => void} again */
function photoView(again) {
  const photo = photoNow()
  const here = site.photos.filter((one) => one.view && one.about === 'wall')
  const $add = photos('wall', 'group', words.photoOf)
  // A photo that was just taken in can be chosen at once.
  $add.addEventListener('photo', () => { const newest = newestOf('wall'); if (newest) { choosePhoto(newest.sha); flush(); again() } })
  const $list = h('div', { class: 'photos' }, here.map((one) => h('button', {
    type: 'button', class: 'picture pickphoto', 'aria-pressed': String(one.sha === photo?.sha), onclick: () => { choosePhoto(one.sha); flush(); again() },
  }, h('img', { src: one.thumb_url, alt: '' }), h('span', {}, one.sha === photo?.sha ? words.chosen : words.choose))))
  return h('section', {}, h('h2', {}, words.photo), h('p', { class: 'hint' }, photo ? words.photoHint : words.noPhoto),
    photo ? [here.length > 1 && $list, fold(words.otherPhoto, $add)] : $add,
    photo && choice(path('side'), words.sides, { label: words.side, value: said('side') || 'inside', changed: (value) => { say('side', value); again() } }),
    photo && choice(path('lens'), words.lenses, { label: words.lens, value: said('lens') || 'phone', changed: (value) => { say('lens', value); again() } }))
}

/** @param {() => void} again */
function referenceView(again) {
  const kind = said('kind')
  const bricks = kind === 'brick_panel'
  return h('section', {}, h('h2', {}, words.known), h('p', { class: 'hint' }, words.knownHint),
    choice(path('kind'), words.kinds, { label: words.kind, changed: (value) => { say('kind', value); again() } }),
    kind && !bricks && [quantity(path('width_mm'), { label: words.width, unit: 'mm' }), quantity(path('height_mm'), { label: words.height, unit: 'mm' }), quantity(path('plus_minus_mm'), { label: words.plusMinus, unit: 'mm', hint: words.plusMinusHint })],
    bricks && [h('p', { class: 'hint' }, words.bricksHint), quantity(path('courses'), { label: words.courses }), quantity(path('stretchers'), { label: words.stretchers })],
    (bricks || things().some(({ what }) => what === 'courses')) && pick(path('format'), words.formats, { label: words.format }))
}

/** @param {HTMLElement} $main @param {HTMLElement} $taps @param {import('../../parts/types.js').Photo} photo @param {() => void} again */
async function tapping($main, $taps, photo, again) {
  const $wrong = h('p', { class: 'wrong', role: 'status' })
  const $zero = h('div', { class: 'zeros' })
  const id = /** @type {string} */ (site.id)
  /** @type {any} */
  let size
  try { size = await app.photoSize(id, photo.sha) } catch (failure) { put($taps, h('h2', {}, words.taps), h('p', { class: 'wrong' }, failureText(failure))); return }
  const redrawn = () => { tool.set(spots()); zeros(); ask() }
  const list = thingsView(again, redrawn)
  const lens = lensView(redrawn)
  const setOut = setOutView(photo, () => tool.tapPx())
  const tool = taps(photo.view_url, size, words.photo, (key, to, done) => {
    say(key, to && writeAt(to))
    held = !done
    if (done) { flush(); tool.set(spots()); zeros(); lens.draw(); setOut.draw() }
    ask()
  })
  const zeros = () => put($zero, ['origin', 'floor'].filter(() => CORNERS.every((key) => at(`t/${key}`))).map((key) => {
    const left = said(`t/${key}`) === 'none'
    return (left || !at(`t/${key}`)) && h('button', { type: 'button', class: 'ask', onclick: () => { say(`t/${key}`, left ? null : 'none'); flush(); tool.set(spots()); zeros(); ask() } }, left ? words.askAgain(key) : words.leaveOut(key))
  }))

  let asked = 0
  let busy = false
  // While a finger moves a spot only what it moves is worked out, not what the edges change.
  let held = false
  // One reading at a time; while one is on its way only the newest taps wait.
  const ask = async () => {
    asked += 1
    show(null)
    if (busy) return
    busy = true
    for (let mine = -1; mine !== asked;) {
      mine = asked
      const what = request(tool.tapPx())
      try {
        const answer = what && await app.measure(id, photo.sha, what)
        // Once the corners stand, the sizes are all that is missing.
        const open = CORNERS.every((key) => at(`t/${key}`)) ? lacking() : []
        $wrong.textContent = open.length > 0 ? words.lacks(open) : ''
        show(answer)
        const plain = answer && !held && edgesPx().length > 0 && await app.measure(id, photo.sha, { ...what, view: { ...what.view, edges_px: [] } })
        if (!held) lens.show(answer, plain || null)
      } catch (failure) { show(null); $wrong.textContent = wrongText(failure) }
    }
    busy = false
  }
  /** @type {any} */
  let last = null
  const show = (/** @type {any} */ answer) => {
    last = answer ?? last
    tool.over(drawn(last, tool.perPoint()))
    // Under a moving finger only the figure on the photo follows; the rest of the page waits for the finger to be up.
    if (answer && !held) { list.show(answer); put($doubts, doubtsOf(answer)) }
  }
  const $doubts = h('div', { 'aria-live': 'polite' })
  put($taps, h('h2', {}, words.taps), tool.$view, $zero, $wrong, $doubts)
  $main.append(list.$view, lens.$view, setOut.$view, h('section', {}, h('h2', {}, words.card), cardView()))
  $taps.closest('main')?.addEventListener('input', (event) => { if ($taps.isConnected && /** @type {HTMLInputElement} */ (event.target).name?.startsWith('/job/sight/')) ask() })
  tool.set(spots())
  zeros()
  ask()
  setOut.draw()
}

/** @param {any} answer */
function doubtsOf(answer) {
  return [answer.trust === 'refused' && h('p', { class: 'wrong' }, words.photoRefused), answer.doubts.filter(ofThePhoto).map((/** @type {any} */ doubt) => h('p', { class: doubt.trust === 'refused' ? 'wrong' : 'doubt' }, doubt.words))]
}

/** What is tapped so far, with its readings. @param {any} answer @param {number} perPoint */
function drawn(answer, perPoint) {
  const corners = CORNERS.map((key) => at(`t/${key}`)).filter((one) => one !== null)
  const read = (/** @type {number} */ row) => {
    const named = (/** @type {any} */ one) => one.name === String(row)
    const length = answer?.lengths.find(named)?.length ?? answer?.levels.find(named)?.length ?? answer?.coursing.find(named)?.length ?? answer?.rectangles.find(named)?.sizes?.width
    return length ? words.metres(length.mm) : ''
  }
  return [corners.length > 1 && stroke(corners, corners.length === 4, 'known'),
    edges().map(({ points }) => { const there = /** @type {At[]} */ (points.filter(Boolean)); return there.length > 1 && stroke(there, false, 'edge') }),
    things().map(({ row, what, points }) => {
      const there = /** @type {At[]} */ (points.filter(Boolean))
      // Beside its cross, not under it.
      if (what === 'level' && there[0]) return wordsAt([there[0][0], there[0][1] - 22 * perPoint], read(row) || nameOf(row), perPoint, what)
      if (there.length < 2) return null
      // Corners may be tapped in any order: they are joined round their middle.
      const middle = /** @type {At} */ ([0, 1].map((i) => there.reduce((sum, one) => sum + one[i], 0) / there.length))
      const round = there.slice().sort((a, b) => Math.atan2(a[1] - middle[1], a[0] - middle[0]) - Math.atan2(b[1] - middle[1], b[0] - middle[0]))
      return [stroke(round, round.length === 4, what), there.length === points.length && wordsAt(middle, read(row) || nameOf(row), perPoint, what)]
    })]
}
