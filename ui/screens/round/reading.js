// @ts-check
import { failureText } from '../../bridge.js'
import { below, site } from '../../parts/site.js'
import { roundWords } from '../../words.js'

/** From the fields of a round to what the app checks. Nothing is taken as yes: a prop with an open question is not read. */

/** What a turn of the collar moves when nobody measured the thread, mm; own judgement, typed over in its field. */
const THREAD_MM = 6
const GAUGES = ['1', '2', '3']

/** @param {string} path @returns {string|undefined} */
const typed = (path) => site.fields[`/round/${path}`]

/** A measure as typed, with or without its unit: the app reads it. Nothing typed is null. @param {string} path @returns {string|null} */
const num = (path) => (typed(path) ?? '').trim() || null

/** @param {string} path @returns {boolean|null} */
const flag = (path) => (typed(path) === undefined ? null : typed(path) === 'true')

/** A prop's reading, or null while something is not answered. @param {string} prop */
export function reading(prop) {
  const lean = [num(`${prop}/lean_along_mm`), num(`${prop}/lean_across_mm`)]
  const numbers = { over_m: num(`${prop}/over_m`), head_off_mm: num(`${prop}/head_off_mm`), foot_off_mm: num(`${prop}/foot_off_mm`) }
  const flags = Object.fromEntries(roundWords.asked.map(([key]) => [key, flag(`${prop}/${key}`)]))
  const pin = typed(`${prop}/pin`)
  if (!pin || lean.includes(null) || Object.values(numbers).includes(null) || Object.values(flags).includes(null)) return null
  return { prop, pin, collar_turns: num(`${prop}/collar_turns`) ?? 0, thread_mm: num('thread_mm') ?? THREAD_MM, lean_mm: lean, ...numbers, ...flags }
}

/** The readings of a gauge before, newest first. @param {string} name */
export const gaugeBefore = (name) => site.rounds.flatMap((done) => done.gauges ?? []).filter((gauge) => gauge.name === name)

/** What this prop read last time. @param {string} prop */
export const readingBefore = (prop) => site.rounds[0]?.readings?.find((/** @type {any} */ one) => one.prop === prop)

/** What is entered so far. @param {string[]} names */
export function roundOf(names) {
  const gauges = GAUGES.filter((i) => typed(`gauge${i}_name`) && num(`gauge${i}_mm`) !== null).map((i) => {
    const name = /** @type {string} */ (typed(`gauge${i}_name`))
    const before = gaugeBefore(name)
    const oldest = before.at(-1)
    return { name, mm: num(`gauge${i}_mm`), first_mm: oldest?.first_mm ?? oldest?.mm ?? null, last_mm: before[0]?.mm ?? null }
  })
  return { why: typed('why') ?? '', readings: names.map(reading).filter(Boolean), gauges, job_checks: { ...checks(), wind_m_s: num('wind_m_s') } }
}

function checks() {
  const said = Object.fromEntries(roundWords.wholeAsked.map(([key]) => [key, flag(key)]))
  // While a question of the whole job is open, a single prop's figures are still wanted: they do not hang on it, and the
  // result of the whole is then marked as not complete.
  return Object.fromEntries(Object.entries(said).map(([key, value]) => [key, value ?? key === 'braces']))
}

/** @param {string[]} names */
export const answered = (names) => openQuestions(names).length === 0

/**
 * What is not answered yet, in words. Nobody is sent back to the other props once one of them says stop: those are then
 * kept as not looked at.
 * @param {string[]} names @param {boolean} [stopped]
 */
export function openQuestions(names, stopped = false) {
  return [
    ...(typed('why') ? [] : [roundWords.openWhy]),
    ...(stopped ? [] : names.filter((name) => !reading(name))),
    ...roundWords.wholeAsked.filter(([key]) => flag(key) === null).map(([, label]) => label.replace('?', '')),
  ]
}

/** Notes on props, each with its field: they are kept as entries of their own. @param {string[]} names */
export const notesOf = (names) => names.map((name) => ({ name, field: `/round/${name}/note`, words: (typed(`${name}/note`) ?? '').trim() })).filter((note) => note.words !== '')

/** The app has cleared the round's drafts with its entry; here they go too. */
export function forgetRound() {
  for (const field of below('/round/')) delete site.fields[field]
}

/** What each measure of a reading is called. */
const LABELS = Object.freeze({
  lean_mm: [roundWords.along, roundWords.across], over_m: [roundWords.over], head_off_mm: [roundWords.head], foot_off_mm: [roundWords.foot],
  collar_turns: [roundWords.turns], thread_mm: [roundWords.thread], mm: [roundWords.gauges], wind_m_s: [roundWords.wind],
})

/** What a round's failure says, with the prop's name and the field's own words in place of paths. @param {any} failure @param {string[]} names */
export function roundFailure(failure, names) {
  const problems = /** @type {{path: string, wrong: string, right: string}[]} */ (failure?.problems ?? [])
  if (problems.length === 0) return failureText(failure)
  const read = roundOf(names).readings
  return problems.map(({ path, wrong, right }) => {
    const [, list, row, key, n] = path.split('/')
    const label = LABELS[/** @type {'mm'} */ (list === 'job_checks' ? row : key)]?.[Number(n ?? 0)]
    const what = [list === 'readings' && read[Number(row)]?.prop, label].filter(Boolean).join(', ')
    return roundWords.wrongAt(what || roundWords.whole, wrong, right)
  }).join(' ')
}
