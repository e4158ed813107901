// @ts-check
const names = Object.freeze({
  needle: 'Nadel', prop: 'Stütze', leaf: 'Schale', jamb: 'Laibung', sole_board: 'Fußbohle', pack: 'Futter', wedge: 'Keil',
  brace: 'Diagonale', raker: 'Schrägstrebe', lacing: 'Riegel', header: 'Jochträger', bracket: 'Konsole', underside: 'Unterkante',
})

export const termWords = Object.freeze({
  title: 'Was die Wörter bedeuten',
  row: 'Was diese Wörter bedeuten',
  ask: (/** @type {string} */ name) => `Was heißt „${name}“?`,
  names,
  terms: Object.freeze({
    needle: 'Auch Nadelträger oder Stichträger: ein kurzer Querträger aus Stahl oder Holz, der durch die Wand hindurchgeht und trägt, was auf ihr steht.',
    prop: 'Stahlrohrstütze, auch Baustütze oder Deckenstütze: Rohr in Rohr, mit Bolzen und Stellmutter auf Länge gestellt. Unter jedem Ende einer Nadel steht eine.',
    leaf: 'Eine Dicke Mauerwerk. Eine zweischalige Wand hat zwei, mit einem Spalt dazwischen.',
    jamb: 'Die senkrechte Kante der Öffnung, links und rechts.',
    sole_board: 'Die Bohle unter einer Stütze. Sie verteilt die Last auf Boden oder Decke.',
    pack: 'Eine Stahlplatte zwischen Nadel und Mauerwerk, unter der ganzen Dicke einer Schale.',
    wedge: 'Zwei davon, gegeneinander getrieben, schließen den letzten Spalt. Hartholz oder Stahl.',
    brace: 'Ein Rohr, schräg von Stütze zu Stütze befestigt. Es hält die Reihe davon ab, längs der Wand zu kippen.',
    raker: 'Ein schräges Rohr von den Köpfen zum Boden. Es hält die Reihe davon ab, quer zur Wand zu kippen.',
    lacing: 'Ein waagrechtes Rohr, das die Stützen einer Reihe oben und unten verbindet.',
    header: 'Ein Träger auf Stützen unter den Balken. Er hält eine Decke unabhängig von der Wand.',
    bracket: 'Ein Arm am Kopf einer Stütze, in eine Fuge geschoben. Er trägt viel weniger als eine Nadel: seine Last sitzt neben der Stütze.',
    underside: 'Die untere Fläche der Nadel: was der Kopf der Stütze berührt. Höhen werden bis dorthin gemessen.',
  }),
})
