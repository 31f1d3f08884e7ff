/** The resistors inside a switch from what a meter shows at its plug, one button held at a time. */
import { type Problem, Refusal } from '../../units/problem.ts'

export interface AtThePlug {
  readonly name: string
  /** Ω between the wire and the return with this button held. */
  readonly shows: number
}

export interface Inside {
  /** Ω, in the order given. */
  readonly buttons: readonly number[]
  readonly idle: number | undefined
}

/**
 * Branches: the end-of-line resistor lies beside each, 1/R = 1/shown − 1/idle. Chain: each tap shows the sum up to it, and no
 * button shows the whole string. `idle` Ω: what no button shows; `undefined` where the meter then shows no connection.
 * Throws `Refusal` `not-measured-so` for a figure that cannot be.
 */
export const insideOf = (
  topology: 'branches' | 'chain',
  measured: readonly AtThePlug[],
  idle: number | undefined,
): Inside => {
  const problems: Problem[] = []
  const wrong = (name: string, says: string): void => {
    problems.push({
      code: 'not-measured-so',
      path: name,
      says,
      todo: 'Measure both again at the plug, unplugged from the controller, one button held at a time.',
    })
  }
  const buttons = measured.map(({ name, shows }, i) => {
    if (topology === 'branches') {
      if (idle === undefined) return shows
      if (shows >= idle) wrong(name, `With ${name} held the meter shows no less than with no button.`)
      return 1 / (1 / shows - 1 / idle)
    }
    const before = measured[i - 1]
    if (before && shows <= before.shows)
      wrong(name, `With ${name} held the meter shows no more than with ${before.name}, which stands before it.`)
    return shows - (before?.shows ?? 0)
  })
  const last = measured.at(-1)
  if (topology === 'chain' && idle !== undefined && last && idle <= last.shows)
    wrong('no button', `With no button the meter shows no more than with ${last.name} held.`)
  if (problems.length > 0) throw new Refusal(problems)
  return { buttons, idle: topology === 'chain' && idle !== undefined && last ? idle - last.shows : idle }
}
