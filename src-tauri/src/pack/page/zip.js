
const CRC_TABLE = Int32Array.from({ length: 256 }, (_, n) => {
  for (let bit = 0; bit < 8; bit++) n = n & 1 ? (n >>> 1) ^ 0xedb88320 : n >>> 1
  return n
})
/** CRC-32 so far. @param {number} crc @param {Uint8Array} bytes */
const crcOn = (crc, bytes) => {
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ CRC_TABLE[(crc ^ bytes[i]) & 255]
  return crc
}

/** Some bytes of a file. @param {Blob} file @param {number} at @param {number} count */
const bytesAt = async (file, at, count) => {
  if (at < 0 || count < 0 || at + count > file.size) throw new Error('the file is cut short')
  return new Uint8Array(await file.slice(at, at + count).arrayBuffer())
}
/** @param {Uint8Array} bytes */
const viewOf = (bytes) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
/** @param {DataView} view @param {number} at */
const long = (view, at) => Number(view.getBigUint64(at, true))

/** Limits on what is read, as the program has them. */
const MOST_MEMBERS = 100000
const MOST_DIRECTORY = 32 * 1024 * 1024

/** Reads the directory of a ZIP file. @param {Blob} file */
const readZip = async (file) => {
  const tailAt = Math.max(0, file.size - 65577)
  const tail = await bytesAt(file, tailAt, file.size - tailAt)
  const view = viewOf(tail)
  let end = tail.length - 22
  while (end >= 0 && !(view.getUint32(end, true) === 0x06054b50 && view.getUint16(end + 20, true) === tail.length - end - 22)) end--
  if (end < 0) throw new Error('it is no ZIP file, or its end is missing')
  let [count, size, offset] = [view.getUint16(end + 10, true), view.getUint32(end + 12, true), view.getUint32(end + 16, true)]
  if (end >= 20 && view.getUint32(end - 20, true) === 0x07064b50) {
    const large = viewOf(await bytesAt(file, long(view, end - 12), 56))
    if (large.getUint32(0, true) !== 0x06064b50) throw new Error('its large-file record is not where it should be')
    ;[count, size, offset] = [long(large, 32), long(large, 40), long(large, 48)]
  }
  if (count > MOST_MEMBERS || size > MOST_DIRECTORY) throw new Error(`it lists ${count} files, more than a pack can have`)
  const members = directoryLines(await bytesAt(file, offset, size))
  if (members.length !== count) throw new Error(`it says it has ${count} files and lists ${members.length}`)
  const spans = members.map((one) => [one.offset, one.offset + 30 + one.stored]).sort((a, b) => a[0] - b[0])
  if (spans.some((span, place) => place > 0 && spans[place - 1][1] > span[0])) throw new Error('its files overlap')
  const total = members.reduce((sum, one) => sum + one.size, 0)
  if (total > file.size * 20 + 256 * 1024 * 1024) throw new Error(`its files would take ${total} bytes, far more than a pack`)
  return members
}

/** @param {Uint8Array} bytes */
const directoryLines = (bytes) => {
  const view = viewOf(bytes)
  const text = new TextDecoder('utf-8', { fatal: true })
  const members = []
  for (let at = 0; at < bytes.length; ) {
    if (view.getUint32(at, true) !== 0x02014b50) throw new Error('its list of files is broken')
    const two = (/** @type {number} */ place) => view.getUint16(at + place, true)
    const four = (/** @type {number} */ place) => view.getUint32(at + place, true)
    const [nameEnd, extraEnd] = [at + 46 + two(28), at + 46 + two(28) + two(30)]
    const one = { name: text.decode(bytes.subarray(at + 46, nameEnd)), method: two(10), crc: four(16), stored: four(20), size: four(24), offset: four(42) }
    if (two(8) & 1 || (one.method !== 0 && one.method !== 8) || two(34) !== 0) throw new Error('it holds a file in a form that no pack has')
    for (let extra = nameEnd; extra + 4 <= extraEnd; extra += 4 + view.getUint16(extra + 2, true)) {
      if (view.getUint16(extra, true) !== 1) continue
      let value = extra + 4
      for (const key of /** @type {const} */ (['size', 'stored', 'offset'])) {
        if (one[key] === 0xffffffff) { one[key] = long(view, value); value += 8 }
      }
    }
    members.push(one)
    at = extraEnd + two(32)
  }
  return members
}

