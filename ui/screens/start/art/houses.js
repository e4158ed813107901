// @ts-check
import { arrow, bricks, earth, hatch, hint, p, person, pic, rect, sash, t } from './ink.js'

/** The ready house types, each with the place of the new opening in red oxide. */

const BOX = '0 0 160 116'

/** @param {string} d */
const opening = (d) => p('cut', d)

const bungalow = () => [
  earth(4, 156, 104), p('w', rect(22, 66, 116, 38)), p('l', 'M22 66v38M138 66v38'),
  p('f', 'M12 67L42 36H118L148 67z'), p('t', 'M20 59H140M27 52H133M34 44H126'),
  sash(30, 76, 20, 17), p('f', rect(56, 74, 12, 30)), p('t', 'M58 77h8v10h-8z'), opening('M80 104V76h46v28'),
  p('t', hint([25, 97, 2], [129, 70, 0], [72, 70, 2])),
]

const semi = () => [
  earth(4, 156, 104), p('w', rect(26, 46, 108, 58)), p('l', 'M26 46v58M134 46v58'), p('t', 'M80 46v58'),
  p('f', 'M17 47L44 18H116L143 47z'), p('t', 'M24 40H136M31 32H129M37 25H123'),
  p('f', rect(73, 8, 14, 15)), p('l', 'M71 8h18M76 8v-4h3v4M82 8v-4h3v4'),
  sash(36, 53, 18, 15), sash(62, 53, 11, 15), sash(88, 53, 11, 15), sash(107, 53, 18, 15),
  opening('M33 104V79h36v25'), p('f', rect(90, 78, 11, 26)), sash(108, 80, 17, 15),
  p('t', hint([30, 73, 2], [118, 73, 1], [30, 50, 0], [104, 99, 2])),
]

const terrace = () => [
  earth(0, 160, 104), p('w', rect(0, 44, 160, 60)), p('brick', bricks(50, 44, 60, 60, 4, 10)),
  p('l', 'M50 20V104M110 20V104'), p('f', 'M0 44L4 24H156L160 44z'), p('t', 'M2 37H158M3 30H157'), p('l', 'M50 44V24M110 44V24'),
  [50, 110].map((x) => [p('f', rect(x - 8, 8, 16, 20)), p('l', `M${x - 10} 8h20M${x - 5} 8v-5h3v5M${x + 2} 8v-5h3v5`)]),
  sash(57, 51, 13, 19), sash(88, 51, 13, 19), p('f', 'M57 104V82q6-6 12 0v22z'), p('t', 'M59 86h8v8h-8z'),
  p('f', rect(76, 78, 30, 26)), opening('M76 104V78h30v26'),
  sash(22, 51, 12, 19), sash(22, 79, 12, 17), sash(127, 51, 12, 19), sash(127, 79, 12, 17), p('t', 'M5 104V80h10v24M146 104V80h10v24'),
]

const three = () => [
  earth(0, 160, 108), p('w', rect(0, 22, 160, 86)), p('brick', bricks(46, 26, 68, 82, 4, 10)), p('l', 'M46 14V108M114 14V108'),
  p('f', rect(0, 18, 160, 6)), p('l', 'M0 15H160'), p('t', 'M0 21H160'),
  [46, 114].map((x) => [p('f', rect(x - 8, 5, 16, 13)), p('l', `M${x - 10} 5h20`)]),
  [53, 74, 95].map((x) => [sash(x, 29, 12, 14), sash(x, 52, 12, 17)]),
  p('f', 'M51 108V85q6-6 12 0v23z'), p('f', rect(72, 80, 36, 28)), opening('M72 108V80h36v28'),
  [14, 134].map((x) => [sash(x, 29, 12, 14), sash(x, 52, 12, 17), sash(x, 81, 12, 17)]),
]

const garage = () => [
  earth(4, 156, 104), p('w', rect(14, 48, 130, 56)), p('l', 'M14 48v56M144 48v56'), p('t', 'M82 48v56'),
  p('f', 'M6 49L30 16H66L88 49z'), p('t', 'M12 41H83M18 33H77M24 24H71'), p('f', 'M82 49L90 30H138L152 49z'), p('t', 'M85 42H147M88 36H143'),
  sash(24, 55, 18, 15), sash(54, 55, 18, 15), sash(22, 79, 20, 16), p('f', rect(54, 77, 12, 27)),
  sash(103, 54, 20, 14), p('f', rect(90, 78, 46, 26)), p('t', 'M90 84h46M90 90h46M90 96h46'), opening('M90 104V78h46v26'),
  p('t', hint([88, 72, 1], [128, 60, 1], [18, 74, 1])),
]

const inside = () => [
  earth(4, 156, 104), p('l', 'M8 50L80 10L152 50'), p('t', 'M18 50H142'),
  p('b', rect(14, 50, 8, 54)), p('t', hatch(14, 50, 8, 54, 4)), p('b', rect(138, 50, 8, 54)), p('t', hatch(138, 50, 8, 54, 4)),
  p('f', rect(22, 66, 116, 5)), p('t', 'M30 66v5M38 66v5M46 66v5M54 66v5M62 66v5M70 66v5M90 66v5M98 66v5M106 66v5M114 66v5M122 66v5M130 66v5'),
  p('o', rect(77, 71, 6, 33)), arrow('m', 34, 61, 70, 61), arrow('m', 126, 61, 90, 61), person(48, 104, 26), p('t', 'M104 104V92h16v12M106 92v-9h12v9'),
]

const none = () => [
  earth(4, 156, 104), p('c', 'M30 104V52H130V104M18 52L80 14L142 52'), t(80, 88, '?', 'huge'),
]

/** @type {Readonly<Record<string, () => any>>} */
const PICTURES = Object.freeze({
  bungalow, two_storey_cavity: semi, solid_wall_terrace: terrace, three_storey_terrace: three, garage_with_room_over: garage, internal_bearing_wall: inside, none,
})

/** @param {string} name */
export const housePicture = (name) => pic(BOX, null, PICTURES[name]?.())
