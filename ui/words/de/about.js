// @ts-check
export const aboutWords = Object.freeze({
  title: 'Über die App, und was sie weitergibt',
  link: 'Über die App, und was sie weitergibt',
  privacy: 'Was das Gerät verlässt',
  lines: Object.freeze([
    'Alles Eingetragene und jedes Foto bleibt auf diesem Gerät. Es gibt kein Konto, keinen Server, keine Werbung und kein Zählen von Nutzern.',
    'Die App benutzt kein Netz. Auf Android hat eine veröffentlichte App keine Erlaubnis dazu; auf anderen Systemen erreichen ihre Seiten nichts als die App selbst.',
    'Etwas verlässt das Gerät nur, wenn Sie es weitergeben oder speichern: ein Paket, ein Bericht, eine Anfrage, eine Liste, ein Siegel, das Bild zum Einmessen. Es geht, wohin Sie es senden; die App, mit der Sie es senden, oder der Ort, den Sie dafür wählen, hat eigene Regeln.',
    'Ein Foto bleibt, wie es kam. Schreibt Ihre Kamera den Ort in ihre Bilder, steht der Ort darin, und in einem Paket, das sie enthält. Die App selbst fragt nie, wo Sie sind.',
    'Namen und Nummern von Leuten liegen neben dem Vorhaben und gehen nicht in ein Paket. Namen auf Runden, Halten und Notizen schon.',
    'Die Akte lässt sich nachträglich nicht ändern, und die App löscht kein Vorhaben: es kann in ein Paket weggelegt werden. Wer die App oder ihre Daten in den Einstellungen des Telefons entfernt, entfernt alles, was nicht weitergegeben wurde.',
    'Sicherungen des Telefonherstellers lassen diese App auf Android aus. Auf anderen Systemen können sie sie mitnehmen.',
  ]),
  licences: 'Gebaut aus',
  licencesLine: (/** @type {number} */ n) => `Upstay ist freie Software, unter der MIT-Lizenz oder Apache-2.0, nach Ihrer Wahl. Die DejaVu-Schriften haben ihre eigene Lizenz. Diese ${n} Bibliotheken sind auf dem einen oder anderen System darin, jede unter ihrer eigenen Lizenz; deren Texte liegen ihren Quellen bei.`,
  columns: Object.freeze(['Bibliothek', 'Version', 'Lizenz']),
})
