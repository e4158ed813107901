// @ts-check
export const shareWords = Object.freeze({
  copied: 'Kopiert. In eine Nachricht einfügen.',
  copyHere: 'Von hier kopieren:',
  text: 'Text zum Senden',
  file: 'Senden oder speichern',
  folder: 'In seinem Ordner zeigen',
})
