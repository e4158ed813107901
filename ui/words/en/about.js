// @ts-check
export const aboutWords = Object.freeze({
  title: 'About and privacy',
  link: 'About and privacy',
  privacy: 'Privacy',
  lines: Object.freeze([
    'Everything you type and every photo stays on this device. There is no account, no server, no advertising and no counting of users.',
    'The app does not use the network. On Android a released app has no permission to; on other systems its pages may reach nothing but the app itself.',
    'Something leaves the device only when you share or save it: a pack, a report, a brief, a list, a seal, the set-out on a photo. It goes where you send it; the app that you send it with, or the place that you choose for it, has its own rules.',
    'A photo is kept as it came. If your camera writes the place into its pictures, the place is in them, and in a pack that holds them. The app itself never asks where you are.',
    'Names and numbers of people are kept beside the job and do not go into a pack. Names written on rounds, stops and notes do.',
    'The record cannot be changed afterwards, and a job is not deleted by the app: it can be put away into a pack. Removing the app, or its data in the phone’s settings, removes everything that was not shared.',
    'Backups by the phone’s maker leave this app out on Android. On other systems they may take it along.',
  ]),
  licences: 'Built from',
  licencesLine: (/** @type {number} */ n) => `Upstay is free software, under the MIT licence or Apache-2.0, at your choice. The DejaVu fonts carry their own licence. These ${n} libraries are in it on one system or another, each under its own licence; their texts come with their sources.`,
  columns: Object.freeze(['Library', 'Version', 'Licence']),
})
