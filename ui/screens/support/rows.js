// @ts-check
import { number } from '../../parts/numbers.js'
import { opens, partRow, whyView } from '../../parts/why.js'
import { supportWords } from '../../words.js'

/** @typedef {import('../../parts/types.js').Prop} Prop */
/** @typedef {import('../../parts/types.js').Foot} Foot */
/** @typedef {import('../../parts/types.js').Check} Check */
/** @typedef {(of: string) => import('../../parts/types.js').Derived|null} From */

/** A prop's kind and size in words. @param {{kind: string, size: string}} prop */
export const kindWords = (prop) => (prop.kind === 'tn79' ? supportWords.size(prop.size) : String(prop.size))

/** @param {Check[]} checks @param {string} name @param {string} at */
const found = (checks, name, at) => checks.find((check) => check.name === name && check.at === at)

/** Each prop with its length, what it carries and what it is good for. @param {Prop[]} props @param {Check[]} checks @param {From} from */
export function propRows(props, checks, from) {
  return props.map((prop) => {
    const name = supportWords.propLine(prop.name, kindWords(prop), number(prop.length_m, 3))
    const length = from(`length ${prop.name}`)
    const check = found(checks, 'prop', prop.name) ?? checks.find((one) => one.name.endsWith('prop') && one.at === prop.name) ?? checks.find((one) => one.name === 'prop')
    if (check && Math.abs(check.demand - prop.load_kn) < 0.005) return whyView(check, `row ${prop.name}`, { name, before: length?.steps })
    return opens(partRow(name, `${number(prop.load_kn)} kN`, `${number(prop.working_load_kn)} kN`, prop.utilisation), check ? { steps: [...(length?.steps ?? []), ...check.steps], source: check.source } : length, `row ${prop.name}`)
  })
}

/** Each foot with its board and how hard it presses. @param {Foot[]} feet @param {Check[]} checks */
export function feetRows(feet, checks) {
  return feet.map((foot) => {
    const name = foot.board_mm.some((mm) => mm > 0) ? supportWords.footLine(foot.prop, foot.board_mm.map((mm) => Math.round(mm)).join(' × ')) : supportWords.bareFoot(foot.prop)
    const row = () => partRow(name, `${Math.round(foot.under_slab_kpa ?? foot.under_board_kpa)} kPa`, `${Math.round(foot.allowed_kpa)} kPa`, foot.utilisation)
    const check = found(checks, 'ground', foot.prop) ?? checks.find((one) => one.name === 'ground')
    return check?.at === foot.prop ? whyView(check, `foot ${foot.prop}`, { name }) : opens(row(), check ? { steps: [...check.steps, supportWords.sameFor(check.at)], source: check.source } : null, `foot ${foot.prop}`)
  })
}
