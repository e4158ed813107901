// @ts-check
import { dated } from './parts/numbers.js'
import { language } from './words/language.js'

/**
 * Sentences that the app itself says, put into the language of the screens. What people wrote stays as they wrote it: it lies
 * under keys that are passed over, and where it stands among the app's own words only whole sentences of the app are known.
 */

/** The app says nothing longer. A long text of somebody's own is not searched, which could take very long. */
const LONGEST = 900

/** Keys under which people's own words, or codes, stand. */
const OWN = new Set(['fields', 'text', 'name', 'place', 'file', 'file_name', 'path', 'id', 'hash', 'entry', 'code', 'about', 'at', 'svg', 'source', 'body', 'where', 'product', 'notes', 'setting', 'value', 'category', 'side', 'kind', 'standing', 'who', 'what', 'locator', 'document', 'seen', 'how', 'steps'])

/** @typedef {{plain: Map<string, string>, patterns: {is: RegExp, start: string, becomes: string, thin: boolean}[], known: Map<string, string|null>}} Speech */

/**
 * Readies pairs of sentences. `{}` in the first takes anything, `{}` in the second gives it back in order.
 * @param {readonly (readonly string[])[]} pairs @returns {Speech}
 */
export function speech(pairs) {
  const plain = new Map()
  const patterns = []
  for (const [from, to] of pairs) {
    if (!from.includes('{}')) { plain.set(from, to); continue }
    const is = new RegExp(`^${from.split('{}').map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('(.*?)')}$`, 's')
    // `{} to {}` would take half of any sentence: it is for names and figures within one.
    patterns.push({ is, start: from.slice(0, from.indexOf('{}')), becomes: to, thin: from.replaceAll('{}', '').length < 10 })
  }
  // What says more of itself is tried first, so that `{} and {}` takes only what nothing else takes.
  patterns.sort((one, other) => other.becomes.replaceAll('{}', '').length - one.becomes.replaceAll('{}', '').length)
  return { plain, patterns, known: new Map() }
}

/**
 * A sentence in the other language, or nothing where it has no words for it.
 * @param {Speech} speech @param {string} text @param {number} [depth] @returns {string|null}
 */
export function spoken(speech, text, depth = 0) {
  const bare = text.trim()
  if (bare.length > LONGEST) return null
  const kept = speech.known.get(bare)
  if (kept !== undefined) return kept
  let found = speech.plain.get(bare) ?? (depth > 0 ? byDay(bare) : null) ?? byList(speech, bare, depth)
  for (const { is, start, becomes, thin } of found === null ? speech.patterns : []) {
    if (!bare.startsWith(start)) continue
    const match = is.exec(bare)
    if (!match || (thin && (depth === 0 || match.slice(1).some((part) => part.split(' ').length > 3)))) continue
    let at = 0
    // Parts of a sentence may be sentences themselves; figures and names stay as they are.
    found = becomes.replaceAll('{}', () => {
      const part = match[(at += 1)] ?? ''
      const inner = depth < 6 ? spoken(speech, part, depth + 1) : null
      return inner === null ? part : part.replace(part.trim(), () => inner)
    })
    break
  }
  found ??= bySentence(speech, bare, depth)
  // A few thousand sentences at most; a long day must not fill the phone.
  if (speech.known.size > 4000) speech.known.clear()
  speech.known.set(bare, found)
  return found
}

const MONTHS = Object.freeze(['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December'])

/** A day as the app writes it within a sentence, `2 March 2026` (`2 Mar 2026` in older notes), with or without a time behind it, as the reader's country does. @param {string} text @returns {string|null} */
function byDay(text) {
  const [, date, month = '', year, time = ''] = /^(\d{1,2}) ([A-Z][a-z]{2,8}) (\d{4})(, [\d:]+ [+-][\d:]+)?$/.exec(text) ?? []
  const at = MONTHS.findIndex((name) => name === month || name.slice(0, 3) === month)
  return at < 0 ? null : dated(`${year}-${String(at + 1).padStart(2, '0')}-${String(date).padStart(2, '0')}`) + time
}

/** What stands between the items of a list within a sentence; the coarser comes first. */
const BETWEEN = Object.freeze([/(; )/, /( and |, (?=storey |beside ))/])

/** A list within a sentence, if every item of it is known: else the first item's words would take in all the others. @param {Speech} speech @param {string} text @param {number} depth @returns {string|null} */
function byList(speech, text, depth) {
  if (depth === 0 || depth > 6) return null
  for (const between of BETWEEN) {
    const each = text.split(between)
    if (each.length < 3) continue
    const all = each.map((one, i) => (i % 2 === 1 ? one.replace(' and ', ' und ') : spoken(speech, one, depth + 1)))
    if (all.every((one) => one !== null)) return all.join('')
  }
  return null
}

/** Several sentences in a row, each for itself. @param {Speech} speech @param {string} text @param {number} depth @returns {string|null} */
function bySentence(speech, text, depth) {
  const each = text.split(/(?<=[.!?]) (?=\p{Lu})/u)
  if (each.length < 2) return null
  const all = each.map((one) => spoken(speech, one, depth + 1))
  return all.some((one) => one !== null) ? all.map((one, i) => one ?? each[i]).join(' ') : null
}

/**
 * An answer of the app with its sentences in the other language.
 * @param {Speech} speech @param {any} answer @param {string} [key] @returns {any}
 */
export function inSpeech(speech, answer, key = '') {
  // A single word may be a code that the pages go by.
  if (typeof answer === 'string') return OWN.has(key) || !answer.includes(' ') ? answer : spoken(speech, answer) ?? answer
  if (Array.isArray(answer)) return answer.map((one) => inSpeech(speech, one, key))
  if (!answer || typeof answer !== 'object' || ArrayBuffer.isView(answer) || key === 'fields') return answer
  return Object.fromEntries(Object.entries(answer).map(([name, one]) => [name, inSpeech(speech, one, name)]))
}

const speaks = language === 'de' ? speech((await import('./words/de/said.js')).said) : null

/** An answer of the app as the screens speak. @template T @param {T} answer @returns {T} */
export const inTongue = (answer) => (speaks ? inSpeech(speaks, answer) : answer)

/** One sentence or word of the app where it is shown; what the pages go by stays as it came. @param {string} text */
export const tongue = (text) => (speaks ? spoken(speaks, text) : null) ?? text
