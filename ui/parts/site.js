// @ts-check
import { app } from '../bridge.js'
import { words } from '../words.js'
import { MY_NAME, rememberedName } from './name.js'

/**
 * The open job: its fields as typed, what is kept, and the last figures. Every change is kept as a draft at most 300 ms
 * after the last key, and at once when a field is left, the page hides or the camera opens.
 */
export const site = {
  /** @type {string|null} */ id: null,
  name: '',
  place: '',
  country: '',
  demo: false,
  /** @type {Record<string, string>} */ fields: {},
  /** @type {any} */ kept: null,
  /** The newest photos, and whether older ones are still to be read, see `wholePhotos`. @type {import('./types.js').Photo[]} */ photos: [],
  morePhotos: false,
  /** @type {any[]} */ rounds: [],
  /** @type {{key: string, name: string, at: string}[]} */ stops: [],
  /** Findings and permits as they stand. @type {any} */ state: null,
  /** @type {import('./types.js').Figures|null} */ figures: null,
  option: 0,
}

const KEEP_AFTER_MS = 250
const FIGURE_AFTER_MS = 120
const AGAIN_AFTER_MS = 2000

let counter = 0
/**
 * What is on its way, by job and field: a job that cannot be written may be left with much still waiting, and none of it
 * may come into the next one.
 * @type {Map<string, {id: string, field: string, text: string|null, counter: number}>}
 */
const waiting = new Map()
/** @param {string} id @param {string} field */
const keyOf = (id, field) => `${id} ${field}`
/** @type {ReturnType<typeof setTimeout>|undefined} */
let keepTimer
/** @type {ReturnType<typeof setTimeout>|undefined} */
let figureTimer
let asked = 0
/** @type {() => void} */
let figured = () => {}
/** @type {(field: string, kept: boolean) => void} */
let ticked = () => {}
/** @type {(words: string|null) => void} */
let troubled = () => {}
/** What the check of the open job found, which comes after the first screen. @type {string|null} */
let broken = null
/** @type {Promise<void>} */
let keeping = Promise.resolve()

/** @param {string} id */
export async function openSite(id) {
  await flush()
  const view = await app.open(id)
  const { name, place, country, demo, kept, photos, more_photos: morePhotos, rounds, stops, state } = view
  Object.assign(site, { id, name, place, country, demo, kept, photos, morePhotos, rounds, stops, state, fields: { ...view.fields }, figures: null, option: 0 })
  // What could not be kept when this job was left stands where it was typed.
  for (const { field, text } of [...waiting.values()].filter((one) => one.id === id)) setField(field, text)
  counter = Math.max(counter, view.counter ?? 0)
  broken = null
  tellBroken(id)
  wholePhotos().catch(() => {})
  const me = rememberedName()
  if (me && !(MY_NAME in site.fields)) write(MY_NAME, me)
  await figureNow()
}

/** @param {string} id */
async function tellBroken(id) {
  try {
    const { damaged, faults } = await app.checked(id)
    if (site.id !== id || !(damaged || faults)) return
    broken = damaged ?? faults
    troubled(broken)
  } catch { /* The first write checks the file in any case. */ }
}

/** Reads again what entries hold: the kept proposal, photos, rounds and stops. */
export async function readAgain() {
  const { kept, photos, more_photos: morePhotos, rounds, stops, state } = await app.open(/** @type {string} */ (site.id))
  Object.assign(site, { kept, photos, morePhotos, rounds, stops, state })
  wholePhotos().catch(() => {})
  figured()
}

/** The reading that is under way: several parts of a page wait for the same one. @type {{id: string, whole: Promise<void>}|null} */
let reading = null

/**
 * Reads the photos that did not come with the job, newest first, behind those that did. What is shown first does not wait
 * for it; what has to know every photo does.
 * @returns {Promise<void>}
 */
export function wholePhotos() {
  const { id } = site
  if (!id || !site.morePhotos) return Promise.resolve()
  if (reading?.id === id) return reading.whole
  const mine = { id, whole: readOn(id).finally(() => { if (reading === mine) reading = null }) }
  reading = mine
  return mine.whole
}

/** @param {string} id */
async function readOn(id) {
  while (site.id === id && site.morePhotos) {
    const before = site.photos
    const page = await app.photos(id, before.at(-1)?.entry ?? null)
    // Another job stands open, or this one's photos were read anew: what came fits behind others.
    if (site.id !== id || site.photos !== before) continue
    site.photos = [...before, ...page]
    site.morePhotos = page.length > 0
  }
}

/**
 * Who is told of changes: one screen at a time.
 * @param {object} told
 * @param {() => void} told.figures after each answer
 * @param {(field: string, kept: boolean) => void} told.kept when a field is on its way, and when it is kept
 * @param {(words: string|null) => void} told.trouble when keeping fails, and null when it works again
 */
