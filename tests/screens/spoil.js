// Puts onto a page what may not be there, so that a test sees whether it would be noticed.
(() => {
  const put = (name, attributes, text = '') => {
    const $one = document.createElement(name)
    for (const [key, value] of Object.entries(attributes)) $one.setAttribute(key, value)
    $one.textContent = text
    document.querySelector('main').append($one)
    return $one
  }
  const styled = ($one, styles) => { for (const [key, value] of Object.entries(styles)) $one.style.setProperty(key, value) }
  put('img', { src: 'data:image/gif;base64,R0lGODlhAQABAAAAACw=' })
  put('button', { type: 'button' })
  styled(put('button', { type: 'button' }, 'x'), { width: '20px', height: '20px', 'min-width': '0', 'min-height': '0', padding: '0' })
  styled(put('button', { type: 'button' }, 'A first one'), { height: '60px' })
  styled(put('button', { type: 'button' }, 'A second one'), { height: '60px', 'margin-top': '-30px' })
  styled(put('div', {}, 'wide'), { width: '900px' })
  const $svg = document.createElementNS('http://www.w3.org/2000/svg', 'svg')
  $svg.setAttribute('viewBox', '0 0 200 50')
  for (const [name, attributes] of [['rect', { width: '200', height: '50', fill: '#777' }], ['text', { x: '20', y: '30', fill: '#888' }]]) {
    const $one = document.createElementNS('http://www.w3.org/2000/svg', name)
    for (const [key, value] of Object.entries(attributes)) $one.setAttribute(key, value)
    if (name === 'text') $one.textContent = 'faint'
    $svg.append($one)
  }
  document.querySelector('main').append($svg)
})()
