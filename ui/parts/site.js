// @ts-check
import { app } from '../bridge.js'

/**
 * The open job: its fields as typed, what is kept, and the last figures. Every change is kept as a draft at most 300 ms
 * after the last key, and at once when a field is left, the page hides or the camera opens.
 */
export const site = {
  /** @type {string|null} */ id: null,
  name: '',
  place: '',
  demo: false,
  /** @type {Record<string, string>} */ fields: {},
  /** @type {any} */ kept: null,
  /** @type {any[]} */ photos: [],
  /** @type {any[]} */ rounds: [],
  /** @type {any} */ figures: null,
  option: 0,
}

let counter = 0
/** @type {Map<string, {field: string, text: string|null, counter: number}>} */
const waiting = new Map()
/** @type {number|undefined} */
let keepTimer
/** @type {number|undefined} */
let figureTimer
let asked = 0
/** @type {Set<() => void>} */
const listeners = new Set()
/** @type {Set<(field: string, kept: boolean) => void>} */
const ticks = new Set()
/** @type {Promise<void>} */
let keeping = Promise.resolve()

/** @param {string} id */
export async function openSite(id) {
  await flush()
  const view = await app.open(id)
  Object.assign(site, { id, name: view.name, place: view.place, demo: view.demo, fields: { ...view.fields }, kept: view.kept, photos: view.photos, rounds: view.rounds, figures: null, option: 0 })
  counter = Math.max(counter, view.counter ?? 0)
  await figureNow()
}

/** Called again after each change of the figures. @param {() => void} listener */
export function onFigures(listener) {
  listeners.clear()
  listeners.add(listener)
}

/** Told when a field's text is on its way and when it is kept. @param {(field: string, kept: boolean) => void} listener */
export function onKept(listener) {
  ticks.clear()
  ticks.add(listener)
}

/** @param {string} field @param {string|null} text */
export function write(field, text) {
  counter += 1
  if (text === null) delete site.fields[field]
  else site.fields[field] = text
  waiting.set(field, { field, text, counter })
  ticks.forEach((tick) => tick(field, false))
  clearTimeout(keepTimer)
  keepTimer = setTimeout(flush, 250)
  if (!field.startsWith('/round/')) {
    clearTimeout(figureTimer)
    figureTimer = setTimeout(figureNow, 120)
  }
}

/** Removes all fields below a path. @param {string} prefix */
export function clearBelow(prefix) {
  for (const field of Object.keys(site.fields)) if (field.startsWith(prefix)) write(field, null)
}

/** Keeps what is waiting; resolves when the app has confirmed it. */
export function flush() {
  clearTimeout(keepTimer)
  keeping = keeping.then(async () => {
    const { id } = site
    if (!id || waiting.size === 0) return
    const writes = [...waiting.values()]
    writes.forEach((w) => waiting.delete(w.field))
    try {
      await app.keepDraft(id, writes)
      writes.filter((w) => !waiting.has(w.field)).forEach((w) => ticks.forEach((tick) => tick(w.field, true)))
    } catch (failure) {
      // Nothing typed is lost: it waits for the next try, and its tick stays away.
      writes.filter((w) => !waiting.has(w.field)).forEach((w) => waiting.set(w.field, w))
      clearTimeout(keepTimer)
      keepTimer = setTimeout(flush, 2000)
    }
  })
  return keeping
}

/** Fields of the job, without those of a round. */
export function jobFields() {
  return Object.fromEntries(Object.entries(site.fields).filter(([field]) => !field.startsWith('/round/')))
}

export async function figureNow() {
  clearTimeout(figureTimer)
  asked += 1
  const mine = asked
  let figures
  try {
    figures = await app.figure(jobFields(), site.option)
  } catch (failure) {
    figures = { problems: [{ path: '', wrong: String(/** @type {any} */ (failure).message ?? failure), right: 'try again' }], proposal: null, sketches: {} }
  }
  // An older answer never overwrites a newer one.
  if (mine !== asked) return
  site.figures = figures
  listeners.forEach((listener) => listener())
}

addEventListener('pagehide', () => { flush() })
document.addEventListener('visibilitychange', () => { if (document.visibilityState === 'hidden') flush() })
