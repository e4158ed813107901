// @ts-check
/**
 * What the app answers, as far as the screens read it.
 *
 * @typedef {'holds'|'close'|'does_not_hold'|'needs_own_design'} Standing
 * @typedef {{path: string, wrong: string, right: string}} Problem
 * @typedef {{code: string, words: string}} Reason
 * @typedef {{document: string, locator: string, seen: string}} Source
 * @typedef {{name: string, at: string, demand: number, resistance: number, unit: string, utilisation: number, source: Source, steps: string[]}} Check
 * @typedef {{name: string, x_m: number, section: string, inside_y_mm: number, outside_y_mm: number, span_m: number, pack_mm: number, load_kn: number}} Needle
 * @typedef {{name: string, needle: string, side: 'inside'|'outside', kind: string, size: string, length_m: number, load_kn: number, working_load_kn: number, kappa: number, utilisation: number, x_m?: number, leaf?: string, arm_mm?: number, rated_kn?: number}} Prop
 * @typedef {{prop: string, board_mm: number[], under_board_kpa: number, under_slab_kpa: number|null, allowed_kpa: number, utilisation: number}} Foot
 * @typedef {{lost: string, worst: string, utilisation: number|null, words: string}} Lost
 * @typedef {{floor: number, side: 'inside'|'outside', needed: boolean, why: string, header: string|null, length_m: number|null, distance_mm: number|null, spacing_m: number|null, load_kn: number|null, takes_kn: number, props: Prop[], feet: Foot[], way: string[], checks: Check[]}} FloorLine
 * @typedef {{code: string, words: string, why: string, source: Source}} Question
 * @typedef {{of: string, steps: string[], source: Source}} Derived
 * @typedef {{what: string, count: number, mass_kg: number, length_m: number|null, open_m: number|null, stands_m: number[], kind: string}} HireLine
 * @typedef {{days: number, weeks: number, lines: HireLine[], pieces: number, mass_kg: number, car_m: number, car_kg: number, trips: number, too_long: string[]}} Hire
 * @typedef {{prop: string, size: string, length_m: number, usable_m: number[], load_kn: number, working_load_kn: number|null, utilisation: number|null, steps: string[], source: Source|null}} Swap
 * @typedef {{gust_m_s: number, stands: 'laid_out'|'beyond'|'too_much'|'no_wind', wind_kn: number, demand_kn: number, laid_out_kn: number, resistance_kn: number, most_m_s: number, steps: string[], source: Source}} Gust
 * @typedef {{tried: number, helps: {codes: string[], words: string[], paths: string[], standing: Standing, away: string[], worst_utilisation: number, steps: string[], source: Source}[]}} Helps
 * @typedef {{problems: Problem[], verdict: Verdict|null, option: Option|null, sketches: Sketches, derived: Derived[]}} Trial
 * @typedef {{standing: Standing, checks?: Check[], words: string[]|string, filled?: string[]}} Verdict
 * @typedef {{stack?: string|null, front?: string|null, side?: string|null, plan?: string|null}} Sketches
 * @typedef {object} Option
 * @property {'needles'|'brackets'} kind
 * @property {'tool'|'engineer'} by
 * @property {'fewest'|'lightest'|'cheapest'} aim
 * @property {Standing} standing
 * @property {number} worst_utilisation
 * @property {string} governs
 * @property {number} needle_soffit_m
 * @property {number} spacing_m
 * @property {Needle[]} needles
 * @property {Prop[]} props
 * @property {Foot[]} feet
 * @property {any} bracing
 * @property {FloorLine[]} floor_lines
 * @property {{what: string, count: number, mass_kg: number}[]} parts
 * @property {Check[]} checks
 * @property {Lost[]} one_lost
 * @property {any} movement
 * @typedef {object} Step
 * @property {number} step
 * @property {string} words
 * @property {boolean} stop
 * @property {string} code
 * @property {string} group
 * @property {string} when
 * @property {string} who
 * @property {boolean} photo
 * @property {Source} source
 * @property {Source|null} country_source
 * @typedef {object} Load
 * @property {number} total_service_kn
 * @property {number} mean_service_kn_m
 * @property {number} largest_service_kn_m
 * @property {{what: string, dead_kn: number, imposed_kn: number}[]} parts
 * @property {{x_m: number[], g_kn_m: number[], q_kn_m: number[]}} profile
 * @property {{what: string, storey: number|null, point: number|null, dead_kn: number, imposed_kn: number, mean_kn_m: number}[]} pieces
 * @typedef {object} Proposal
 * @property {string[]} basis
 * @property {Standing} standing
 * @property {null|'no_model'|'engineer_first'} refusal
 * @property {boolean} independent_check_needed
 * @property {Reason[]} reasons
 * @property {string[]} cautions
 * @property {{path: string, value: any, words: string, source: string}[]} assumptions
 * @property {Load} load
 * @property {{allowed: boolean, one_carries_kn: number, one_can_kn: number, reasons: Reason[]}|null} brackets
 * @property {Option[]} options
 * @property {Option|null} nearest
 * @property {Step[]} order
 * @property {Verdict|null} [builders_plan]
 * @property {{compared: string[], option?: Option|null}|null} [engineer]
 * @typedef {{title: string, sections: {heading: string, lines: string[]}[]}} Brief
 * @typedef {object} Figures
 * @property {Problem[]} problems
 * @property {Proposal|null} proposal
 * @property {Sketches} sketches
 * @property {any} [job]
 * @property {Hire|null} [hire]
 * @property {Derived[]} [derived]
 * @property {Brief|null} [brief]
 * @property {Question[]} [questions]
 * @typedef {object} Photo
 * @property {string} sha
 * @property {string} short
 * @property {string} about
 * @property {string|null} at
 * @property {'exif'|'phone'|'unknown'} source
 * @property {number|null} difference_s
 * @property {string|null} mark
 * @property {string|null} [words]
 * @property {boolean} view
 * @property {string} name
 * @property {'group'|'portrait'|'detail'} kind
 * @property {number|null} width
 * @property {number|null} height
 * @property {boolean} turned shown a quarter turned: width and height change places
 * @property {number} bytes
 * @property {string} format
 * @property {boolean} here whether the file as received is on this phone
 * @property {{device: string, seq: number}} entry the entry that added it
 * @property {string} thumb_url
 * @property {string} view_url
 * @typedef {{name: string, kappa: number, working_load_kn: number, load_kn: number, utilisation: number, in_basis: boolean, take_up_mm: number, do: string[]}} PropToday
 * @typedef {object} Evaluation
 * @property {boolean} passed
 * @property {boolean} stop
 * @property {boolean} ring
 * @property {boolean} out
 * @property {PropToday[]} props
 * @property {{demand_kn: number, resistance_kn: number, utilisation: number}} sideways
 * @property {{name: string, since_start_mm: number, since_last_mm: number}[]} gauges
 * @property {Reason[]} reasons
 * @typedef {{path: string, bytes: number, files: number, seal: string|null, missing: string[], not_chosen: number}} Packed
 * @typedef {{seq: number, device: string, kind: string, at: string, here: string|null}} LeftOut
 * @typedef {{job: string, new_job: boolean, added: number, known: number, photos: number, left_out: LeftOut[], words: string[]}} Imported
 * @typedef {{entry: string, at: string, words: string, body: any}} Said
 * @typedef {object} Entry
 * @property {number} position
 * @property {number} seq
 * @property {string} at
 * @property {string} kind
 * @property {string} title
 * @property {string} words
 * @property {any} body
 * @property {string|null} corrects
 * @property {Said|null} was
 * @property {Said|null} now
 * @property {string[]} may
 * @property {string|null} phone
 * @property {string|null} by
 * @property {string|null} clock
 * @property {Photo[]} photos
 * @property {string} hash
 */
export {}
