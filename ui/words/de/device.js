// @ts-check
export const backWords = Object.freeze({
  leave: 'Upstay verlassen?',
  kept: 'Alles Eingetragene ist behalten.',
  stay: 'Bleiben',
  go: 'Verlassen',
})
/** Reminders, and what the phone hands over. */
export const deviceWords = Object.freeze({
  reminders: 'Jeden Morgen an die Runde erinnern',
  remindersHint: 'Um halb acht, nur auf diesem Telefon, solange eine Wand auf Stützen steht. Gefragt wird das Telefon, kein Server. Die App einmal in der Woche öffnen, sonst hört es auf.',
  remindersNo: 'Das Telefon erlaubt dieser App keine Erinnerungen. Seine eigenen Einstellungen können es.',
  handedOver: 'Ein Paket wurde übergeben',
  handedOverLine: 'Eine andere App gab es an diese. Es wird zuerst geprüft; nichts, was hier steht, wird überschrieben.',
  takeIn: 'Prüfen und übernehmen',
  left: 'Ein Bild wurde aufgenommen, während das Telefon diese App geschlossen hatte.',
  leftFor: (/** @type {string} */ about) => `Hinzufügen zu ${about}`,
  leftDrop: 'Wegwerfen',
})
