// @ts-check
export const shareWords = Object.freeze({
  copied: 'Kopiert. In eine Nachricht einfügen.',
  copyHere: 'Von hier kopieren:',
  text: 'Text zum Senden',
  file: 'Senden oder speichern',
  send: 'Senden',
  save: 'Unter den Dateien dieses Telefons speichern',
  saved: 'Gespeichert.',
  folder: 'In seinem Ordner zeigen',
})
