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
  // On Android a call is one text: bytes go as lists of numbers, and no command that wants bytes can take them.
  const android = /Android/.test(navigator.userAgent)
  const listed = (_key, value) => (value instanceof Uint8Array ? Array.from(value) : value instanceof ArrayBuffer ? Array.from(new Uint8Array(value)) : value)
  window.__longest = 0
  const invoke = (name, args, options) => new Promise((resolve, reject) => {
    const number = `${run} ${(next += 1)}`
    waiting.set(number, { resolve, reject })
    if (android) {
      const text = JSON.stringify({ number, name, raw: null, args: args ?? {}, headers: options?.headers ?? {} }, listed)
      window.__longest = Math.max(window.__longest, text.length)
      window.__toTheApp(text)
      return
    }
    const raw = args instanceof Uint8Array ? base64(args) : null
    window.__toTheApp(JSON.stringify({ number, name, raw, args: raw === null ? args ?? {} : null, headers: options?.headers ?? {} }))
  })
  const heard = {}
  // What the system tells a page of its own accord, as its back button.
  window.__system = (plugin, event) => heard[`${plugin} ${event}`]?.()
  const addPluginListener = async (plugin, event, told) => { heard[`${plugin} ${event}`] = told; return { unregister: async () => {} } }
  window.__TAURI__ = { core: { invoke, addPluginListener } }
  // Presses that came through, so that a hand can tell whether its tap was felt.
  window.__presses = 0
  addEventListener('click', (event) => { if (event.isTrusted) { window.__presses += 1; window.__pressed = event.target } }, true)
  window.__refused = []
  document.addEventListener('securitypolicyviolation', (event) => window.__refused.push(`${event.violatedDirective} ${event.blockedURI}`))
})()
