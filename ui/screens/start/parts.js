// @ts-check
import { choices, fieldText } from '../../fields.js'
import { h } from '../../parts/dom.js'
import { site } from '../../parts/site.js'
import { linkTo } from '../../parts/problems.js'
import { startWords, words } from '../../words.js'
import { language } from '../../words/language.js'
import { howPicture } from './art/how.js'
import { remember, said, takenOn } from './state.js'

/** Parts that the pages of Start share. */

/** @typedef {import('./state.js').Page} Page */

/**
 * One of a few, as large areas with a picture; none is chosen beforehand.
 * @param {{name: string, legend: string, field?: string, options: readonly {value: string, label: string, picture?: any}[], chosen: string, columns?: number, quiet?: boolean, choose: (value: string) => void}} of
 */
export function tiles({ name, legend, field, options, chosen, columns = 2, quiet = false, choose }) {
  return h('fieldset', { class: 'field tilefield', 'data-field': field ?? name }, h('legend', { class: quiet && 'quiet' }, legend),
    h('div', { class: `tiles tiles--${columns}` }, options.map(({ value, label, picture }) => h('label', { class: picture ? 'tile' : 'tile tile--words' },
      h('input', { type: 'radio', name, value, checked: chosen === value, onchange: () => choose(value) }), picture, h('span', {}, label)))),
    h('p', { class: 'wrong', hidden: true }))
}

/** The way out of a question nobody can answer yet, and what it does. @param {Page} page @param {() => void} again @param {() => void} [and] */
export function notSure(page, again, and = () => {}) {
  const is = said(page) === 'unsure'
  return h('div', { class: 'notsure' },
    h('button', { type: 'button', class: 'ask', 'aria-pressed': String(is), onclick: () => { remember(`said/${page}`, is ? null : 'unsure'); if (!is) and(); again() } }, page === 'wall' ? startWords.unsureWall : startWords.unsure),
    unsureLine(page))
}

/** @param {Page} page */
export const unsureLine = (page) => h('p', { class: 'hint' }, startWords.then, startWords.unsureDoes[page])

/** How to find out: a drawing and two sentences. @param {Page} page */
export function how(page) {
  return h('details', { class: 'fold how', 'data-key': `how ${page}` }, h('summary', { 'data-open': words.open, 'data-close': words.shut }, startWords.how),
    h('div', {}, howPicture(page, `${startWords.howPicture}: ${startWords.find[page]}`), h('p', {}, startWords.find[page])))
}

/** What stands on this page from the house type. @param {Page} page */
export function takenHere(page) {
  const list = takenOn(page)
  if (list.length === 0) return null
  // What has a field on this page is seen there; the rest is named.
  const unseen = list.filter((path) => site.fields[path] !== '[]' && !document.querySelector(`main [data-field="${CSS.escape(path)}"]`))
  return h('p', { class: 'pencilled' }, startWords.taken, unseen.length > 0 && h('span', {}, ` ${startWords.takenToo} `, unseen.map((path, i) => [i > 0 && ', ', fieldLink(path)])))
}

/** A field with its value in words. @param {string} path */
export function plainValue(path) {
  const { full, unit } = fieldText(path, site.fields)
  return `${full} ${valueWords(path)}${unit ? ` ${unit}` : ''}`
}

/** Lists in which the words of a value stand, by the end of its path. @type {readonly [RegExp, readonly (readonly string[])[]][]} */
const LISTS = [[/\/material$/, choices.material], [/\/mortar$/, choices.mortar], [/\/direction$/, choices.floor], [/\/floor$/, [['null', choices.floor[2][1]]]], [/\/leaf$/, choices.leaf], [/\/roof\/kind$/, choices.roof], [/\/roof\/bears$/, choices.flag], [/\/flush$/, choices.beam], [/\/foot\/kind$/, choices.foot], [/\/(continuous|outside_wall|held_apart|slept_in|gable)$/, choices.flag]]

/** What stands in a field, in words. @param {string} path */
export function valueWords(path) {
  const value = site.fields[path] ?? ''
  const list = LISTS.find(([end]) => end.test(path))?.[1]
  const chosen = list?.find(([one]) => one === value)?.[1]
  // German nouns keep their capitals wherever they stand.
  if (chosen) return language === 'de' ? chosen : chosen.toLowerCase()
  return value.replace(/^-/, '−')
}

/** @param {string} path */
export const fieldLink = (path) => h('a', { href: linkTo(path) }, plainValue(path))
