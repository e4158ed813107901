// @ts-check
import { site } from './parts/site.js'
import { fieldWords } from './words.js'

/** What each field of a job is called, in which unit it is typed, how to find it out, and on which screen it stands. */

/**
 * @typedef {object} FieldText
 * @property {string} label
 * @property {string} [unit]
 * @property {string} [hint] how to find it out
 * @property {string} [minus] what a minus means; the field then has a button for it
 */

const { texts: TEXTS, checks: CHECKS, checksOfOne: OF_ONE } = fieldWords

/** What can be chosen, with its words. */
export const { choices } = fieldWords

/**
 * Two leaves or one: the names of the leaves depend on it.
 * @param {Record<string, string>} fields
 */
export const isTwo = (fields) => Object.keys(fields).some((field) => field.startsWith('/wall/leaves/1/'))

/** @param {string} i @param {boolean} two */
const leafName = (i, two) => fieldWords.leaf(Number(i), two ? 2 : 1)

/**
 * The part of a label that names its row, with its colon: "Storey 1 above: ".
 * @param {string} path @param {Record<string, string>} fields
 */
function prefixOf(path, fields) {
  const [, top, a, b, c] = path.split('/')
  const row = Number(a) + 1
  const { rows } = fieldWords
  if (top === 'sides' && a) return `${rows.side(a)}: `
  if (top === 'wall' && a === 'leaves' && b) return `${leafName(b, isTwo(fields))}: `
  if (top === 'wall' && a === 'openings' && b) return `${rows.existing(Number(b) + 1)}: `
  if (top === 'above' && a && b === 'openings' && c) return `${rows.storeyWindow(row, Number(c) + 1)}: `
  if (top === 'above' && a && b === 'leaves' && c) return `${rows.storeyLeaf(row, leafName(c, isTwo(fields)))}: `
  if (top === 'above' && a) return `${rows.storey(row)}: `
  if (top === 'points' && a) return `${rows.point(row)}: `
  if (top === 'forbidden' && a) return `${rows.place(row)}: `
  if (top === 'props' && b === 'table') return `${rows.line(Number(c) + 1)}: `
  return ''
}

/**
 * What a field is called. `prefix` is the row's name, which its heading says already.
 * @param {string} path @param {Record<string, string>} fields
 * @returns {FieldText & {prefix: string, full: string}}
 */
export function fieldText(path, fields) {
  const pattern = path.replace(/\/\d+(?=\/|$)/g, '/#').replace(/^\/sides\/(inside|outside)/, '/sides/#')
    .replace(/(\/table\/#)\/#$/, (_, start) => `${start}/${path.at(-1)}`)
  const known = TEXTS[pattern]
  const prefix = prefixOf(path, fields)
  const label = known?.label ?? plainPath(path)
  return { ...known, label, prefix: known ? prefix : '', full: known ? `${prefix}${label}` : label }
}

/** A key nobody put into words, as words. @param {string} path */
function plainPath(path) {
  const last = path.split('/').filter((part) => part && !/^\d+$/.test(part)).slice(-2).map((part) => part.replace(/_(m|mm|kn|kpa|deg|kn_m2|kn_m3|n_mm2|m_s)$/, '').replaceAll('_', ' '))
  const row = path.match(/leaves\/(\d)/)
  return `${last.at(-1) ?? fieldWords.theJob}${row ? fieldWords.ofLeaf(Number(row[1]) + 1) : last.length > 1 ? ` (${last[0]})` : ''}`
}

/** The screen on which a path is asked. @param {string} path @returns {'wall'|'above'|'support'} */
export function screenOf(path) {
  if (/^\/(above|roof|points|site)(\/|$)/.test(path)) return 'above'
  if (/^\/(check|engineer|builders_plan|catalogue\/(sections|rates))(\/|$)/.test(path)) return 'support'
  return 'wall'
}


/** Where a figure belongs: names of parts as they stand on the drawing, the rest in words. @param {string} at */
export const atWords = (at) => (at === 'all' ? fieldWords.wholeSupport : at)

/** A sentence of the app with the names of checks and of prop data in it put into words. @param {string} line */
export function inWords(line) {
  return line.replace(/\b[a-z]+(?:_[a-z]+)+\b/g, (name) => (name in CHECKS ? checkWords(name).replace(/^\w/, (letter) => letter.toLowerCase()) : name)).replace(/\btn79 (\d)/g, `${fieldWords.tradeSize} $1`)
}

/** What a check is called; it fits the wall as it is described. @param {string} name */
export function checkWords(name) {
  if (name in OF_ONE && !isTwo(site.fields)) return OF_ONE[name]
  const plain = name.replaceAll('_', ' ')
  return CHECKS[name] ?? plain.charAt(0).toUpperCase() + plain.slice(1)
}
