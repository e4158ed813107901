// @ts-check
/** How one phone shows things: no part of any job, and lost with the app. */

const KEY = 'shown'

/** @typedef {{light: 'phone'|'light'|'dark', lengths: 'metric'|'feet', language: 'phone'|'en'|'de'}} Settings */

/** @type {Settings} */
const FIRST = Object.freeze({ light: 'phone', lengths: 'metric', language: 'phone' })

/** @returns {Settings} */
export function settings() {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? '{}')
    return { light: ['light', 'dark'].includes(kept.light) ? kept.light : FIRST.light, lengths: kept.lengths === 'feet' ? 'feet' : FIRST.lengths, language: ['en', 'de'].includes(kept.language) ? kept.language : FIRST.language }
  } catch { return FIRST }
}

/** @param {Partial<Settings>} changed */
export function set(changed) {
  const all = { ...settings(), ...changed }
  // Where the phone keeps nothing for pages, the choice holds until the app is closed.
  try { localStorage.setItem(KEY, JSON.stringify(all)) } catch { /* shown all the same */ }
  light(all.light)
}

/** Light or dark by choice; the phone's own way otherwise. @param {string} [chosen] */
export function light(chosen = settings().light) {
  if (chosen === 'phone') delete document.documentElement.dataset.light
  else document.documentElement.dataset.light = chosen
}
