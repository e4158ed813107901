// @ts-check
/** The only module that calls the app. A failure is `{code, message, field?, problems?}`. */

/** @param {string} name @param {any} [args] @param {any} [options] @returns {Promise<any>} */
async function call(name, args, options) {
  const core = /** @type {any} */ (window).__TAURI__?.core
  if (!core) throw { code: 'no_app', message: 'This page works only inside the app.' }
  return core.invoke(name, args, options)
}

/** @param {unknown} failure @returns {string} */
export function failureText(failure) {
  const { message } = /** @type {{message?: string}} */ (failure ?? {})
  return message ?? String(failure)
}

export const app = Object.freeze({
  jobs: () => call('jobs'),
  /** @param {string} name @param {string} place @param {string} country */
  begin: (name, place, country) => call('job_begin', { name, place, country }),
  openDemo: () => call('demo_open'),
  /** @param {string} id */
  open: (id) => call('job_open', { id }),
  /** @param {string} id @param {{field: string, text: string|null, counter: number}[]} writes */
  keepDraft: (id, writes) => call('draft_put', { id, writes }),
  /** @param {Record<string, string>} fields @param {number} option */
  figure: (fields, option) => call('figure', { fields, option }),
  /** @param {string} id @param {Record<string, string>} fields @param {string} aim */
  keep: (id, fields, aim) => call('keep', { id, fields, aim }),
  /** @param {string} id @param {Record<string, string>} fields */
  saveBrief: (id, fields) => call('brief_save', { id, fields }),
  /** @param {string} id @param {any} round */
  checkRound: (id, round) => call('round_check', { id, round }),
  /** @param {string} id @param {any} round */
  finishRound: (id, round) => call('round_done', { id, round }),
  /** @param {string} id @param {string} text */
  addNote: (id, text) => call('note_add', { id, text }),
  /** @param {string} id @param {number|null} before */
  record: (id, before) => call('record', { id, before, limit: 50 }),
  /** @param {string} id */
  giveSeal: (id) => call('seal_give', { id }),
  /** @param {string} id */
  makePack: (id) => call('pack_make', { id }),
  /**
   * Hands a photo over as received.
   * @param {string} id @param {File} file @param {string} about @param {string} kind
   */
  async addPhoto(id, file, about, kind) {
    const bytes = new Uint8Array(await file.arrayBuffer())
    // Raw bodies never arrive on Android: there the bytes go as text.
    if (/Android/.test(navigator.userAgent)) {
      let binary = ''
      for (let i = 0; i < bytes.length; i += 0x8000) binary += String.fromCharCode(...bytes.subarray(i, i + 0x8000))
      return call('photo_text', { id, about, kind, name: file.name, modified: file.lastModified, base64: btoa(binary) })
    }
    const headers = {
      'x-job': id,
      'x-about': encodeURIComponent(about),
      'x-kind': kind,
      'x-name': encodeURIComponent(file.name),
      'x-modified': String(file.lastModified),
    }
    return call('photo_add', bytes, { headers })
  },
})
