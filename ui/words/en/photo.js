// @ts-check
/** A time between two clocks, as marks of a photo say it. @param {number} s */
const away = (s) => (s < 120 ? `${s} seconds` : s < 7200 ? `${Math.floor(s / 60)} minutes` : s < 172800 ? `${Math.floor(s / 3600)} hours` : `${Math.floor(s / 86400)} days`)

export const photoWords = Object.freeze({
  take: (/** @type {string} */ of) => `Take a ${of}`,
  pick: 'From the phone’s pictures',
  pickLabel: (/** @type {string} */ of) => `Add a ${of} from this device`,
  taking: (/** @type {string} */ name) => `Taking in ${name} …`,
  part: (/** @type {string} */ name, /** @type {number} */ percent) => `Taking in ${name}: ${percent} %`,
  notTaken: (/** @type {string} */ job) => `Not taken into ${job}`,
  again: 'The picture itself was not touched: add it there once more.',
  alt: (/** @type {string} */ about) => `Photo of ${about}`,
  noView: 'Kept. This kind of picture has no view here.',
  noPicture: 'The picture cannot be shown just now.',
  source: Object.freeze({ exif: 'time from the photo', phone: 'time of the file', unknown: 'time not known' }),
  differs: (/** @type {number} */ s) => `taken ${away(Math.abs(s))} ${s > 0 ? 'before' : 'after'} it was added here`,
  other: 'added to the record',
  howClose: 'How close is the next photo?',
  kinds: Object.freeze([['group', 'All of it'], ['portrait', 'One thing whole'], ['detail', 'Close up']]),
  kind: Object.freeze({ group: 'all of it', portrait: 'one thing whole', detail: 'close up' }),
  scale: 'Lay a ruler, or a coin, flat beside it, so that its size can be read later.',
  data: Object.freeze({ about: 'Shows', at: 'Taken', name: 'File', size: 'Size', hash: 'SHA-256 of the file', kept: 'Kept' }),
  keptHere: 'as it came, on this phone',
  size: (/** @type {number|null} */ w, /** @type {number|null} */ high, /** @type {string} */ bytes, /** @type {string} */ format) => [w && high && `${w} × ${high} pixels`, bytes, format.toUpperCase()].filter(Boolean).join(', '),
})
