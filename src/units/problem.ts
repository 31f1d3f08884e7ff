/**
 * What went wrong, as data. `says` tells what happened and to which item; `todo` tells what to do about it.
 * Every room makes its own problems; the doors (command, server, screens) only print them.
 */
export interface Problem {
  /** Short, stable, hyphenated: `out-of-range`, `dangling-pin`, `unreadable-quantity`. */
  readonly code: string
  /** Where, as the builder would name it (`wires/W-104/from`), when there is such a place. */
  readonly path?: string
  /** Line of the file, counted from 1, when the problem stands in a file. */
  readonly line?: number
  readonly says: string
  readonly todo: string
}

/** Input that is refused whole. Carries every problem found, not only the first; nothing stored has changed. */
export class Refusal extends Error {
  readonly problems: readonly Problem[]

  constructor(problems: readonly Problem[]) {
    super(problems.map((problem) => `${problem.says} ${problem.todo}`.trim()).join('\n'))
    this.name = 'Refusal'
    this.problems = problems
  }
}

/** The refusal of a single thing. */
export const refuse = (code: string, says: string, todo: string, path?: string): Refusal =>
  new Refusal([{ code, says, todo, ...(path === undefined ? {} : { path }) }])
