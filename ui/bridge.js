// @ts-check
/** The only module that calls the app. A failure is `{code, message, field?, problems?}`. */
import { inTongue } from './said.js'
import { words } from './words.js'

/** @typedef {import('./parts/types.js').Photo} Photo */

/** Bytes of one part; a multiple of three, so that its text has no padding in the middle. */
const PART = 768 * 1024

/** @param {string} name @param {any} [args] @param {any} [options] @returns {Promise<any>} */
async function call(name, args, options) {
  const core = /** @type {any} */ (window).__TAURI__?.core
  if (!core) throw { code: 'no_app', message: words.noApp }
  try { return inTongue(await core.invoke(name, args, options)) } catch (failure) { throw inTongue(failure) }
}

/** What a failure says. @param {unknown} failure @returns {string} */
export function failureText(failure) {
  const { message, problems } = /** @type {{message?: string, problems?: {wrong: string}[]}} */ (failure ?? {})
  const more = problems?.map((problem) => problem.wrong).filter((wrong) => !message?.includes(wrong)) ?? []
  return [message ?? String(failure), ...more].join(' ')
}

export const app = Object.freeze({
  /** @returns {Promise<{jobs: any[], version: string}>} */
  jobs: () => call('jobs'),
  /** @param {string} name @param {string} place @param {string} country @returns {Promise<{id: string}>} */
  begin: (name, place, country) => call('job_begin', { name, place, country }),
  /** @returns {Promise<{id: string}>} */
  openDemo: () => call('demo_open'),
  /** @param {string} id */
  open: (id) => call('job_open', { id }),
  /** Checks a whole job, once after each start. @param {string} id @returns {Promise<{damaged: string|null, faults: string|null}>} */
  checked: (id) => call('job_checked', { id }),
  /** A page of photos, newest first. @param {string} id @param {{device: string, seq: number}|null} before @param {number} [limit] @returns {Promise<Photo[]>} */
  photos: (id, before, limit = 500) => call('photos', { id, before, limit }),
  /**
   * @param {string} id @param {{field: string, text: string|null, counter: number}[]} writes
   * @returns {Promise<{kept: {field: string, counter: number, kept: boolean}[]}>}
   */
  keepDraft: (id, writes) => call('draft_put', { id, writes }),
  /** @param {Record<string, string>} fields @param {number} option @returns {Promise<import('./parts/types.js').Figures>} */
  figure: (fields, option) => call('figure', { fields, option }),
  /** @param {Record<string, string>} fields @returns {Promise<import('./parts/types.js').Helps|null>} */
  tryHelps: (fields) => call('helps_try', { fields }),
  /** @param {Record<string, string>} fields @param {any} plan @returns {Promise<import('./parts/types.js').Trial>} */
  tryPlan: (fields, plan) => call('plan_try', { fields, plan }),
  /** @param {Record<string, string>} fields @param {number} option @param {any} size @returns {Promise<import('./parts/types.js').Swap[]>} */
  swapProps: (fields, option, size) => call('props_swap', { fields, option, size }),
  /** @param {Record<string, string>} fields @param {number} option @param {string} gust @returns {Promise<import('./parts/types.js').Gust>} */
  gustToday: (fields, option, gust) => call('gust_today', { fields, option, gust }),
  /** @param {string} id @param {Record<string, string>} fields @param {string} aim @returns {Promise<{entry: string}>} */
  keep: (id, fields, aim) => call('keep', { id, fields, aim }),
  /** @param {string} id @param {Record<string, string>} fields @returns {Promise<{path: string}>} */
  saveBrief: (id, fields) => call('brief_save', { id, fields }),
  /** @param {string} id @param {any} round @returns {Promise<import('./parts/types.js').Evaluation>} */
  checkRound: (id, round) => call('round_check', { id, round }),
  /** @param {string} id @param {any} round @returns {Promise<{entry: string, evaluation: import('./parts/types.js').Evaluation}>} */
  finishRound: (id, round) => call('round_done', { id, round }),
  /** @param {string} id @param {string} stop @param {string} name @param {boolean|null} setOut @returns {Promise<{entry: string}>} */
  passStop: (id, stop, name, setOut) => call('stop_pass', { id, stop, name, setOut }),
  /** Where the job stands: findings, permits, open questions. @param {string} id */
  state: (id) => call('site_state', { id }),
  /** What each kind of finding means. @returns {Promise<any[]>} */
  meanings: () => call('finding_meanings'),
  /** @param {string} id @param {{category: string, what?: string, where?: string, prop?: string|null, name: string, photos?: string[]}} finding @returns {Promise<{entry: string, state: any}>} */
  addFinding: (id, finding) => call('finding_add', { id, finding }),
  /** @param {string} id @param {{finding: string, what: string, name: string, photos?: string[]}} repair @returns {Promise<{entry: string, state: any}>} */
  addRepair: (id, repair) => call('repair_add', { id, repair }),
  /** @param {string} id @param {string} proposal @param {string} name @returns {Promise<{entry: string, state: any}>} */
  chooseProposal: (id, proposal, name) => call('proposal_choose', { id, proposal, name }),
  /** Curves of take-up, cracks and leans. @param {string} id */
  curves: (id) => call('curves', { id }),
  /** What is due, since when and why. @param {string} id */
  due: (id) => call('due', { id }),
  /** Who looks after the wall at night or over the weekend. @param {string} id @param {{ask: string, name: string, until?: string}} watch @returns {Promise<{entry: string, due: any}>} */
  keepWatch: (id, watch) => call('watch_add', { id, watch }),
  /** @param {string} id @param {{name: string, turns: {prop: string, turns: number, thread_mm?: number}[], out: string[], gauges: {name: string, mm: number}[], moved: boolean, words?: string}} step @returns {Promise<{entry: string, state: any}>} */
  letDown: (id, step) => call('let_down', { id, step }),
  /** @param {string} id @param {{name: string, gauges: {name: string, mm: number}[], moved: boolean, words?: string}} look @returns {Promise<{entry: string, state: any}>} */
  lookAfter: (id, look) => call('look_after', { id, look }),
  /** The whole job in short. @param {string} id */
  summary: (id) => call('summary', { id }),
  /** @param {string} id @param {{name: string, anyway?: string}} closing @returns {Promise<{entry: string, state: any}>} */
  closeJob: (id, closing) => call('job_close', { id, closing }),
  /** @param {string} id @param {string} name @param {string} reason @returns {Promise<{entry: string, state: any}>} */
  reopenJob: (id, name, reason) => call('job_reopen', { id, name, reason }),
  /** Size of a photo as it is shown. @param {string} id @param {string} sha @returns {Promise<{width_px: number, height_px: number, focal_35mm_mm: number|null}>} */
  photoSize: (id, sha) => call('sight_photo', { id, sha }),
  /** @param {string} id @param {string} sha @param {any} request */
  measure: (id, sha, request) => call('sight_measure', { id, sha, request }),
  /** @param {string} id @param {string} sha @param {any} view */
  setOut: (id, sha, view) => call('sight_set_out', { id, sha, view }),
  /** Keeps the set-out drawn on a photo as a picture. @param {string} id @param {string} sha @param {any} view @returns {Promise<Photo>} */
  drawSetOut: (id, sha, view) => call('sight_draw', { id, sha, view }),
  /** @param {'lean'|'off_centre'|'crack'} what @param {string} id @param {string} sha @param {any} request */
  readPhoto: (what, id, sha, request) => call(`sight_${what}`, { id, sha, request }),
  /** Lean from samples of the phone's own sensor. @param {any} request */
  tilt: (request) => call('sight_tilt', { request }),
  /** @returns {Promise<{path: string}>} */
  saveCard: () => call('sight_card'),
  /** Hands a number to the phone's dialler; a desktop has none. @param {string} digits @returns {Promise<void>} */
  dial: (digits) => call('dial', { digits }),
  /** What this device can do, what was chosen on it, and packs that wait. @returns {Promise<{phone: boolean, picker: boolean, reminders: boolean, packs: string[]}>} */
  device: () => call('device'),
  /** By the phone's own sharing; a desktop has none. @param {string} text @returns {Promise<void>} */
  shareText: (text) => call('share_text', { text }),
  /** A finished paper: shared on a phone, shown in its folder on a desktop. @param {string} path @returns {Promise<void>} */
  shareFile: (path) => call('share_file', { path }),
  /** Where its owner chooses, by the system's picker. @param {string} path @returns {Promise<boolean>} whether something was chosen */
  saveFile: (path) => call('save_file', { path }),
  /** A copy of a photo among the papers, to be shared. @param {string} id @param {string} sha @returns {Promise<{path: string}>} */
  photoPaper: (id, sha) => call('photo_paper', { id, sha }),
  /** @param {boolean} on @returns {Promise<boolean>} whether they are on now */
  wantReminders: (on) => call('reminders_want', { on }),
  armReminders: () => call('reminders_arm'),
  /** @param {string} name @returns {Promise<import('./parts/types.js').Imported>} */
  takeHandedOver: (name) => call('pack_handed_over', { name }),
  /** @returns {Promise<void>} */
  leave: () => call('leave'),
  /** Calls back when the phone's back button is pressed. @param {() => void} pressed */
  async onBack(pressed) {
    if (/Android/.test(navigator.userAgent)) await /** @type {any} */ (window).__TAURI__?.core?.addPluginListener?.('app', 'back-button', pressed)
  },
  /** Pictures that the camera took while the app was closed. @returns {Promise<{name: string, bytes: number}[]>} */
  photosLeft: () => call('photos_left'),
  /** @param {string} id @param {string} about @param {string} kind @param {string} name @returns {Promise<Photo>} */
  takeLeft: (id, about, kind, name) => call('photo_left_take', { id, about, kind, name }),
  /** @param {string} name */
  dropLeft: (name) => call('photo_left_drop', { name }),
  /** @returns {Promise<{free_bytes: number|null, low: boolean, words: string}>} */
  room: () => call('room'),
  /** @param {string} id @param {string} text */
  addNote: (id, text) => call('note_add', { id, text }),
  /** A page of the record, newest first. @param {string} id @param {number|null} before @param {number} [limit] */
  record: (id, before, limit = 50) => call('record', { id, before, limit }),
  /** @param {string} id @returns {Promise<{days: {day: string, first: number, entries: number, missing: boolean}[], entries: number, phones: string[]}>} */
  recordDays: (id) => call('record_days', { id }),
  /** @param {string} id @returns {Promise<{code: string, at: string, entries: number}[]>} */
  seals: (id) => call('seals', { id }),
  /** @param {string} id @param {string} entry @param {Record<string, any>} change @returns {Promise<{entry: string}>} */
  correct: (id, entry, change) => call('entry_correct', { id, entry, change }),
  /** @param {string} id @returns {Promise<{whole: boolean, entries: number, words: string[]}>} */
  checkJob: (id) => call('job_check', { id }),
  /** @param {string} id @param {string} path @returns {Promise<string>} */
  putAway: (id, path) => call('job_put_away', { id, path }),
  /** @param {string} id @returns {Promise<string>} */
  setAside: (id) => call('job_set_aside', { id }),
  /** Makes a pack that can be looked at and stopped by `work`. @param {string} id @param {any} chosen @param {string} work @returns {Promise<import('./parts/types.js').Packed>} */
  makePackOf: (id, chosen, work) => call('pack_make_of', { id, chosen, work }),
  /** @param {string} work @returns {Promise<{done_bytes: number, total_bytes: number}|null>} */
  packProgress: (work) => call('pack_progress', { work }),
  /** @param {string} work */
  stopPack: (work) => call('pack_stop', { work }),
  /** @param {string} upload @returns {Promise<import('./parts/types.js').Imported>} */
  packArrived: (upload) => call('pack_arrived', { upload }),
  /** @param {string} upload */
  forgetPack: (upload) => call('pack_forget', { upload }),
  /** @param {string} id @returns {Promise<{code: string, qr: string, at: string}>} */
  giveSeal: (id) => call('seal_give', { id }),
  /**
   * Hands a photo over as received.
   * @param {string} id @param {File} file @param {string} about @param {string} kind
   * @param {(done: number) => void} [told] bytes that are over, where it goes in parts
   * @returns {Promise<Photo>}
   */
  async addPhoto(id, file, about, kind, told) {
    // Raw bodies never arrive on Android: there the bytes go as text, part by part, so that only one part is held at a time.
    if (/Android/.test(navigator.userAgent)) {
      const upload = crypto.randomUUID()
      try {
        await app.send(upload, file, (at) => told?.(at))
        return await call('photo_arrived', { upload, id, about, kind, name: file.name, modified: file.lastModified })
      } catch (failure) {
        await app.forgetPack(upload).catch(() => {})
        throw failure
      }
    }
    // Header values hold ASCII only.
    const headers = {
      'x-job': id,
      'x-about': encodeURIComponent(about),
      'x-kind': kind,
      'x-name': encodeURIComponent(file.name),
      'x-modified': String(file.lastModified),
    }
    return call('photo_add', new Uint8Array(await file.arrayBuffer()), { headers })
  },
  /**
   * Sends a file in parts; `told` is asked before each, and may throw to stop it.
   * @param {string} upload @param {File} file @param {(at: number) => void} told
   */
  async send(upload, file, told) {
    for (let at = 0; at < file.size; at += PART) {
      told(at)
      const bytes = new Uint8Array(await file.slice(at, at + PART).arrayBuffer())
      let binary = ''
      for (let i = 0; i < bytes.length; i += 0x8000) binary += String.fromCharCode(...bytes.subarray(i, i + 0x8000))
      await call('pack_part', { upload, at, base64: btoa(binary) })
    }
    told(file.size)
  },
})
