
const [REPORT, RECORD, ROUNDS, PAGE, SUMS] = ['report.pdf', 'record.json', 'rounds.csv', 'check.html', 'SHA256SUMS']
const NO_HASH = '0'.repeat(64)

/** JSON in the one spelling of RFC 8785. @param {any} value @returns {string} */
const canonical = (value) => {
  if (Array.isArray(value)) return `[${value.map(canonical).join()}]`
  if (value === null || typeof value !== 'object') return JSON.stringify(value)
  return `{${Object.keys(value).sort().map((key) => `${JSON.stringify(key)}:${canonical(value[key])}`).join()}}`
}
const compare = (/** @type {any} */ a, /** @type {any} */ b) => (a < b ? -1 : a > b ? 1 : 0)
const isHash = (/** @type {any} */ text) => typeof text === 'string' && /^[0-9a-f]{64}$/.test(text)

/** Where the list of check sums and the files disagree. @param {Map<string, any>} files @param {string[]} places */
const checkSums = (files, places) => {
  const own = files.get(SUMS)
  if (!own) { places.push(`${SUMS}: it is missing`); return }
  const text = new TextDecoder().decode(own.bytes)
  const listed = new Map()
  for (const line of text.split('\n').slice(0, -1)) {
    const parts = /^([0-9a-f]{64}) {2}(.+)$/.exec(line)
    if (parts) listed.set(parts[2], parts[1])
    else places.push(`${SUMS}: a line in it is none`)
  }
  for (const [name, sha] of listed) {
    if (!files.has(name)) places.push(`${name}: it is listed and missing`)
    else if (files.get(name).sha !== sha) places.push(`${name}: its contents were changed`)
  }
  for (const name of files.keys()) if (name !== SUMS && !listed.has(name)) places.push(`${name}: it is not listed`)
  if (places.length === 0 && text !== sumsOf(files, [SUMS])) places.push(`${SUMS}: it is not spelt as a pack spells it`)
}
/** Lines of check sums, sorted by name. @param {Map<string, any>} files @param {string[]} without */
const sumsOf = (files, without) =>
  [...files].filter(([name]) => !without.includes(name)).sort(([a], [b]) => compare(a, b)).map(([name, one]) => `${one.sha}  ${name}\n`).join('')

/** Where a chain does not hold, in words; empty if it does. @param {any[]} entries @param {string} job */
const chainFaults = (entries, job) => {
  const places = []
  const known = new Map(entries.map((entry) => [`${entry.device} ${entry.seq}`, entry]))
  const byHash = new Map(entries.map((entry) => [entry.hash, entry]))
  if (known.size !== entries.length) places.push(`${RECORD}: an entry stands twice`)
  for (const entry of entries) {
    const { hash, ...hashed } = entry
    const before = known.get(`${entry.device} ${entry.seq - 1}`)
    const seen = entry.seen.map((/** @type {any} */ head) => [head, known.get(`${head.device} ${head.seq}`)])
    const due = 1 + seen.reduce((/** @type {number} */ tick, /** @type {any} */ [, other]) => Math.max(tick, other?.tick ?? 0), before?.tick ?? 0)
    const corrected = byHash.get(entry.corrects)
    const fault =
      entry.job !== job ? 'it belongs to another job'
      : entry.seq > 1 && !before ? 'the entry before it is missing'
      : entry.prev !== (before?.hash ?? NO_HASH) ? 'it does not follow the entry before it'
      : shaOf(`upstay entry 1\n${canonical(hashed)}`) !== hash ? 'its contents do not fit its hash'
      : seen.some((/** @type {any} */ [head, other]) => other?.hash !== head.hash || other.tick >= entry.tick) ? 'it names an entry of another phone that is not there'
      : entry.tick !== due ? 'its place in the order of the job does not follow from what it had seen'
      : entry.corrects !== null && !(corrected && corrected.tick < entry.tick) ? 'it corrects an entry that is not there'
      : null
    if (fault) places.push(`${RECORD}: entry ${entry.seq} of phone ${entry.device}, ${entry.kind}, ${whenOf(entry)}: ${fault}`)
  }
  const order = (/** @type {any} */ a, /** @type {any} */ b) => a.tick - b.tick || compare(a.device, b.device) || a.seq - b.seq
  if (entries.some((entry, place) => place > 0 && order(entries[place - 1], entry) > 0)) places.push(`${RECORD}: its entries are out of order`)
  return places
}
const MONTHS = 'January February March April May June July August September October November December'.split(' ')
/** An entry's time on its own phone. @param {any} entry */
const whenOf = (entry) => {
  const at = new Date(entry.at_utc_ms + entry.offset_min * 60000)
  if (Number.isNaN(at.getTime())) return 'no time'
  return `${at.getUTCDate()} ${MONTHS[at.getUTCMonth()]} ${at.getUTCFullYear()}, ${at.toISOString().slice(-13, -8)}`
}

