// @ts-check
import { failureText } from '../../bridge.js'
import { measureWords, words } from '../../words.js'

/** What cannot be right of what was typed, by the words that stand at its field and not by its place in the question. @param {unknown} failure */
export function wrongText(failure) {
  const problems = /** @type {{problems?: {path: string, wrong: string, right: string}[]}} */ (failure ?? {}).problems ?? []
  const said = problems.map(({ path, wrong, right }) => {
    const label = measureWords.labels[/** @type {'width_mm'} */ (path.split('/').at(-1) ?? '')]
    return label && `${label}: ${wrong}. ${words.right(right)}`
  })
  return said.length > 0 && said.every(Boolean) ? said.join(' ') : failureText(failure)
}
