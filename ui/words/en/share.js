// @ts-check
export const shareWords = Object.freeze({
  copied: 'Copied. Paste it into a message.',
  copyHere: 'Copy it from here:',
  text: 'Text to send',
  file: 'Send it or save it',
  folder: 'Show it in its folder',
})
