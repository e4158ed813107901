// @ts-check
import { app, failureText } from '../../bridge.js'
import { drawing, h, put } from '../../parts/dom.js'
import { showDrawing } from '../../parts/large-drawing.js'
import { photoView, sharePhoto } from '../../parts/photo.js'
import { site } from '../../parts/site.js'
import { measureWords as words } from '../../words.js'
import { ofThePhoto, view } from './state.js'

/** The kept proposal drawn over the photo, its figures, and the picture for the site. */

/** @param {import('../../parts/types.js').Photo} photo @param {() => number} tapPx */
export function setOutView(photo, tapPx) {
  const $body = h('div', {})
  const $said = h('div', { role: 'status' })
  const id = /** @type {string} */ (site.id)
  const overlaid = (/** @type {string} */ svg) => {
    const $over = drawing(svg, 'overlay')
    return h('div', { class: 'laid' }, h('img', { src: photo.view_url, alt: '' }), $over)
  }
  const save = async () => {
    const of = view(tapPx())
    if (!of) return
    put($said, h('p', { class: 'hint' }, words.saving))
    try {
      const kept = await app.drawSetOut(id, photo.sha, of)
      site.photos = [kept, ...site.photos.filter((one) => one.sha !== kept.sha)]
      put($said, h('p', { class: 'said' }, words.saved(kept.short)), photoView(kept), sharePhoto(kept))
    } catch (failure) { put($said, h('p', { class: 'wrong' }, failureText(failure))) }
  }
  let asked = 0
  return {
    $view: h('section', { class: 'setout' }, h('h2', {}, words.setOut), $body, $said),
    async draw() {
      if (!site.kept) { put($body, h('p', { class: 'hint' }, words.noKept), h('a', { class: 'ask', href: `#${id}/support` }, words.toSupport)); return }
      const of = view(tapPx())
      put($said)
      if (!of) { put($body, h('p', { class: 'hint' }, words.setOutHint)); return }
      asked += 1
      const mine = asked
      try {
        const answer = await app.setOut(id, photo.sha, of)
        if (mine !== asked) return
        const doubts = answer.doubts.filter(ofThePhoto).map((/** @type {any} */ doubt) => h('p', { class: doubt.trust === 'refused' ? 'wrong' : 'doubt' }, doubt.words))
        put($body, h('p', { class: 'hint' }, words.setOutHint), answer.svg && overlaid(answer.svg), doubts, answer.svg && [
          h('table', {}, h('thead', {}, h('tr', {}, h('th', {}, words.markHead.name), h('th', { class: 'n' }, words.markHead.x), h('th', { class: 'n' }, words.markHead.soffit), h('th', { class: 'n' }, words.markHead.drawn))),
            h('tbody', {}, answer.marks.map((/** @type {any} */ mark) => h('tr', {}, h('td', {}, mark.name), h('td', { class: 'n' }, h('b', {}, Math.round(mark.x_mm))), h('td', { class: 'n' }, Math.round(mark.soffit_mm)), h('td', { class: 'n' }, mark.drawn_x ? `± ${Math.ceil(mark.drawn_x.plus_minus_mm)}` : '–'))))),
          h('p', { class: 'doubt' }, answer.caution),
          h('button', { type: 'button', class: 'ask', onclick: () => showDrawing(words.setOut, overlaid(answer.svg), words.standing) }, words.large),
          h('button', { type: 'button', class: 'do', onclick: save }, words.savePicture)])
      } catch (failure) { if (mine === asked) put($body, h('p', { class: 'wrong' }, failureText(failure))) }
    },
  }
}
