// @ts-check
/** A time between two clocks, as marks of a photo say it. @param {number} s */
const away = (s) => (s < 120 ? `${s} Sekunden` : s < 7200 ? `${Math.floor(s / 60)} Minuten` : s < 172800 ? `${Math.floor(s / 3600)} Stunden` : `${Math.floor(s / 86400)} Tage`)

export const photoWords = Object.freeze({
  take: (/** @type {string} */ of) => `Aufnehmen: ${of}`,
  pick: 'Aus den Bildern des Telefons',
  pickLabel: (/** @type {string} */ of) => `Von diesem Gerät hinzufügen: ${of}`,
  taking: (/** @type {string} */ name) => `${name} wird aufgenommen …`,
  part: (/** @type {string} */ name, /** @type {number} */ percent) => `${name} wird aufgenommen: ${percent} %`,
  notTaken: (/** @type {string} */ job) => `Nicht aufgenommen in ${job}`,
  again: 'Das Bild selbst blieb unberührt: dort noch einmal hinzufügen.',
  alt: (/** @type {string} */ about) => `Foto: ${about}`,
  noView: 'Behalten. Diese Art Bild lässt sich hier nicht ansehen.',
  noPicture: 'Das Bild lässt sich gerade nicht zeigen.',
  source: Object.freeze({ exif: 'Zeit aus dem Foto', phone: 'Zeit der Datei', unknown: 'Zeit nicht bekannt' }),
  differs: (/** @type {number} */ s) => `${away(Math.abs(s))} ${s > 0 ? 'vor' : 'nach'} dem Hinzufügen aufgenommen`,
  other: 'zur Akte hinzugefügt',
  howClose: 'Wie nah ist das nächste Foto?',
  kinds: Object.freeze([['group', 'Alles'], ['portrait', 'Eines ganz'], ['detail', 'Ganz nah']]),
  kind: Object.freeze({ group: 'alles', portrait: 'eines ganz', detail: 'ganz nah' }),
  scale: 'Ein Lineal oder eine Münze flach daneben legen, damit die Größe später abzulesen ist.',
  data: Object.freeze({ about: 'Zeigt', at: 'Aufgenommen', name: 'Datei', size: 'Größe', hash: 'SHA-256 der Datei', kept: 'Behalten' }),
  keptHere: 'wie es kam, auf diesem Telefon',
  size: (/** @type {number|null} */ w, /** @type {number|null} */ high, /** @type {string} */ bytes, /** @type {string} */ format) => [w && high && `${w} × ${high} Bildpunkte`, bytes, format.toUpperCase()].filter(Boolean).join(', '),
})
