// @ts-check
import { answer } from './said/answer.js'
import { checks } from './said/checks.js'
import { days } from './said/days.js'
import { order } from './said/order.js'
import { papers } from './said/papers.js'
import { sight } from './said/sight.js'

/** Sentences of the calculation and of the record, in English and in German. {} stands for what differs from job to job. */
export const said = Object.freeze([...answer, ...checks, ...days, ...order, ...papers, ...sight])
