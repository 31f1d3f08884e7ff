/** Reads quantities option by option and gathers everything that cannot be read before it refuses. */
import type { Kind } from '../units/kinds.ts'
import { parseQuantity } from '../units/parse.ts'
import { type Problem, Refusal } from '../units/problem.ts'

export interface OptionReader {
  /** SI; NaN when missing or unreadable, which `end` then tells. */
  needed(kind: Kind, option: string, text: string | undefined, such: string): number
  maybe(kind: Kind, option: string, text: string | undefined): number | undefined
  whole(option: string, text: string | undefined, least: number, most: number): number
  add(problem: Problem): void
  end(): void
}

export const optionReader = (): OptionReader => {
  const problems: Problem[] = []
  const read = (kind: Kind, option: string, text: string): number => {
    try {
      return parseQuantity(kind, text).value
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems.push(...error.problems.map((problem) => ({ ...problem, says: `--${option}: ${problem.says}` })))
      return Number.NaN
    }
  }
  return {
    needed(kind, option, text, such) {
      if (text !== undefined) return read(kind, option, text)
      problems.push({
        code: 'no-option',
        says: `--${option} is not given.`,
        todo: `Give --${option}, such as ${such}.`,
      })
      return Number.NaN
    },
    maybe: (kind, option, text) => (text === undefined ? undefined : read(kind, option, text)),
    whole(option, text, least, most) {
      const value = Number(text)
      if (text !== undefined && Number.isInteger(value) && value >= least && value <= most) return value
      problems.push({
        code: 'no-option',
        says: text === undefined ? `--${option} is not given.` : `--${option} ${text} is outside ${least} … ${most}.`,
        todo: `Give --${option}, a whole number from ${least} to ${most}.`,
      })
      return Number.NaN
    },
    add: (problem) => {
      problems.push(problem)
    },
    end() {
      if (problems.length > 0) throw new Refusal(problems)
    },
  }
}
