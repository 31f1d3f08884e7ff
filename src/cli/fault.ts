/** `swapwright fault --lines`: a fault search on a bare network, one JSON object a line (network-format.md). */
import { createInterface } from 'node:readline'
import type { Readable } from 'node:stream'
import type { Command } from 'commander'
import { type FaultLine, faultSession } from '../engineering/electrical/faults/lines.ts'
import { Refusal, refuse } from '../units/problem.ts'
import type { Out } from './print.ts'

export const addFault = (program: Command, out: Out, input: Readable = process.stdin): void => {
  program
    .command('fault')
    .description('fault search on a bare network (car-dc-network/1)')
    .option('--lines', 'speak one JSON object a line on standard input and output')
    .action(async (options: { lines?: boolean }) => {
      if (!options.lines)
        throw refuse(
          'no-mode',
          'The fault command speaks JSON lines only.',
          'Call it as: swapwright fault --lines, and send {"type": "start", …}.',
        )
      const session = faultSession()
      for await (const text of createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY })) {
        if (text.trim() === '') continue
        let answer: object | undefined
        try {
          let line: FaultLine
          try {
            line = JSON.parse(text) as FaultLine
          } catch {
            throw refuse('not-json', 'This line is not JSON.', 'Send one JSON object a line.')
          }
          if (line.type === 'end') break
          answer = session(line)
        } catch (error) {
          // One bad line does not end the search: it is answered as what it is, and the search stands where it stood.
          if (!(error instanceof Refusal)) throw error
          answer = { error: error.problems.map(({ says, todo }) => `${says} ${todo}`) }
        }
        if (answer) out.write(`${JSON.stringify(answer)}\n`)
      }
      // The other side may keep its end open: the program ends all the same.
      input.destroy()
    })
}
