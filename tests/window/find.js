// Body of a function called with (how, words, group): the element that a person would take, or null. `group` is the
// question that an answer belongs to, where the same answer stands under several.
const [how, words, group] = arguments
// The tick of a kept field is no part of its label.
const plain = (text) => (text ?? '').replace(/[\s✓]+/g, ' ').trim().toLowerCase()
const wanted = plain(words)
const usable = (element) =>
  !element.disabled && element.checkVisibility({ visibilityProperty: true }) && !element.closest('[inert]')
const labelled = (element) => {
  const named = (element.getAttribute('aria-labelledby') ?? '').split(/\s+/).filter(Boolean)
  return [
    ...[...(element.labels ?? [])].map((label) => label.textContent),
    element.getAttribute('aria-label'),
    ...named.map((id) => document.getElementById(id)?.textContent),
  ]
}
const kinds = {
  press: ['button, a, summary, [role=button], [role=tab], [role=radio], label, input[type=submit], input[type=radio], input[type=checkbox]',
    (element) => [element.innerText, element.value, ...labelled(element)], usable],
  fill: ['input:not([type=file]):not([type=hidden]):not([type=radio]):not([type=checkbox]), textarea, select', labelled, usable],
  // A round button may be hidden behind its label, so the label is what is pressed.
  answer: ['label', (element) => [element.innerText], usable],
  // A file field may be hidden behind the button that stands for it.
  file: ['input[type=file]', labelled, (element) => !element.disabled],
}
const [selector, names, fits] = kinds[how]
// What lies under an open dialog cannot be reached.
const dialogs = [...document.querySelectorAll('dialog[open]')].filter((dialog) => dialog.matches(':modal'))
const open = dialogs.at(-1) ?? document
const asked = (fieldset) => plain(fieldset.querySelector('legend')?.textContent)
const groups = [...open.querySelectorAll('fieldset')].filter(usable)
const root = group === undefined ? open : groups.find((fieldset) => asked(fieldset) === plain(group))
if (!root) return null
const found = [...root.querySelectorAll(selector)].filter(fits)
const by = (matches) => found.find((element) => names(element).some((name) => matches(plain(name))))
return by((name) => name === wanted) ?? by((name) => name.startsWith(wanted)) ?? by((name) => name.includes(wanted)) ?? null
