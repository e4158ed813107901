// @ts-check
import { arrow, bricks, dim, earth, hatch, p, pic, rect, sash, screwdriver, t } from './ink.js'

/** One picture for each reason that takes a job out of the method, or near its edge. */

const BOX = '0 0 112 84'

const cellar = () => [
  p('w', rect(0, 30, 112, 54)), p('f', rect(22, 38, 84, 38)), p('l', 'M0 30H112'), p('b', rect(10, 4, 10, 74)), p('t', hatch(10, 4, 10, 74, 5)),
  p('f', rect(20, 27, 92, 5)), p('t', 'M28 27v5M40 27v5M52 27v5M64 27v5M76 27v5M88 27v5M100 27v5'), p('l', 'M106 76H88v-7H78v-7H68v-8H58v-8H48v-8'),
  p('o', rect(40, 3, 5, 21)), p('l', 'M36 25h13'), arrow('ol', 42.5, 34, 42.5, 60),
]

const chimney = () => [
  p('w', rect(8, 34, 96, 42)), p('l', 'M8 34V76M104 34V76M2 36L56 12L110 36'), p('f', 'M44 76V36L48 30V4H66V30L70 36V76'), p('brick', bricks(48, 4, 18, 26, 4, 9)), p('l', 'M45 4h24M51 4V0M57 4V0M63 4V0'),
  p('l', 'M50 76V60q7-6 14 0v16'), p('t', 'M8 54H44M70 54H104'), earth(0, 112, 76),
]

const bay = () => [
  p('w', rect(4, 8, 104, 68)), earth(0, 112, 76), p('f', 'M24 28L38 16H76L90 28z'), p('t', 'M31 22H83'),
  p('f', 'M24 28H90V76H24z'), p('l', 'M42 28V76M72 28V76M24 58H90'), p('t', 'M27 32l12 2V55H27zM45 32H69V55H45zM75 34l12-2V55H75zM57 32V55'),
  p('m', 'M24 80L40 83H74L90 80'),
]

const veneer = () => [
  p('b', rect(12, 6, 13, 72)), p('brick', bricks(12, 6, 13, 72, 6, 13)), p('t', 'M34 6V78M38 6V78'),
  p('f', rect(46, 6, 8, 72)), p('f', rect(90, 6, 8, 72)), p('f', rect(46, 6, 52, 7)), p('f', rect(46, 71, 52, 7)), p('t', 'M54 42H90M54 47H90M48 12v60M52 12v60M92 12v60M96 12v60'), p('l', 'M102 6V78'),
]

const removed = () => [
  p('b', rect(6, 8, 8, 68)), p('t', hatch(6, 8, 8, 68, 5)), p('b', rect(98, 8, 8, 68)), p('t', hatch(98, 8, 8, 68, 5)), p('f', rect(14, 34, 84, 6)), p('t', 'M24 34v6M34 34v6M44 34v6M54 34v6M64 34v6M74 34v6M84 34v6M94 34v6'),
  p('cut', rect(51, 40, 10, 36)), p('b', rect(51, 8, 10, 26)), p('t', hatch(51, 8, 10, 26, 5)), p('ol', 'M47 52l18 14M65 52L47 66'), earth(0, 112, 76),
]

const digging = () => [
  p('w', 'M0 44H60L66 76H94L100 44H112V84H0z'), p('l', 'M0 44H60L66 76H94L100 44H112'), p('o', rect(38, 4, 6, 34)), p('b', rect(24, 38, 34, 6)),
  p('f', 'M74 70l-7-15 8-4 8 14q-2 6-9 5z'), p('l', 'M71 53L86 14M81 12l10 4'), p('t', 'M64 52l-8 8M66 62l-10 10M94 56l10 10M92 68l8 8'), p('l', 'M100 44q4-10 12-8'),
]

const cracked = () => [
  p('w', 'M18 4H92V76H18z'), p('brick', bricks(18, 4, 74, 72, 8, 18)), p('ol2', 'M34 4v8h9v8h9v8h-9v8h9v8h9v8h9v8h-9v8h9v8'), p('l', 'M18 4V76'), p('l', 'M92 4Q108 40 92 76'), p('m', 'M92 4V76'), arrow('m', 92, 40, 99.5, 40, 4), earth(0, 112, 76),
]

const corner = () => [
  p('w', 'M40 6H112V76H40z'), p('w', 'M40 6L14 16V84L40 76z'), p('l', 'M40 6V76M40 6H112M40 6L14 16V84L40 76'), p('t', 'M33 11v68M26 14v66'), p('cut', 'M56 76V30H104V76'), p('f', rect(57, 31, 46, 45)), p('cut', 'M56 76V30H104V76'), dim(40, 22, 56, 22), t(76, 22, '0.45 m', 'dimt'), earth(40, 112, 76),
]

const gable = () => [
  p('w', 'M16 76V38L56 6L96 38V76z'), p('brick', bricks(30, 30, 52, 12, 4, 9)), p('l', 'M16 76V38M96 38V76'), p('l2', 'M6 45L56 5L106 45'), sash(48, 22, 16, 14), p('cut', 'M36 76V52H76V76'), p('f', rect(37, 53, 38, 23)), p('cut', 'M36 76V52H76V76'), earth(0, 112, 76),
]

const loose = () => [
  p('w', rect(14, 6, 84, 70)), p('brick', bricks(14, 6, 84, 70, 10, 24)), p('void', 'M50 26h24v10H50zM38 46h24v10H38z'), p('f', 'M70 66l22-6 3 9-22 6z'), p('l', 'M14 36h30M62 56h36'),
  screwdriver(34, 36, -30),
]

const mark = () => [
  p('l', 'M6 34L56 8L106 34'), p('w', rect(14, 44, 84, 34)), p('l', 'M14 78V44H98V78'), p('f', rect(10, 36, 92, 6)), p('f', 'M44 16h24v14H44z'), p('m', 'M44 21q6-4 12 0t12 0'), p('l', 'M48 30v6M64 30v6'), p('o', rect(52, 42, 8, 10)), arrow('ol', 56, 54, 56, 72, 7), p('cut', 'M28 84V74H84V84'),
]

const existing = () => [
  p('w', rect(4, 4, 104, 72)), p('brick', bricks(4, 4, 104, 20, 5, 13)), p('f', rect(58, 18, 24, 58)), p('l', 'M56 18h28'), p('t', 'M62 24h16v20H62zM62 50h16v20H62zM70 24v20'), p('cut', 'M16 76V40H96V76'), earth(0, 112, 76),
]

const sleeping = () => [
  p('l', 'M4 26L56 2L108 26'), p('l', 'M12 24V78M100 24V78'), p('f', rect(12, 54, 88, 6)), p('t', 'M22 54v6M34 54v6M46 54v6M58 54v6M70 54v6M82 54v6M92 54v6'),
  p('f', 'M26 54V34M26 54v-8h56v8M82 54V40'), p('l', 'M26 54V32M26 47h56M82 54V40'), p('f', 'M28 46q0-8 9-8h3v8z'), p('b', 'M42 46q2-8 18-8t20 8z'), p('cut', 'M32 78V66H80V78'),
]

/** @type {Readonly<Record<string, () => any>>} */
const PICTURES = Object.freeze({ cellar, chimney, bay, veneer, removed, digging, cracked, corner, gable, loose, mark, existing, sleeping })

/** @param {string} name */
export const strangePicture = (name) => pic(BOX, null, PICTURES[name]?.())