/** A member's contents as a stream of pieces. @param {Blob} file @param {any} one */
const contentsOf = async (file, one) => {
  const header = viewOf(await bytesAt(file, one.offset, 30))
  if (header.getUint32(0, true) !== 0x04034b50) throw new Error('its header is not where the list says')
  const name = await bytesAt(file, one.offset + 30, header.getUint16(26, true))
  if (new TextDecoder().decode(name) !== one.name) throw new Error('its header bears another name than the list')
  one.start = one.offset + 30 + name.length + header.getUint16(28, true)
  if (one.start + one.stored > file.size) throw new Error('it is cut short')
  const stored = file.slice(one.start, one.start + one.stored)
  if (one.method === 0) return stored.stream()
  if (typeof DecompressionStream === 'undefined') throw new Error('this browser cannot open compressed packs; unpack it and choose the files')
  return stored.stream().pipeThrough(new DecompressionStream('deflate-raw'))
}

/** Check sums of contents, and the words where `keep`. @param {ReadableStream} stream @param {number} limit @param {boolean} keep */
const measure = async (stream, limit, keep) => {
  const reader = stream.getReader()
  const sha = new Sha256()
  const kept = []
  let [crc, size] = [-1, 0]
  for (;;) {
    const { done, value } = await reader.read()
    if (done) break
    size += value.length
    if (size > limit) { await reader.cancel(); throw new Error(`it has more than ${limit} bytes`) }
    sha.add(value)
    crc = crcOn(crc, value)
    if (keep) kept.push(value)
  }
  return { sha: sha.hex(), crc: ~crc >>> 0, size, bytes: keep ? new Uint8Array(await new Blob(kept).arrayBuffer()) : null }
}

/** A little-endian writer. */
const writer = () => {
  /** @type {number[]} */
  const out = []
  const put = (/** @type {number} */ count) => (/** @type {number} */ value) => {
    for (let i = 0; i < count; i++) { out.push(value % 256); value = Math.floor(value / 256) }
  }
  return { out, two: put(2), four: put(4), eight: put(8), name: (/** @type {string} */ name) => out.push(...new TextEncoder().encode(name)) }
}
const capped = (/** @type {number} */ value) => Math.min(value, 0xffffffff)
const common = (/** @type {any} */ w, /** @type {any} */ one) => {
  w.two(0x0800); w.two(0); w.two(0); w.two(0x21)
  w.four(one.crc); w.four(one.size); w.four(one.size); w.two(one.name.length)
}

/** Whether every byte of the container is as a pack writes it. @param {Blob} file @param {any[]} members in the order expected */
const asWritten = async (file, members) => {
  const same = async (/** @type {number} */ at, /** @type {number[]} */ bytes) => {
    if (at + bytes.length > file.size) return false
    const found = await bytesAt(file, at, bytes.length)
    return bytes.every((byte, place) => byte === found[place])
  }
  let at = 0
  const w = writer()
  for (const one of members) {
    const local = writer()
    local.four(0x04034b50); local.two(20); common(local, one); local.two(0); local.name(one.name)
    if (one.method !== 0 || one.offset !== at || one.start !== at + local.out.length || !(await same(at, local.out))) return false
    const far = at >= 0xffffffff
    w.four(0x02014b50); w.two(0x032d); w.two(far ? 45 : 20); common(w, one)
    w.two(far ? 12 : 0); w.two(0); w.two(0); w.two(0); w.four(0o100644 * 65536); w.four(capped(at)); w.name(one.name)
    if (far) { w.two(1); w.two(8); w.eight(at) }
    at = one.start + one.size
  }
  const [size, count] = [w.out.length, members.length]
  if (at >= 0xffffffff || count >= 0xffff) {
    w.four(0x06064b50); w.eight(44); w.two(0x032d); w.two(45); w.four(0); w.four(0); w.eight(count); w.eight(count); w.eight(size); w.eight(at)
    w.four(0x07064b50); w.four(0); w.eight(at + size); w.four(1)
  }
  w.four(0x06054b50); w.two(0); w.two(0); w.two(Math.min(count, 0xffff)); w.two(Math.min(count, 0xffff)); w.four(capped(size)); w.four(capped(at)); w.two(0)
  return file.size === at + w.out.length && same(at, w.out)
}
