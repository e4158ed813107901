
const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id))
const element = (/** @type {string} */ name, /** @type {string} */ words) => {
  const $one = document.createElement(name)
  // Never as markup: names and notes are typed by people.
  $one.textContent = words
  return $one
}
const NAME = /^(?:photos\/)?[A-Za-z0-9-][A-Za-z0-9.-]{0,190}$/
const isText = (/** @type {string} */ name) => [RECORD, ROUNDS, PAGE, SUMS].includes(name)
const limitOf = (/** @type {string} */ name) => (isText(name) ? 64 : name === REPORT ? 2048 : 60) * 1024 * 1024
const told = (/** @type {any} */ why) => (why instanceof Error ? why.message : String(why))

/** Reads and measures every file. @param {[string, any][]} list names and members or files @param {(one: any) => any} open @param {string[]} places */
const readAll = async (list, open, places) => {
  const files = new Map()
  const names = new Set()
  for (const [place, [name, one]] of list.entries()) {
    $('progress').textContent = `Reading ${place + 1} of ${list.length} …`
    if (!NAME.test(name)) places.push(`${JSON.stringify(name.slice(0, 120))}: a name that has no place in a pack`)
    else if (names.has(name.toLowerCase())) places.push(`${name}: this name stands twice`)
    else {
      names.add(name.toLowerCase())
      try {
        files.set(name, await measure(await open(one), limitOf(name), isText(name)))
      } catch (why) {
        places.push(`${name}: ${told(why)}`)
      }
    }
  }
  return files
}

/** The ZIP file. @param {File} file @param {string[]} places */
const fromZip = async (file, places) => {
  const members = (await readZip(file)).filter((one) => !(one.name === 'photos/' && one.size === 0))
  const files = await readAll(members.map((one) => [one.name, one]), (one) => contentsOf(file, one), places)
  for (const one of members) {
    const found = files.get(one.name)
    if (found && (found.crc !== one.crc || found.size !== one.size)) places.push(`${one.name}: its contents do not fit its checksum`)
  }
  return { files, members, file }
}

/** Unpacked files, with or without their folder. @param {File[]} chosen @param {string[]} places @param {string[]} notes */
const fromFiles = async (chosen, places, notes) => {
  const plain = chosen.map((file) => [(/** @type {any} */ (file).path_ ?? file.webkitRelativePath ?? '').split('/').slice(1).join('/') || file.name, file])
  const own = /** @type {[string, any][]} */ (plain.filter(([name]) => NAME.test(name)))
  for (const [name] of plain.filter(([name]) => !NAME.test(name))) notes.push(`${name}: not a file of a pack; left aside`)
  const sums = own.find(([name]) => name === SUMS)
  const listed = sums ? await sums[1].text() : ''
  const placed = /** @type {[string, any][]} */ (own.map(([name, file]) => [!name.includes('/') && listed.includes(`  photos/${name}\n`) ? `photos/${name}` : name, file]))
  return { files: await readAll(placed, (file) => file.stream(), places), members: null, file: null }
}

/** Checks what was chosen and gives the answer. @param {File[]} chosen @param {string} seal */
const check = async (chosen, seal) => {
  const fits = seal.trim() ? readSeal(seal) : null
  const [places, notes] = [/** @type {string[]} */ ([]), /** @type {string[]} */ ([])]
  const zipped = chosen.length === 1 && !isText(chosen[0].name)
  const { files, members, file } = zipped ? await fromZip(chosen[0], places) : await fromFiles(chosen, places, notes)
  $('progress').textContent = 'Checking the record …'
  checkSums(files, places)
  let [record, expected] = [/** @type {any} */ (null), /** @type {string[]} */ ([])]
  try {
    const read = readRecord(files.get(RECORD))
    record = read.record
    if (!read.spelt) places.push(`${RECORD}: it is not spelt as a pack spells it`)
    expected = checkRecord(record, files, places, notes)
    if (fits) checkSeal(fits, record, places, notes)
  } catch (why) {
    places.push(`${RECORD}: ${told(why)}`)
  }
  if (places.length > 0) return { verdict: 'changed', places, notes, record }
  if (!file) return { verdict: 'unpacked', places, notes, record }
  const inOrder = members.map((one, place) => ({ ...one, expected: expected[place] }))
  const whole = members.length === expected.length && inOrder.every((one) => one.name === one.expected) && (await asWritten(file, members))
  return { verdict: whole ? 'whole' : 'rezipped', places, notes, record }
}

