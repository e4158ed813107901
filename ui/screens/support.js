// @ts-check
import { app, failureText } from '../bridge.js'
import { force, h, number, sketch, time } from '../parts/dom.js'
import { fieldWords } from '../parts/field.js'
import { figureNow, flush, jobFields, site } from '../parts/site.js'
import { standingView } from '../parts/standing.js'
import { checkWords, governsWords, words } from '../words.js'

const percent = (/** @type {number} */ use) => `${Math.round(use * 100)} %`

/** @param {number} use */
function used(use) {
  const kind = use > 1 ? 'over' : use > 0.9 ? 'near' : ''
  return h('progress', { class: kind, max: 1, value: Math.min(1, use), 'aria-label': `used ${percent(use)}` })
}

/** One figure that opens its derivation. @param {any} check */
function why(check) {
  return h('details', {}, h('summary', {}, h('span', {}, `${checkWords(check.name)}, ${check.at}: asked ${number(check.demand, 2)} ${check.unit}, good for ${number(check.resistance, 2)} ${check.unit}, used ${percent(check.utilisation)}`, used(check.utilisation))),
    h('ol', {}, check.steps.map((/** @type {string} */ step) => h('li', {}, step))), h('p', { class: 'hint' }, `${check.source.document}, ${check.source.locator}. ${check.source.seen}.`))
}

/** The most used check of each name. @param {any[]} checks */
function worstOfEach(checks) {
  const worst = new Map()
  for (const check of checks) if (!worst.has(check.name) || worst.get(check.name).utilisation < check.utilisation) worst.set(check.name, check)
  return [...worst.values()].sort((a, b) => b.utilisation - a.utilisation)
}

/** @param {any} option @param {any} sketches */
function optionView(option, sketches) {
  const needle = option.needles[0]
  const mm = (/** @type {number} */ m) => Math.round(m * 1000)
  return h('div', {},
    h('div', { class: 'pair' },
      h('div', {}, h('div', { class: 'figure' }, h('b', {}, option.needles.length), h('span', {}, option.needles.length === 1 ? 'needle' : 'needles')), option.spacing_m > 0 && `at most ${mm(option.spacing_m)} mm apart, `, `${option.props.length} props`),
      h('div', {}, h('div', { class: 'figure' }, h('b', {}, percent(option.worst_utilisation)), h('span', {}, 'used')), 'of what its weakest part can do')),
    h('div', { class: 'sides' }, sketch(sketches?.front), sketch(sketches?.side)),
    h('h2', {}, 'What decides'), h('p', {}, governsWords(option.governs)),
    h('h2', {}, 'Needles'), needle && h('p', {}, `${needle.section}, ${number(needle.span_m, 2)} m between its props, 150 mm beyond them at each end. Underside at ${number(option.needle_soffit_m, 2)} m.`, needle.pack_mm > 0 && ` Steel pack ${needle.pack_mm} mm over each leaf.`),
    h('table', {}, h('thead', {}, h('tr', {}, h('th', {}, 'Needle'), h('th', { class: 'n' }, 'from left edge'), h('th', { class: 'n' }, 'carries'))),
      h('tbody', {}, option.needles.map((/** @type {any} */ n) => h('tr', {}, h('td', {}, n.name), h('td', { class: 'n' }, `${mm(n.x_m)} mm`), h('td', { class: 'n' }, force(n.load_kn)))))),
    h('h2', {}, 'Props'),
    h('table', {}, h('thead', {}, h('tr', {}, h('th', {}, 'Prop'), h('th', { class: 'n' }, 'carries'), h('th', { class: 'n' }, 'good for'))),
      h('tbody', {}, option.props.map((/** @type {any} */ p) => h('tr', {}, h('td', {}, `${p.name}, ${p.kind === 'tn79' ? `size ${p.size}` : p.size} at ${number(p.length_m, 2)} m`, used(p.utilisation)), h('td', { class: 'n' }, `${number(p.load_kn)} kN`), h('td', { class: 'n' }, `${number(p.working_load_kn)} kN`))))),
    h('h2', {}, 'Feet'),
    h('table', {}, h('thead', {}, h('tr', {}, h('th', {}, 'Sole board under'), h('th', { class: 'n' }, 'presses'), h('th', { class: 'n' }, 'allowed'))),
      h('tbody', {}, option.feet.map((/** @type {any} */ f) => h('tr', {}, h('td', {}, `${f.prop}: ${f.board_mm.map((/** @type {number} */ n) => Math.round(n)).join(' × ')} mm`, used(f.utilisation)), h('td', { class: 'n' }, `${Math.round(f.under_slab_kpa ?? f.under_board_kpa)} kPa`), h('td', { class: 'n' }, `${Math.round(f.allowed_kpa)} kPa`))))),
    h('h2', {}, 'Held sideways'),
    h('p', {}, `Along the wall ${number(option.bracing.demand_along_kn)} kN, braces good for ${number(option.bracing.resistance_along_kn)} kN. Across ${number(option.bracing.demand_across_kn)} kN, good for ${number(option.bracing.resistance_across_kn)} kN.`),
    h('ul', { class: 'plainlist' }, option.bracing.way.map((/** @type {string} */ line) => h('li', {}, line))),
    h('h2', {}, 'If one is lost'), h('ul', { class: 'plainlist' }, option.one_lost.map((/** @type {any} */ lost) => h('li', {}, lost.words))),
    h('p', {}, `When the weight comes on, neighbours or sides may move ${number(option.movement.worst_difference_mm)} mm apart. Tighten up to ${number(option.movement.turns)} turns before cutting; never with a long bar.`),
    h('h2', {}, 'Why these figures hold'), worstOfEach(option.checks).map(why),
    h('details', { class: 'plain' }, h('summary', {}, `All ${option.checks.length} figures`), option.checks.map(why)),
    h('h2', {}, 'Parts'), h('table', {}, h('thead', {}, h('tr', {}, h('th', {}, 'What'), h('th', { class: 'n' }, 'how many'), h('th', { class: 'n' }, 'each'))),
      h('tbody', {}, option.parts.map((/** @type {any} */ part) => h('tr', {}, h('td', {}, part.what), h('td', { class: 'n' }, part.count), h('td', { class: 'n' }, `${number(part.mass_kg, part.mass_kg < 10 ? 1 : 0)} kg`))))))
}

