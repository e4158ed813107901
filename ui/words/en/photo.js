// @ts-check
export const photoWords = Object.freeze({
  take: (/** @type {string} */ of) => `Take a ${of}`,
  pick: 'From the phone’s pictures',
  pickLabel: (/** @type {string} */ of) => `Add a ${of} from this device`,
  taking: (/** @type {string} */ name) => `Taking in ${name} …`,
  alt: (/** @type {string} */ about) => `Photo of ${about}`,
  noView: 'Kept. This kind of picture has no view here.',
  source: Object.freeze({ exif: 'time from the photo', phone: 'time of this phone', unknown: 'time not known' }),
  differs: (/** @type {number} */ s) => `taken ${Math.abs(s) < 5400 ? `${Math.round(Math.abs(s) / 60)} min` : `${Math.round(Math.abs(s) / 3600)} h`} ${s > 0 ? 'before' : 'after'} it was put in`,
})
