// @ts-check
export const jobsWords = Object.freeze({
  title: 'Jobs',
  motto: 'Hold the wall up before you cut it.',
  begin: 'Begin a job',
  name: 'Name of the job',
  place: 'Place',
  country: 'Country',
  beginNow: 'Begin this job',
  example: 'Look at an example',
  exampleLine: 'An invented house with a wall described, a proposal kept and one round done. Marked DEMO throughout; it seals nothing.',
  openDemo: 'Open the demo',
  next: 'Next:',
  last: (/** @type {string} */ when) => `last worked on ${when}`,
})
