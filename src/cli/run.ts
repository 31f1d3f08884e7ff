/** One call of the command: what it prints, and its exit status. A refusal is sentences; only a fault of ours is a fault. */
import { CommanderError } from 'commander'
import { Refusal } from '../units/problem.ts'
import { type Out, problemText } from './print.ts'
import { makeProgram } from './program.ts'

const USAGE = 2
const FAULT = 3
const REFUSED = 4

export const runCommand = async (args: readonly string[], out: Out): Promise<number> => {
  let status = 0
  try {
    const program = makeProgram(out, (value) => {
      status = value
    })
    if (args.length === 0) {
      out.write(program.helpInformation())
      return USAGE
    }
    await program.parseAsync([...args], { from: 'user' })
    return status
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : USAGE
    if (error instanceof Refusal) {
      for (const problem of error.problems) out.error(`${problemText(problem)}\n`)
      return REFUSED
    }
    out.error(
      `Something in Swapwright itself went wrong: ${error instanceof Error ? error.message : String(error)}\nNothing stored was changed by it. Set SWAPWRIGHT_TRACE=1 to see where.\n`,
    )
    if (process.env.SWAPWRIGHT_TRACE && error instanceof Error) out.error(`${error.stack ?? ''}\n`)
    return FAULT
  }
}
