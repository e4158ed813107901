// Stands in every page before its own scripts: what the app's window gives a page, over a line to the test.
(() => {
  const waiting = new Map()
  const run = Math.random().toString(36).slice(2)
  let next = 0
  const base64 = (bytes) => {
    let text = ''
    for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000))
    return btoa(text)
  }
  window.__fromTheApp = (number, ok, value) => {
    const one = waiting.get(number)
    waiting.delete(number)
    if (ok) one?.resolve(value)
    else one?.reject(value)
  }
  window.__waiting = () => waiting.size
  const invoke = (name, args, options) => new Promise((resolve, reject) => {
    const number = `${run} ${(next += 1)}`
    waiting.set(number, { resolve, reject })
    const raw = args instanceof Uint8Array ? base64(args) : null
    window.__toTheApp(JSON.stringify({ number, name, raw, args: raw === null ? args ?? {} : null, headers: options?.headers ?? {} }))
  })
  window.__TAURI__ = { core: { invoke } }
  // Presses that came through, so that a hand can tell whether its tap was felt.
  window.__presses = 0
  addEventListener('click', (event) => { if (event.isTrusted) { window.__presses += 1; window.__pressed = event.target } }, true)
  window.__refused = []
  document.addEventListener('securitypolicyviolation', (event) => window.__refused.push(`${event.violatedDirective} ${event.blockedURI}`))
})()