/** Reads the record; throws in words. @param {any} file */
const readRecord = (file) => {
  if (!file) throw new Error('it is missing')
  const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(file.bytes)
  const record = JSON.parse(text)
  if (record?.format !== 'upstay record') throw new Error('it is not the record of a job')
  if (record.version !== 1) throw new Error('it was written by another version of the app; use the page of that version')
  const whole = (/** @type {any} */ entry) =>
    entry !== null && typeof entry === 'object' && typeof entry.device === 'string' && typeof entry.kind === 'string' && isHash(entry.hash) &&
    [entry.seq, entry.tick, entry.at_utc_ms, entry.offset_min].every(Number.isSafeInteger) && Array.isArray(entry.seen) && 'corrects' in entry &&
    entry.seen.every((/** @type {any} */ head) => head !== null && typeof head === 'object')
  if (!Array.isArray(record.entries) || !record.entries.every(whole)) throw new Error('an entry lacks a part or has one of the wrong kind')
  if (!Array.isArray(record.photos) || typeof record.job?.id !== 'string') throw new Error('a part of it is missing')
  return { record, spelt: canonical(record) === text }
}

/** Everything that follows from the record. @param {any} record @param {Map<string, any>} files @param {string[]} places @param {string[]} notes */
const checkRecord = (record, files, places, notes) => {
  const { entries, photos, job } = record
  places.push(...chainFaults(entries, job.id))
  const begun = entries.filter((/** @type {any} */ entry) => entry.kind === 'job_begun').at(-1)?.body
  for (const key of ['name', 'place', 'country', 'demo']) {
    if (canonical(job[key] ?? null) !== canonical(begun?.[key] ?? null)) places.push(`${RECORD}: its heading does not follow from its entries`)
  }
  const taken = new Set(entries.filter((/** @type {any} */ entry) => entry.kind === 'photo_taken').map((/** @type {any} */ entry) => entry.body?.sha256))
  if (canonical([...taken]) !== canonical(photos.map((/** @type {any} */ photo) => photo?.sha256))) places.push(`${RECORD}: its list of photos does not follow from its entries`)
  const made = entries.at(-1)
  if (made?.kind !== 'pack_made') { places.push(`${RECORD}: it does not end with the pack being made`); return [] }
  if (files.get(REPORT)?.sha !== made.body.report_sha256) places.push(`${REPORT}: it is not the report the record names`)
  if (shaOf(`upstay files 1\n${sumsOf(files, [RECORD, SUMS])}`) !== made.body.files_sha256) places.push(`${SUMS}: the files are not those the record names`)
  const missing = new Map((made.body.missing ?? []).map((/** @type {any} */ one) => [one.sha256, one.why]))
  const expected = [REPORT]
  for (const photo of photos) {
    const found = files.get(photo.file)
    if (found) expected.push(photo.file)
    if (!found && missing.has(photo.sha256)) notes.push(`${photo.file}: ${missing.get(photo.sha256)} when the pack was made`)
    else if (!found) places.push(`${photo.file}: a photo the record names is missing`)
    else if (found.sha !== photo.sha256) places.push(`${photo.file}: it is not the photo the record names`)
  }
  expected.push(RECORD, ROUNDS, PAGE, SUMS)
  for (const name of files.keys()) if (!expected.includes(name)) places.push(`${name}: the record does not name it`)
  return expected
}

/** Whether the record holds what was sealed. @param {(hex: string) => boolean} fits @param {any} record @param {string[]} places @param {string[]} notes */
const checkSeal = (fits, record, places, notes) => {
  const { entries, job } = record
  const known = new Map(entries.map((/** @type {any} */ entry) => [`${entry.device} ${entry.seq}`, entry.hash]))
  for (const entry of entries.filter((/** @type {any} */ one) => one.kind === 'seal_given' && Array.isArray(one.body?.heads))) {
    const heads = [...entry.body.heads].sort((a, b) => compare(a.device, b.device) || a.seq - b.seq)
    if (!fits(shaOf(`upstay seal 1\n${canonical({ heads, job: job.id })}`))) continue
    if (heads.length === 0 || heads.some((head) => known.get(`${head.device} ${head.seq}`) !== head.hash)) {
      places.push('The seal: the record does not contain what was sealed')
      return
    }
    const covered = (/** @type {any} */ one) => heads.some((head) => head.device === one.device && one.seq <= head.seq)
    const later = entries.filter((/** @type {any} */ one) => !covered(one)).length
    const fine = places.length === 0 ? 'The seal fits: nothing before this seal was changed.' : 'The pack holds the seal, but see above.'
    notes.push(`${fine} It was given ${whenOf(entry)}; ${later} entries came after it.`)
    return
  }
  places.push('The seal: no seal in this pack gives that code')
}
