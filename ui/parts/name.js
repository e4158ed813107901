// @ts-check
/** The name of whoever holds this phone: kept with each job beside its description, and remembered for the next one. */

export const MY_NAME = '/job/people/me'
const REMEMBERED = 'upstay-me'

/** The name last used on this phone. */
export function rememberedName() {
  try { return localStorage.getItem(REMEMBERED) ?? '' } catch { return '' }
}

/** @param {string} name */
export function rememberName(name) {
  try { localStorage.setItem(REMEMBERED, name) } catch { /* a phone that keeps nothing asks again on the next job */ }
}
