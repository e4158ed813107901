// @ts-check
import { failureText } from '../../bridge.js'
import { below, site } from '../../parts/site.js'
import { roundWords } from '../../words.js'
import { MY_NAME } from '../emergency/people.js'
import { gustText } from './wind.js'

/** From the fields of a round to what the app checks. Nothing is taken as yes: a prop with an open question is not read. */

/** What a turn of the collar moves when nobody measured the thread, mm; own judgement, typed over in its field. */
const THREAD_MM = 6
/** Places for gauges; as many are asked as are known, and one more. Two phones may bring more than one person puts up. */
export const GAUGES = Array.from({ length: 20 }, (_, i) => String(i + 1))

/** @param {string} path @returns {string|undefined} */
export const typed = (path) => site.fields[`/round/${path}`]

/** A measure as typed, with or without its unit: the app reads it. Nothing typed is null. @param {string} path @returns {string|null} */
const num = (path) => (typed(path) ?? '').trim() || null

/** @param {string} path @returns {boolean|null} */
const flag = (path) => (typed(path) === undefined ? null : typed(path) === 'true')

/** The questions of one prop, in the order of the page. */
export const ASKED = Object.freeze(['pin', 'lean_along_mm', 'lean_across_mm', 'head_off_mm', 'foot_off_mm', ...roundWords.asked.map(([key]) => key)])

/** The first question of a prop without an answer. @param {string} prop */
export const openAt = (prop) => ASKED.find((key) => num(`${prop}/${key}`) === null) ?? (num(`${prop}/collar_turns_size`) === null ? undefined : 'collar_turns')

/** What is still to be said of a prop, in words; of a lean whose size stands there, only its way. @param {string} prop */
export function openWords(prop) {
  const key = openAt(prop)
  if (!key) return ''
  const sized = num(`${prop}/${key}_size`) !== null
  return (sized ? roundWords.wayOf[/** @type {'lean_along_mm'} */ (key)] : undefined) ?? roundWords.named[/** @type {'pin'} */ (key)]
}

/** A prop's reading, or null while something is not answered. @param {string} prop */
export function reading(prop) {
  const lean = [num(`${prop}/lean_along_mm`), num(`${prop}/lean_across_mm`)]
  const numbers = { over_m: num('over_m'), head_off_mm: num(`${prop}/head_off_mm`), foot_off_mm: num(`${prop}/foot_off_mm`) }
  const flags = Object.fromEntries(roundWords.asked.map(([key]) => [key, flag(`${prop}/${key}`)]))
  const pin = typed(`${prop}/pin`)
  // Turns without their way are an open question, not none.
  if (num(`${prop}/collar_turns_size`) !== null) return null
  if (!pin || lean.includes(null) || Object.values(numbers).includes(null) || Object.values(flags).includes(null)) return null
  return { prop, pin, collar_turns: num(`${prop}/collar_turns`) ?? 0, thread_mm: num('thread_mm') ?? THREAD_MM, lean_mm: lean, ...numbers, ...flags }
}

/** What a prop was answered "no" to, by the code of what it means. @param {string} prop */
export function nosOf(prop) {
  const codes = { foot_firm: 'foot', straight: 'bent', fixed: 'fixed', packed: 'packed' }
  const pin = typed(`${prop}/pin`)
  return [...(pin && pin !== 'right' ? ['pin'] : []), ...Object.entries(codes).filter(([key]) => flag(`${prop}/${key}`) === false).map(([, code]) => code)]
}

/** The same for the whole job: there a yes may be the bad answer. */
export const nosOfJob = () => roundWords.wholeAsked.filter(([key]) => flag(key) === (key !== 'braces')).map(([key]) => key)

/** The readings of a gauge before, newest first. @param {string} name */
export const gaugeBefore = (name) => site.rounds.flatMap((done) => done.gauges ?? []).filter((gauge) => gauge.name === name)