/** @param {HTMLElement} $main @returns {() => void} */
export function supportScreen($main) {
  const $body = h('div', {})
  const $said = h('p', { role: 'status' })
  $main.append($body, $said)
  const keep = async (/** @type {string} */ aim) => {
    try {
      await flush()
      await app.keep(/** @type {string} */ (site.id), jobFields(), aim)
      site.kept = (await app.open(/** @type {string} */ (site.id))).kept
      $said.className = ''
      $said.textContent = 'Kept. It stands in the record, and the rounds check against it.'
    } catch (failure) { $said.className = 'wrong'; $said.textContent = failureText(failure) }
  }
  return () => {
    const { proposal, sketches, brief } = site.figures ?? {}
    if (!proposal) { $body.replaceChildren(standingView('needs_own_design', 'Describe the wall and what stands above it: the list says what is missing.', 'Not enough is known yet')); return }
    const shown = proposal.options.length ? proposal.options : proposal.nearest ? [proposal.nearest] : []
    const option = shown[Math.min(site.option, shown.length - 1)]
    const standing = proposal.standing === 'needs_own_design' || proposal.standing === 'does_not_hold' ? proposal.standing : option?.standing ?? proposal.standing
    const line = proposal.reasons[0]?.words ?? ''
    $body.replaceChildren(...[
      standingView(standing, line),
      proposal.refusal === 'engineer_first' && h('p', {}, h('strong', {}, words.engineerFirst)),
      proposal.reasons.length > 1 && h('ul', { class: 'plainlist' }, proposal.reasons.slice(1).map((/** @type {any} */ reason) => h('li', {}, reason.words))),
      h('div', { class: 'pair' }, h('div', {}, h('div', { class: 'figure' }, h('b', {}, number(proposal.load.mean_service_kn_m)), h('span', {}, 'kN per m')), `weight to hold, ${number((proposal.load.mean_service_kn_m) / 9.81)} t a metre`),
        h('div', {}, h('div', { class: 'figure' }, h('b', {}, number(proposal.load.total_service_kn, 0)), h('span', {}, 'kN')), `over the opening, ${number(proposal.load.total_service_kn / 9.81)} t`)),
      proposal.options.length > 1 && h('fieldset', {}, h('legend', {}, 'Look for'), h('div', { class: 'answers' }, proposal.options.map((/** @type {any} */ one, /** @type {number} */ i) => h('label', {}, h('input', { type: 'radio', name: 'aim', value: i, checked: i === site.option, onchange: () => { site.option = i; figureNow() } }), words.aims[/** @type {'fewest'} */ (one.aim)])))),
      proposal.options.length === 0 && option && h('p', {}, h('strong', {}, 'Nothing tried holds. This is the nearest, and what it fails on: not to build from.')),
      option && optionView(option, sketches),
      h('h2', {}, 'Prop-head brackets'),
      h('p', {}, h('strong', {}, proposal.brackets.allowed ? 'May be used here. ' : 'Not here. '), `One would carry ${number(proposal.brackets.one_carries_kn)} kN and can carry ${number(proposal.brackets.one_can_kn)} kN.`),
      proposal.brackets.reasons.length > 0 && h('ul', { class: 'plainlist' }, proposal.brackets.reasons.map((/** @type {any} */ reason) => h('li', {}, reason.words))),
      h('h2', {}, 'Taken as true because it was not said'),
      h('ul', { class: 'plainlist' }, proposal.assumptions.map((/** @type {any} */ taken) => h('li', {}, `${taken.words} (${fieldWords(taken.path)}; ${taken.source})`))),
      brief && h('details', { class: 'plain' }, h('summary', {}, 'Brief for the engineer'), h('h3', {}, brief.title), brief.sections.map((/** @type {any} */ section) => h('section', {}, h('h3', {}, section.heading), section.lines.map((/** @type {string} */ text) => h('p', {}, text)))),
        h('button', { class: 'ask', onclick: async () => { try { await flush(); $said.className = ''; $said.textContent = `The brief lies at ${(await app.saveBrief(/** @type {string} */ (site.id), jobFields())).path}` } catch (failure) { $said.className = 'wrong'; $said.textContent = failureText(failure) } } }, 'Save the brief as a PDF')),
      h('h2', {}, 'What this rests on'), h('ul', { class: 'plainlist' }, [...proposal.cautions, ...proposal.basis].map((text) => h('li', {}, text))),
      site.kept && h('p', { class: 'soft' }, `Last kept ${time(site.kept.at)}.`),
      proposal.options.length > 0 && h('button', { class: 'do', onclick: () => keep(option.aim) }, 'Keep this proposal'),
    ].filter(Boolean))
  }
}
