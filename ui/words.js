// @ts-check
import { language } from './words/language.js'
import * as en from './words/en/index.js'

/** All text of the screens, a file for each screen and language. Plain words; symbols and clauses only behind "why". */
const chosen = language === 'de' ? /** @type {typeof en} */ (/** @type {unknown} */ (await import('./words/de/index.js'))) : en

export const {
  words, jobsWords, startWords, wallWords, aboveWords, supportWords,
  termWords, orderWords, roundWords, emergencyWords, recordWords, shareWords,
  photoWords, packWords, measureWords, closeWords, backWords, deviceWords,
  aboutWords, fieldWords,
} = chosen
