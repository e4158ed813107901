// Called with the modules of words, or with one text: which texts hold a symbol or name a clause, and how many were read.
(async (files, text) => {
  const wrong = [
    /[\u0370-\u03ff\u1f00-\u1fff√∑∫≤≥≈]/, // Greek letters and signs of formulas
    /\b[A-Za-z]{1,2}_[A-Za-z0-9,]{1,4}\b/, // f_k, N_Ed
    /\b(f[ckdymvb]|N_?[RE]d|M_?[RE]d|V_?[RE]d|kmod|k_?def)\b/,
    /\b(EN|BS|ISO|DIN|PD|TN|ASCE|TMS|ACI|IRC|IBC)[ -]?\d/,
    /\b(Eurocode|clause|subclause|Annex|Table [A-Z]?\d|Eq\.|equation|formula)\b/i,
    /§|\b\d+\.\d+\.\d+\b|\b\d+\.\d+\(\d+\)/,
  ]
  const texts = []
  const walk = (value, at) => {
    if (typeof value === 'string') texts.push([at, value])
    // What a function puts together: its own texts, without what is set into them.
    else if (typeof value === 'function') texts.push([at, value.toString().replace(/\$\{[^{}]*\}/g, '').replace(/^.*?=>/s, '').replace(/\b[a-z]\w*\.[\w.]+/gi, '')])
    else if (value && typeof value === 'object') for (const [key, one] of Object.entries(value)) walk(one, `${at}.${key}`)
  }
  for (const file of files) walk({ ...await import(`/${file}`) }, file)
  if (text) walk(text, 'text')
  const found = texts.filter(([, text]) => wrong.some((one) => one.test(text))).map(([at, text]) => `${at}: ${text.slice(0, 160)}`)
  return { found, read: texts.length }
})
