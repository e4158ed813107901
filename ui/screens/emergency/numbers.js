// @ts-check
/**
 * Numbers to ring in an emergency, by the job's country. A number that a person has typed comes before these. Each stands
 * with where it is from and how that was seen; the page shows it.
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

/** Where each number comes from and how that was seen. @type {readonly {number: string, of: string, from: string, seen: string}[]} */
export const SOURCES = Object.freeze([
  { number: '999', of: 'United Kingdom', from: 'Devon and Cornwall Police, “Phoning 999”, which names 112 beside it', seen: 'read as text' },
  { number: '112', of: 'European Union, so Ireland and Germany', from: 'European Commission, MEMO/05/363, “112, the single European emergency number”', seen: 'read as text' },
  { number: '911', of: 'USA', from: 'Federal Communications Commission, consumer information on 9-1-1', seen: 'read as text' },
  { number: '0800 111 999', of: 'gas, England, Wales, Scotland', from: 'Northern Gas Networks, one of the gas networks, on its own pages (2020-12-09)', seen: 'read as text' },
  { number: '0800 002 001', of: 'gas, Northern Ireland', from: 'an energy broker’s page on gas escapes, which agrees with others', seen: 'secondary text; not seen on the service’s own page' },
  { number: '1800 20 50 50', of: 'gas, Ireland', from: 'a household page on Irish gas safety; the service’s own older number 1850 20 50 50 ends alike', seen: 'secondary text; not seen on the service’s own page' },
  { number: '105', of: 'electricity, England, Wales, Scotland', from: 'Runnymede Borough Council, “Power cut”', seen: 'read as text; not on the network operators’ own page' },
  { number: '03457 643 643', of: 'electricity, Northern Ireland', from: 'NIE Networks, “Electricity repair efforts continue” (2017)', seen: 'read as text' },
  { number: '1800 372 999', of: 'electricity, Ireland', from: 'ESB Networks, “Power Outages in Severe Weather”', seen: 'read as text' },
])

/** The sources of the numbers of one country; all of them where none is known. @param {string} country */
export function sourcesOf(country) {
  const own = Object.values(BY_COUNTRY[country] ?? {})
  return own.length > 0 ? SOURCES.filter((one) => own.includes(one.number)) : SOURCES
}

/** Nothing where the country has no number known here. @param {string} country @param {Service} service @returns {string} */
export const numberOf = (country, service) => BY_COUNTRY[country]?.[service] ?? ''

/** What a phone dials: digits and a leading plus; nothing where there is no digit. @param {string|undefined} typed @returns {string} */
export function dialled(typed) {
  const text = (typed ?? '').trim()
  const digits = text.replace(/[^0-9*#]/g, '')
  return digits && `${text.startsWith('+') ? '+' : ''}${digits}`
}