export function listen(told) {
  figured = told.figures
  ticked = told.kept
  troubled = told.trouble
}

/** @param {string} field @param {string|null} text */
function setField(field, text) {
  if (text === null) delete site.fields[field]
  else site.fields[field] = text
}

/** @param {string} field @param {string|null} text */
export function write(field, text) {
  if (!site.id) return
  counter += 1
  setField(field, text)
  waiting.set(keyOf(site.id, field), { id: site.id, field, text, counter })
  ticked(field, false)
  clearTimeout(keepTimer)
  keepTimer = setTimeout(flush, KEEP_AFTER_MS)
  if (!field.startsWith('/round/')) {
    // Figures on their way know nothing of this: shown now they would say of an answer just given that nobody gave it.
    // What is asked of the job itself, a name or a choice of view, changes no figure.
    if (!field.startsWith('/job/')) asked += 1
    clearTimeout(figureTimer)
    figureTimer = setTimeout(figureNow, FIGURE_AFTER_MS)
  }
}

/** Whether the app has confirmed what stands in a field. @param {string} field */
export const isKept = (field) => field in site.fields && !waiting.has(keyOf(site.id ?? '', field))

/** Fields below a path. @param {string} prefix */
export const below = (prefix) => Object.keys(site.fields).filter((field) => field.startsWith(prefix))

/** Removes all fields below a path. @param {string} prefix */
export function clearBelow(prefix) {
  below(prefix).forEach((field) => write(field, null))
}

/** Row numbers of a list: those that have a field. @param {string} prefix with its slash at the end */
export function rows(prefix) {
  const numbers = below(prefix).map((field) => Number(field.slice(prefix.length).split('/')[0]))
  return [...new Set(numbers)].filter(Number.isInteger).sort((a, b) => a - b)
}

/** Takes one row out and moves the later ones up. @param {string} prefix @param {number} row */
export function dropRow(prefix, row) {
  const held = below(prefix).map((field) => {
    const [at, ...rest] = field.slice(prefix.length).split('/')
    return { at: Number(at), rest: rest.join('/'), text: site.fields[field] }
  })
  clearBelow(prefix)
  for (const { at, rest, text } of held) {
    if (at !== row) write(`${prefix}${at > row ? at - 1 : at}/${rest}`, text)
  }
  flush()
}

/** Keeps what is waiting; resolves when the app has confirmed it. */
export function flush() {
  clearTimeout(keepTimer)
  keeping = keeping.then(keepWaiting)
  return keeping
}

async function keepWaiting() {
  for (const id of new Set([...waiting.values()].map((one) => one.id))) await keepOf(id)
}

/** Keeps what waits for one job, whether it is the open one or one that was left. @param {string} id */
async function keepOf(id) {
  const writes = [...waiting.values()].filter((one) => one.id === id).map(({ field, text, counter: at }) => ({ field, text, counter: at }))
  const tell = (/** @type {string|null} */ said) => { if (site.id === id) troubled(said) }
  try {
    const answer = await app.keepDraft(id, writes)
    for (const { field, counter: at, kept } of answer.kept) {
      const newest = waiting.get(keyOf(id, field))
      if (newest?.counter !== at) continue
      waiting.delete(keyOf(id, field))
      // An older write than what is kept already: nothing of the field's text was taken, so no tick.
      if (kept && site.id === id) ticked(field, true)
    }
    tell(broken)
  } catch {
    // Nothing typed is lost: it waits for the next try, and its tick stays away.
    tell(words.notKept)
    clearTimeout(keepTimer)
    keepTimer = setTimeout(flush, AGAIN_AFTER_MS)
  }
}

/** Fields of the job, without those of a round. */
export function jobFields() {
  const own = Object.entries(site.fields).filter(([field]) => !field.startsWith('/round/'))
  return { ...(site.country && { '/country': site.country }), ...Object.fromEntries(own) }
}

export async function figureNow() {
  clearTimeout(figureTimer)
  asked += 1
  const mine = asked
  let figures
  try {
    figures = await app.figure(jobFields(), site.option)
  } catch (failure) {
    const wrong = String(/** @type {any} */ (failure)?.message ?? failure)
    figures = { problems: [{ path: '', wrong, right: words.tryAgain }], proposal: null, sketches: {} }
  }
  // An older answer never overwrites a newer one.
  if (mine !== asked) return
  site.figures = figures
  const shown = figures.proposal?.options.length ?? 0
  if (site.option > 0 && site.option >= shown) site.option = 0
  figured()
}

addEventListener('pagehide', () => { flush() })
document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'hidden') flush() })
