// Called with answers of the calculation: what the German words lack beside the English ones, and which sentences have no German.
(async (answers) => {
  const [en, de, { speech, spoken }, { said }] = await Promise.all(['/words/en/index.js', '/words/de/index.js', '/said.js', '/words/de/said.js'].map((path) => import(path)))
  const lacking = []
  const kind = (value) => (typeof value === 'function' ? `function of ${value.length}` : Array.isArray(value) ? `list of ${value.length}` : typeof value)
  const beside = (one, other, at) => {
    if (kind(one) !== kind(other)) return lacking.push(`${at}: ${kind(one)}, in German ${kind(other)}`)
    if (typeof one === 'string') {
      if (one !== '' && other === '') lacking.push(`${at} is empty`)
    } else if (Array.isArray(one)) one.forEach((each, i) => beside(each, other[i], `${at}/${i}`))
    else if (one && typeof one === 'object') for (const key of new Set([...Object.keys(one), ...Object.keys(other)])) beside(one[key], other[key], `${at}.${key}`)
  }
  beside({ ...en }, { ...de }, '')
  // A choice is a pair of what is kept and what is read: what is kept must be the same in both.
  for (const [key, list] of Object.entries(en.fieldWords.choices)) list.forEach(([code], i) => { if (code !== de.fieldWords.choices[key]?.[i]?.[0]) lacking.push(`choice ${key}: ${code}`) })

  const own = new Set(['svg', 'steps', 'source', 'section', 'name', 'locator', 'document', 'seen', 'how', 'governs', 'at', 'header', 'text', 'place'])
  const tongue = speech(said)
  const silent = new Set()
  const half = new Set()
  let heard = 0
  const listen = (value, key) => {
    if (typeof value === 'string') {
      if (own.has(key) || !/[a-z]{2,} [a-z]/i.test(value)) return
      heard += 1
      const german = spoken(tongue, value)
      if (german === null) silent.add(`${key}: ${value.slice(0, 200)}`)
      // A name of a part within a German sentence would stay English unnoticed.
      else if (/\b(the|of|and|with|between|under|leaf|leaves|needles?|props?|joists?|boards?|storey|floor)\b/.test(german)) half.add(`${key}: ${german.slice(0, 200)}`)
    } else if (Array.isArray(value)) value.forEach((one) => listen(one, key))
    else if (value && typeof value === 'object') for (const [name, one] of Object.entries(value)) listen(one, name)
  }
  listen(answers, '')
  // What nobody says has no German: the listening can fail.
  const deaf = spoken(tongue, 'Nobody ever says this sentence.') !== null
  // What people wrote is left alone, and a text without end is not searched.
  const touched = ['board and wedge', 'N1 to the left, 3 to 4 turns', `${'a and b: '.repeat(1100)} 5 mm`].filter((text) => spoken(tongue, text) !== null)
  // Days of the app are put into the reader's way; what people typed stays, also where it looks like one.
  const days = ['Open since 2 March 2025: Crack of 2026-03-02, seen 2 March 2026', 'A. Mason looks after the wall until 9 Mar 2025.'].map((text) => spoken(tongue, text))
  // A drawing's own days stand alone; one within a name is somebody's.
  const { drawing } = await import('/parts/dom.js')
  const drawn = [...drawing('<svg xmlns="http://www.w3.org/2000/svg"><text>2025-03-02</text><text>G1 of 2025-03-02</text></svg>').querySelectorAll('text')].map(($text) => $text.textContent)
  return { days, drawn, lacking, silent: [...silent], half: [...half], heard, deaf, touched }
})
