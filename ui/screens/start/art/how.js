// @ts-check
import { s } from '../../../parts/dom.js'
import { arrow, bricks, dim, earth, hatch, p, person, pic, rect, sash, screwdriver, t, tape } from './ink.js'

/** How to find out: one drawing for each question. */

const BOX = '0 0 320 132'

/** @param {number} cx @param {number} cy */
const eye = (cx, cy) => [p('f', `M${cx - 12} ${cy}q12-12 24 0q-12 12-24 0z`), s('circle', { class: 'k', cx, cy, r: 4 })]

/** @type {Readonly<Record<string, () => any>>} */
const PICTURES = Object.freeze({
  house: () => [earth(0, 320, 118), person(40, 118, 40), [100, 172, 244].map((x, i) => [p('w', rect(x, 62 - i * 14, 56, 56 + i * 14)), p('l', `M${x} ${62 - i * 14}V118M${x + 56} ${62 - i * 14}V118`), p('f', `M${x - 5} ${62 - i * 14}l14-22h38l14 22z`), sash(x + 8, 96, 12, 14), sash(x + 36, 96, 12, 14), i > 0 && [sash(x + 8, 66, 12, 14), sash(x + 36, 66, 12, 14)], i > 1 && [sash(x + 8, 42, 12, 14), sash(x + 36, 42, 12, 14)]]), p('m', 'M50 84L96 62M50 86L168 92')],
  width: () => [p('w', rect(20, 8, 280, 92)), p('l', 'M20 8V100M300 8V100M4 100H316'), p('cut', 'M80 100V30H240V100'), p('paper', rect(81, 31, 158, 69)), p('cut', 'M80 100V30H240V100'), tape(80, 60, 240), p('m', 'M80 24v-8M240 24v-8'), dim(80, 116, 240, 116), person(120, 100, 62), p('m', 'M80 52v16M240 52v16')],
  head: () => [earth(10, 310, 118), p('o', rect(70, 20, 180, 12)), p('w', rect(40, 4, 240, 16)), p('l', 'M70 32V118M250 32V118'), p('b', rect(150, 32, 7, 78)), p('t', Array.from({ length: 12 }, (_, i) => `M150 ${38 + i * 6}h4`).join('')), p('f', 'M144 118h20v-12h-14q-6 0-6 6z'), dim(188, 32, 188, 118), person(108, 118, 62)],
  wall: () => [
    p('b', rect(10, 14, 22, 104)), p('t', hatch(10, 14, 22, 104)), p('b', rect(54, 14, 22, 104)), p('t', hatch(54, 14, 22, 104)), p('paper', rect(8, 46, 70, 42)), p('l', 'M10 46h66M10 88h66'), p('f', rect(24, 46, 10, 42)), p('m', 'M29 46v42'), dim(34, 102, 76, 102), tape(34, 62, 76),
    p('w', rect(150, 14, 160, 104)), p('brick', bricks(150, 14, 160, 104, 26, 64)), p('l2', 'M150 66h160'), p('ol2', 'M196 63l-8 6 6 4-9 5M203 68l4 8'), screwdriver(204, 66, -28),
  ],
  storeys: () => [earth(0, 320, 118), person(46, 118, 44), p('w', rect(150, 26, 110, 92)), p('l', 'M150 26V118M260 26V118'), p('f', 'M138 26L166 6H244L272 26z'), [34, 64].map((y, i) => [sash(164, y, 18, 18), sash(196, y, 18, 18), sash(228, y, 18, 18), t(276, y + 15, String(2 - i), 'dimt big', 'start')]), p('cut', 'M176 118V92h58v26'), p('m', 'M56 84L146 72M56 82L146 44')],
  floors: () => [
    [0, 1, 2, 3, 4].map((i) => p('f', rect(20, 14 + i * 21, 280, 20))), p('t', 'M110 14v20M220 35v20M70 56v20M180 77v20M260 98v20'),
    [64, 128, 192, 256].map((x) => [p('c', `M${x - 5} 4V128M${x + 5} 4V128`), [0, 1, 2, 3, 4].map((i) => [s('circle', { class: 'k', cx: x, cy: 20 + i * 21, r: 1.8 }), s('circle', { class: 'k', cx: x, cy: 28 + i * 21, r: 1.8 })])]), arrow('m', 128, 118, 128, 10, 8),
  ],
  roof: () => [p('b', rect(40, 84, 22, 46)), p('t', hatch(40, 84, 22, 46)), p('f', rect(38, 76, 26, 8)), p('f', 'M14 92L20 98L210 6L204 0z'), p('f', rect(62, 76, 240, 8)), p('o', rect(44, 76, 14, 8)), eye(178, 56), p('m', 'M166 60L66 78'), p('t', 'M74 72q14-8 28 0t28 0 28 0 28 0 28 0 28 0 28 0')],
  windows: () => [p('w', rect(50, 4, 220, 118)), p('l', 'M50 4V122M270 4V122M50 62h220M50 68h220'), sash(150, 18, 60, 30), p('cut', 'M100 122V84H230V122'), p('m', 'M100 84V4'), dim(100, 56, 150, 56), dim(150, 10, 210, 10), dim(222, 48, 222, 62), person(76, 62, 40)],
  sides: () => [p('w', rect(20, 6, 280, 100)), p('l', 'M20 6V106M4 106H316'), p('b', rect(300, 6, 12, 100)), p('t', hatch(300, 6, 12, 100)), p('f', rect(20, 30, 30, 76)), p('t', 'M35 30v76'), p('cut', 'M120 106V34H230V106'), p('paper', rect(121, 35, 108, 71)), p('cut', 'M120 106V34H230V106'), dim(50, 120, 120, 120), dim(230, 120, 300, 120)],
  feet: () => [p('w', rect(20, 4, 150, 98)), p('brick', bricks(20, 4, 150, 98, 14, 34)), p('l', 'M4 102H170M170 4V102'), [52, 120].map((x) => [p('f', rect(x, 75, 33, 13)), p('l', `M${x + 5} 79h23M${x + 5} 84h23`)]), p('f', rect(186, 40, 130, 7)), p('paper', rect(228, 38, 34, 11)), p('f', 'M230 40l-16-26 30-6 4 7z'), [196, 214, 270, 292].map((x) => p('f', rect(x, 47, 8, 18))), earth(186, 316, 112), arrow('m', 245, 44, 245, 106, 7)],
  beam: () => [p('f', rect(16, 8, 130, 116)), p('t', 'M26 20h60M26 28h40'), p('b', rect(60, 44, 26, 26)), p('f', rect(24, 58, 36, 8)), p('f', rect(86, 58, 36, 8)), p('o', rect(60, 72, 26, 14)), p('f', rect(174, 8, 130, 116)), p('t', 'M184 20h60M184 28h40'), p('b', rect(218, 40, 26, 16)), p('f', rect(182, 60, 36, 8)), p('f', rect(244, 60, 36, 8)), p('o', rect(218, 57, 26, 14))],
  strange: () => [p('f', rect(96, 30, 130, 70)), p('b', rect(96, 30, 130, 6)), p('b', rect(96, 94, 130, 6)), p('b', rect(96, 30, 6, 70)), p('b', rect(220, 30, 6, 70)), p('o', rect(140, 94, 44, 6)), p('l', 'M160 36V70M102 70H180'), p('m', 'M160 122H66V12H254V122H176M170 116l-8 6 8 6'), eye(44, 66), eye(276, 66)],
})

/** @param {string} name @param {string} label */
export const howPicture = (name, label) => pic(BOX, label, PICTURES[name]?.())
