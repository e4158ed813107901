// @ts-check
/**
 * Numbers to ring in an emergency, by the job's country. A number that a person has typed comes before these.
 *
 * | number | where it is from | how it was seen |
 * |---|---|---|
 * | 999, 112 (UK and Ireland), 112 (Germany), 911 (USA) | national emergency numbers | from memory |
 * | gas, Great Britain 0800 111 999 | National Gas Emergency Service, named by gocompare.com, "What to do in a gas or electricity emergency" | secondary text |
 * | gas, Northern Ireland 0800 002 001 | Northern Ireland Gas Emergency Service | secondary texts, several that agree; not on its own page |
 * | gas, Ireland 1800 20 50 50 | Gas Networks Ireland | secondary texts, several that agree; not on its own page |
 * | electricity, Great Britain 105 | the network operators' common number, "England, Scotland and Wales"; ssen.co.uk and gateshead.gov.uk, "Power cuts" | secondary text |
 * | electricity, Northern Ireland 03457 643 643 | nienetworks.co.uk, "Electricity repair efforts continue" (2017): "report damage to NIE Networks on 03457 643 643" | text |
 * | electricity, Ireland 1800 372 999 | ESB Networks' warning in kildarenow.com, 2021-12-08 | secondary text |
 *
 * Elsewhere gas and electricity differ from town to town: there the field stays empty until somebody types it.
 */

/** @typedef {'emergency'|'gas'|'electricity'} Service */

const BRITAIN = Object.freeze({ emergency: '999', gas: '0800 111 999', electricity: '105' })

/** @type {Readonly<Record<string, Partial<Record<Service, string>>>>} */
const BY_COUNTRY = Object.freeze({
  england: BRITAIN, wales: BRITAIN, scotland: BRITAIN,
  northern_ireland: { emergency: '999', gas: '0800 002 001', electricity: '03457 643 643' },
  ireland: { emergency: '112', gas: '1800 20 50 50', electricity: '1800 372 999' },
  germany: { emergency: '112' },
  usa: { emergency: '911' },
})

/** Nothing where the country has no number known here. @param {string} country @param {Service} service @returns {string} */
export const numberOf = (country, service) => BY_COUNTRY[country]?.[service] ?? ''

/** What a phone dials: digits and a leading plus; nothing where there is no digit. @param {string|undefined} typed @returns {string} */
export function dialled(typed) {
  const text = (typed ?? '').trim()
  const digits = text.replace(/[^0-9*#]/g, '')
  return digits && `${text.startsWith('+') ? '+' : ''}${digits}`
}
