// @ts-check
import { h } from '../../parts/dom.js'
import { opens } from '../../parts/why.js'

/** A large figure that opens to where it comes from. @param {any} large @param {string} what @param {string} under @param {any} from @param {string} key */
export const tile = (large, what, under, from, key) => opens([h('span', { class: 'figure' }, h('b', {}, large), h('span', {}, what)), ` ${under}`], from, key, { kind: 'tile' })
