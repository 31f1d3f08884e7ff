/**
 * Dead time of an injector against voltage: the time offset of the linear model after SAE J1832 [from memory].
 */
import type { Problem } from '../../units/problem.ts'

/** Volts and seconds, any order. */
export type DeadTimes = readonly (readonly [volts: number, seconds: number])[]

const ms = (seconds: number): string => `${(seconds * 1e3).toFixed(3)} ms`

/** An injector opens sooner with more volts: a table that says otherwise is not one of dead times. */
export const deadTimeFaults = (table: DeadTimes): readonly Problem[] => {
  const problems: Problem[] = []
  const sorted = [...table].sort((a, b) => a[0] - b[0])
  sorted.forEach(([volts, seconds], index) => {
    const before = sorted[index - 1]
    if (seconds < 0 || seconds > 0.01)
      problems.push({
        code: 'dead-time-range',
        says: `The dead time at ${volts} V is ${ms(seconds)}.`,
        todo: 'Dead times run from 0.2 to 4 ms: look at the unit.',
      })
    if (!before) return
    if (before[0] === volts)
      problems.push({
        code: 'doubled-point',
        says: `There are two dead times at ${volts} V.`,
        todo: 'Keep one: they may belong to two pressures.',
      })
    else if (seconds > before[1])
      problems.push({
        code: 'rising-dead-time',
        says: `The dead time rises with voltage: ${ms(before[1])} at ${before[0]} V, ${ms(seconds)} at ${volts} V.`,
        todo: 'Look whether the voltages stand in the wrong order, or the rows come from two pressures.',
      })
  })
  return problems
}

/** Straight line between the two nearest voltages, s; `undefined` beyond the table. */
export const deadTimeAt = (table: DeadTimes, volts: number): number | undefined => {
  const sorted = [...table].sort((a, b) => a[0] - b[0])
  const index = sorted.findIndex(([each]) => each >= volts)
  if (index < 0) return undefined
  const [high, low] = [sorted[index]!, sorted[index - 1]]
  if (high[0] === volts) return high[1]
  return low && low[1] + ((high[1] - low[1]) * (volts - low[0])) / (high[0] - low[0])
}
