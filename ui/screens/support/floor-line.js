// @ts-check
import { h } from '../../parts/dom.js'
import { force, inMm, number, percent } from '../../parts/numbers.js'
import { termsRow } from '../../parts/terms.js'
import { fold, ofCheck, opens, partHead, whyView, worstOfEach } from '../../parts/why.js'
import { supportWords } from '../../words.js'
import { feetRows, propRows } from './rows.js'
import { tile } from './tile.js'

/** @typedef {import('../../parts/types.js').Option} Option */
/** @typedef {import('../../parts/types.js').FloorLine} FloorLine */

/** Floors that hang on a line of their own, each whole; the others in one fold. @param {Option} option */
export function floorLinesView(option) {
  const needed = option.floor_lines.filter((line) => line.needed)
  const others = option.floor_lines.filter((line) => !line.needed)
  return [
    needed.length > 0 && h('section', {}, h('h2', {}, supportWords.floorLines), needed.map(lineView)),
    others.length > 0 && fold(supportWords.noLine, h('ul', { class: 'plainlist' }, others.map((line) => h('li', {}, h('strong', {}, supportWords.floorLine(line)), ': ', line.why)))),
  ]
}

/** @param {FloorLine} line */
function lineView(line) {
  const name = supportWords.floorLine(line)
  if (!line.header) return h('div', { role: 'group', 'aria-label': name }, h('h3', {}, name), h('p', { class: 'wrong' }, supportWords.noHeader), h('p', {}, line.why))
  const key = `${line.floor} ${line.side}`
  const worst = (/** @type {{utilisation: number}[]} */ list) => supportWords.used(percent(Math.max(0, ...list.map((one) => one.utilisation))))
  const top = ofCheck(worstOfEach(line.checks)[0])
  return h('div', { role: 'group', 'aria-label': name }, h('h3', {}, name), opens(line.why, top, `why ${key}`),
    opens([h('strong', {}, `${supportWords.header} ${line.header}.`), ' ', supportWords.headerLine(number(line.length_m, 2))], top, `header ${key}`, { kind: 'decides' }),
    h('div', { class: 'pair' },
      tile(number(line.distance_mm, 0), supportWords.fromWall, '', top, `wall ${key}`),
      tile(String(line.props.length), supportWords.lineProps, supportWords.lineApart(inMm(line.spacing_m ?? 0)), top, `apart ${key}`)),
    opens(supportWords.lineTakes(force(line.takes_kn), force(line.load_kn ?? 0)), top, `takes ${key}`),
    fold(`${supportWords.propsTitle}: ${line.props.length}, ${worst(line.props)}`, [partHead(), propRows(line.props, line.checks, () => null)], false, `props ${key}`),
    line.feet.length > 0 && fold(`${supportWords.feet}: ${worst(line.feet)}`, [partHead(supportWords.presses, supportWords.allowed), feetRows(line.feet, line.checks)], false, `feet ${key}`),
    line.way.length > 0 && fold(supportWords.lineWay, h('ul', { class: 'plainlist' }, line.way.map((one) => h('li', {}, one))), false, `way ${key}`, top),
    fold(supportWords.lineFigures(line.checks.length), () => [partHead(), worstOfEach(line.checks).map((check) => whyView(check, `${key} ${check.name}`))], false, `line ${key}`),
    termsRow(['header', 'prop', 'sole_board']))
}
