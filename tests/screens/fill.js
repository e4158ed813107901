// Called with the field and the text: brings it into view and makes it ready to be typed into; a choice is taken at once.
(($field, text) => {
  if (!$field) return 'gone'
  $field.scrollIntoView({ block: 'center', behavior: 'instant' })
  if ($field instanceof HTMLSelectElement) {
    const option = [...$field.options].find((one) => one.text.trim() === text) ?? [...$field.options].find((one) => one.text.includes(text))
    if (!option) return `no choice ${text} among ${[...$field.options].map((one) => one.text).join(', ')}`
    $field.focus()
    $field.value = option.value
    $field.dispatchEvent(new Event('input', { bubbles: true }))
    $field.dispatchEvent(new Event('change', { bubbles: true }))
    return 'choice'
  }
  const { left, top, width, height } = $field.getBoundingClientRect()
  const $hit = document.elementFromPoint(left + width / 2, top + height / 2)
  if ($hit !== $field && ![...($field.labels ?? [])].some(($label) => $label.contains($hit))) return `covered by ${$hit?.outerHTML.slice(0, 200)}`
  $field.focus()
  $field.select()
  return 'text'
})
