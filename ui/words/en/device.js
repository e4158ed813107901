// @ts-check
export const backWords = Object.freeze({
  leave: 'Leave Upstay?',
  kept: 'Everything you typed is kept.',
  stay: 'Stay',
  go: 'Leave',
})
/** Reminders, and what the phone hands over. */
export const deviceWords = Object.freeze({
  reminders: 'Remind me of the round each morning',
  remindersHint: 'At half past seven, on this phone only, while a wall stands on props. It asks the phone, not a server. Open the app once a week, or it stops.',
  remindersNo: 'The phone does not allow reminders by this app. Its own settings can.',
  handedOver: 'A pack was handed over',
  handedOverLine: 'Another app gave it to this one. It is checked first; nothing that stands here is overwritten.',
  takeIn: 'Check it and take it in',
  left: 'A picture was taken while the phone had closed this app.',
  leftFor: (/** @type {string} */ about) => `Add it to ${about}`,
  leftDrop: 'Throw it away',
})
