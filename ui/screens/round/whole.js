// @ts-check
import { h } from '../../parts/dom.js'
import { choice, pick, text } from '../../parts/field.js'
import { number } from '../../parts/numbers.js'
import { photos } from '../../parts/photo.js'
import { site } from '../../parts/site.js'
import { roundWords } from '../../words.js'
import { noteNo, noView } from './no.js'
import { crackReading } from './photo-reading.js'
import { GAUGES, gaugeBefore, gaugeName, gaugesKnown, leftPath } from './reading.js'
import { ruler } from './ruler.js'
import { windView } from './wind.js'

/** The questions of the whole job. @param {() => void} changed */
export function wholeView(changed) {
  const no = noView('', changed)
  const known = gaugesKnown()
  // A gauge that was read before is asked for by its name; one more place stays free.
  const asked = GAUGES.filter((i) => Number(i) <= Math.max(1, known.length + 1))
  const crack = crackReading()
  const gauge = (/** @type {string} */ i) => {
    const name = gaugeName(i)
    const before = name ? gaugeBefore(name)[0] : undefined
    const isKnown = Number(i) <= known.length
    return h('div', { class: 'gauge' }, !isKnown && text(`/round/gauge${i}_name`, { label: roundWords.gauge(i), hint: roundWords.gaugeHint }),
      ruler(`/round/gauge${i}_mm`, { label: isKnown ? roundWords.gaugeReads(name) : roundWords.reads(i), step: 0.1, marks: [], last: before ? `${number(before.mm)} mm` : '' }),
      isKnown && pick(leftPath(i), roundWords.leftWhys, { label: roundWords.notReadBecause(name), hint: roundWords.leftHint }))
  }
  const $page = h('section', {}, h('h2', {}, roundWords.whole),
    roundWords.wholeAsked.map(([key, label]) => {
      const $field = choice(`/round/${key}`, roundWords.yesNo, { label })
      $field.classList.add('yesno')
      return $field
    }), no.$box, windView(),
    h('h3', {}, roundWords.gauges), asked.map(gauge), h('div', { onphoto: crack.draw }, photos('crack', 'detail', roundWords.crackPhoto), crack.$view),
    h('p', {}, h('a', { class: 'small seen', href: `#${site.id}/findings` }, roundWords.seenSomething)))
  $page.addEventListener('change', () => { noteNo(''); no.update() })
  no.update()
  return { $page, update: no.update }
}