/** Names of the gauges that were read before and are not gone since; the newest round that speaks of one decides. */
export function gaugesKnown() {
  /** @type {Map<string, boolean>} */
  const there = new Map()
  for (const done of site.rounds) {
    for (const { name } of done.gauges ?? []) if (!there.has(name)) there.set(name, true)
    for (const { gauge, why } of done.gauges_left ?? []) if (why === 'gone' && !there.has(gauge)) there.set(gauge, false)
  }
  return [...there].filter(([, is]) => is).map(([name]) => name)
}

/** Where it is kept why a gauge is not read. @param {string} i */
export const leftPath = (i) => `/round/gauge${i}_left`

/** Known gauges in their places, each with what it reads and why it is left out. */
const gaugesAsked = () => gaugesKnown().map((name, at) => ({ name, mm: num(`gauge${at + 1}_mm`), left: typed(`gauge${at + 1}_left`) ?? '' }))

/** Whether the wall is an outside wall, which the wind pushes: so unless somebody said no. */
const outside = () => site.kept?.job?.wall?.outside_wall !== false

/** What a round of everything asks for beside props and yes or no: each gauge that is known, and the wind. */
const alsoAsked = () => (typed('only') ? [] : [
  ...gaugesAsked().filter(({ mm, left }) => mm === null && left === '').map(({ name }) => roundWords.gaugeReads(name)),
  ...(outside() && gustText() === null ? [roundWords.gust] : []),
])

/** A gauge's name: as typed, else the one that stood in this place before. @param {string} i @returns {string} */
export const gaugeName = (i) => (typed(`gauge${i}_name`) ?? '').trim() || (gaugesKnown()[Number(i) - 1] ?? '')

/** What this prop read last time. @param {string} prop */
export const readingBefore = (prop) => site.rounds.map((done) => done.readings?.find((/** @type {any} */ one) => one.prop === prop)).find(Boolean)

/** What this prop was good for last time. @param {string} prop */
export const todayBefore = (prop) => site.rounds.map((done) => done.today?.find?.((/** @type {any} */ one) => one.name === prop)).find(Boolean)

/** What was done to props since the round before. @param {string[]} names */
const changed = (names) => names.filter((name) => typed(`${name}/changed`)).map((name) => {
  const was = todayBefore(name)
  return { prop: name, what: /** @type {string} */ (typed(`${name}/changed`)), ...(was && { before: roundWords.wasGoodFor(was) }) }
})

/** Why there is no photo of a "no". @param {string[]} names */
const noPhotos = (names) => [...names, ''].filter((name) => num(noPhotoPath(name)) !== null).map((name) => ({ prop: name, why: /** @type {string} */ (num(noPhotoPath(name))) }))

/** @param {string} name of a prop; nothing for the whole job */
export const noPhotoPath = (name) => (name ? `${name}/no_photo` : 'no_photo')

/** What is entered so far. @param {string[]} names */
export function roundOf(names) {
  const gauges = GAUGES.filter((i) => gaugeName(i) && num(`gauge${i}_mm`) !== null).map((i) => {
    const before = gaugeBefore(gaugeName(i))
    const oldest = before.at(-1)
    return { name: gaugeName(i), mm: num(`gauge${i}_mm`), first_mm: oldest?.first_mm ?? oldest?.mm ?? null, last_mm: before[0]?.mm ?? null }
  })
  return {
    why: typed('why') ?? '', name: (site.fields[MY_NAME] ?? '').trim(), stage: typed('stage') ?? '', changed: changed(names), no_photo: noPhotos(names),
    gauges_left: gaugesAsked().filter(({ mm, left }) => mm === null && left !== '').map(({ name, left }) => ({ gauge: name, why: left })),
    readings: names.map(reading).filter(Boolean), gauges, job_checks: { ...checks(), wind_m_s: gustText() },
  }
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
    ...((site.fields[MY_NAME] ?? '').trim() ? [] : [roundWords.openName]),
    ...(stopped ? [] : names.filter((name) => !reading(name))),
    ...roundWords.wholeAsked.filter(([key]) => flag(key) === null).map(([, label]) => label.replace('?', '')),
    ...(stopped ? [] : alsoAsked()),
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
