
/** First 64 primes, from which the constants follow. */
const PRIMES = []
for (let n = 2; PRIMES.length < 64; n++) if (PRIMES.every((prime) => n % prime !== 0)) PRIMES.push(n)

/** First 32 bits after the point. @param {number} root */
const fraction = (root) => Math.floor((root - Math.floor(root)) * 2 ** 32) | 0
const ROUND = Int32Array.from(PRIMES, (prime) => fraction(Math.cbrt(prime)))
const START = Int32Array.from(PRIMES.slice(0, 8), (prime) => fraction(Math.sqrt(prime)))

/** SHA-256 (FIPS 180-4) of bytes that come in pieces. */
class Sha256 {
  constructor() {
    this.state = START.slice()
    this.words = new Int32Array(64)
    this.block = new Uint8Array(64)
    this.filled = 0
    this.length = 0
  }

  /** @param {Uint8Array} bytes */
  add(bytes) {
    this.length += bytes.length
    let at = 0
    if (this.filled > 0) {
      at = Math.min(64 - this.filled, bytes.length)
      this.block.set(bytes.subarray(0, at), this.filled)
      this.filled += at
      if (this.filled < 64) return this
      this.mix(this.block, 0)
      this.filled = 0
    }
    for (; at + 64 <= bytes.length; at += 64) this.mix(bytes, at)
    this.block.set(bytes.subarray(at))
    this.filled = bytes.length - at
    return this
  }

  /** Works one block in. @param {Uint8Array} bytes @param {number} at */
  mix(bytes, at) {
    const w = this.words
    for (let i = 0; i < 16; i++, at += 4) w[i] = (bytes[at] << 24) | (bytes[at + 1] << 16) | (bytes[at + 2] << 8) | bytes[at + 3]
    for (let i = 16; i < 64; i++) {
      const x = w[i - 15]
      const y = w[i - 2]
      const s0 = ((x >>> 7) | (x << 25)) ^ ((x >>> 18) | (x << 14)) ^ (x >>> 3)
      const s1 = ((y >>> 17) | (y << 15)) ^ ((y >>> 19) | (y << 13)) ^ (y >>> 10)
      w[i] = (w[i - 16] + s0 + w[i - 7] + s1) | 0
    }
    let [a, b, c, d, e, f, g, h] = this.state
    for (let i = 0; i < 64; i++) {
      const s1 = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7))
      const t1 = (h + s1 + ((e & f) ^ (~e & g)) + ROUND[i] + w[i]) | 0
      const s0 = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10))
      const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0
      h = g; g = f; f = e; e = (d + t1) | 0
      d = c; c = b; b = a; a = (t1 + t2) | 0
    }
    const s = this.state
    s[0] += a; s[1] += b; s[2] += c; s[3] += d; s[4] += e; s[5] += f; s[6] += g; s[7] += h
  }

  /** Ends it. @returns {string} 64 hex digits */
  hex() {
    const bits = this.length * 8
    const pad = new Uint8Array((this.filled < 56 ? 64 : 128) - this.filled)
    pad[0] = 0x80
    const view = new DataView(pad.buffer)
    view.setUint32(pad.length - 8, Math.floor(bits / 2 ** 32))
    view.setUint32(pad.length - 4, bits >>> 0)
    this.add(pad)
    return Array.from(this.state, (word) => (word >>> 0).toString(16).padStart(8, '0')).join('')
  }
}

/** SHA-256 of words in UTF-8. @param {string} text */
const shaOf = (text) => new Sha256().add(new TextEncoder().encode(text)).hex()

/** Whether the published vectors come out: FIPS 180-4's examples, and the empty text. */
const shaWorks = () =>
  shaOf('') === 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855' &&
  shaOf('abc') === 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad' &&
  shaOf('abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq') ===
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1' &&
  shaOf('a'.repeat(1000000)) === 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'
