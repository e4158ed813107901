// @ts-check
export const shareWords = Object.freeze({
  copied: 'Copied. Paste it into a message.',
  copyHere: 'Copy it from here:',
  text: 'Text to send',
  file: 'Send it or save it',
  send: 'Send it',
  save: 'Save it among this phone’s files',
  saved: 'Saved.',
  folder: 'Show it in its folder',
})
