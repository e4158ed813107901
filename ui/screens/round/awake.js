// @ts-check
/** Keeps the screen from going dark during a round; silently nothing where a phone cannot. */

/** @type {any} */
let lock = null
let wanted = false

async function take() {
  if (!wanted || lock || document.visibilityState !== 'visible') return
  try {
    lock = await /** @type {any} */ (navigator).wakeLock?.request('screen')
    lock?.addEventListener('release', () => { lock = null })
    if (!wanted) sleep()
  } catch { lock = null }
}

export function stayAwake() {
  wanted = true
  take()
}

export function sleep() {
  wanted = false
  lock?.release?.()
  lock = null
}

// The system takes the lock away with the page; it is taken again when somebody comes back to the round.
document.addEventListener('visibilitychange', take)
addEventListener('hashchange', () => { if (!location.hash.endsWith('/round')) sleep() })
