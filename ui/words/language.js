// @ts-check
import { settings } from '../parts/settings.js'

const own = () => (navigator.language.toLowerCase().startsWith('de') ? 'de' : 'en')

/** The language the screens speak until they are loaded again: the chosen one, else the phone's own, else English. */
export const language = settings().language === 'phone' ? own() : settings().language