const WORDS = /** @type {Record<string, string>} */ ({
  whole: 'Whole: every byte is as it was written.',
  rezipped: 'Zipped again, but unchanged: every file is as it was written; only the container around them was written anew.',
  unpacked: 'Unchanged: every file is as it was written. (They came unpacked, so nothing is said about the ZIP file.)',
  changed: 'Changed. Where:',
  unread: 'This cannot be checked:',
})

/** Shows an answer. @param {{ verdict: string, places: string[], notes: string[], record: any }} answer */
const show = ({ verdict, places, notes, record }) => {
  $('progress').textContent = ''
  const $answer = $('answer')
  $answer.replaceChildren(element('h2', WORDS[verdict]))
  const list = (/** @type {string[]} */ lines) => {
    const $list = document.createElement('ul')
    $list.append(...lines.slice(0, 50).map((line) => element('li', line)))
    if (lines.length > 50) $list.append(element('li', `and ${lines.length - 50} more`))
    $answer.append($list)
  }
  if (places.length > 0) list(places)
  if (record) {
    const phones = new Set(record.entries.map((/** @type {any} */ entry) => entry.device)).size
    $answer.append(element('p', `${record.job.demo === true ? 'DEMO. ' : ''}Job: ${record.job.name}. ${record.entries.length} entries of ${phones} phone${phones === 1 ? '' : 's'}, ${record.photos.length} photos.`))
  }
  if (notes.length > 0) list(notes)
  $answer.dataset.verdict = verdict
}

/** What was chosen last; a seal typed afterwards is checked against it. @type {File[]} */
let chosen = []
let running = 0
const run = async () => {
  const own = ++running
  delete $('answer').dataset.verdict
  $('answer').replaceChildren()
  if (chosen.length === 0) return
  let answer
  try {
    answer = await check(chosen, $('seal').value)
  } catch (why) {
    answer = { verdict: 'unread', places: [told(why)], notes: [], record: null }
  }
  if (own === running) show(answer)
}

/** Every file of what was dropped, with its folder. @param {any} entry @param {string} path @returns {Promise<File[]>} */
const filesOf = async (entry, path) => {
  if (entry.isFile) {
    const file = await new Promise((done, failed) => entry.file(done, failed))
    file.path_ = path + file.name
    return [file]
  }
  const reader = entry.createReader()
  const found = []
  for (;;) {
    const some = await new Promise((done, failed) => reader.readEntries(done, failed))
    if (some.length === 0) return found
    for (const one of some) found.push(...(await filesOf(one, `${path}${entry.name}/`)))
  }
}

if (shaWorks()) {
  for (const id of ['files', 'folder']) {
    // Emptied first: choosing the same file again is no change to a browser, but the file may be another by now.
    $(id).addEventListener('click', () => { $(id).value = '' })
    $(id).addEventListener('change', () => { chosen = [...$(id).files]; run() })
  }
  $('seal').addEventListener('change', run)
  document.addEventListener('dragover', (event) => { event.preventDefault(); $('drop').className = 'over' })
  document.addEventListener('dragleave', () => { $('drop').className = '' })
  document.addEventListener('drop', async (event) => {
    event.preventDefault()
    $('drop').className = ''
    const entries = [...(event.dataTransfer?.items ?? [])].map((item) => item.webkitGetAsEntry?.()).filter(Boolean)
    chosen = entries.some((entry) => entry?.isDirectory)
      ? (await Promise.all(entries.map((entry) => filesOf(entry, '')))).flat()
      : [...(event.dataTransfer?.files ?? [])]
    run()
  })
  document.documentElement.dataset.ready = 'yes'
} else {
  show({ verdict: 'unread', places: ['The check sums do not come out right in this browser. Use another one.'], notes: [], record: null })
}
