/**
 * `swapwright fault`: a fault search on the car; `--lines`: on a bare network, one JSON object a line
 * (network-format.md).
 */
import { createInterface } from 'node:readline'
import type { Readable } from 'node:stream'
import type { Command } from 'commander'
import { type FaultLine, faultSession } from '../engineering/electrical/faults/lines.ts'
import { Refusal, refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { type CarOptions, closeStored, searchCar } from './faultCar.ts'
import type { Out } from './print.ts'

interface Options extends CarOptions {
  readonly lines?: boolean
  readonly close?: string
}
const more = (text: string, before: readonly string[]): readonly string[] => [...before, text]

export const addFault = (program: Command, out: Out, input: Readable = process.stdin): void => {
  program
    .command('fault')
    .description('fault search: what to measure next, and who is suspect; asks in a terminal, answers in a script')
    .argument('[device]', 'the device that does not do what it should')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('--kind <kind>', 'dead, weak, on (when it should be off), comes-and-goes', 'dead')
    .option('--case <case>', 'state of the car; else the first in which the complaint can be made')
    .option('--read <point=value>', 'a reading: tail-left.+=12.9, or point~point=0.4 ohm; may be given often', more, [])
    .option('--remark <remark>', 'what was seen or heard: works:tail-right; may be given often', more, [])
    .option('--sure <share>', 'how sure it has to be of one part, 0.5 to 0.999; else 0.92')
    .option(
      '--prior <kind=weight>',
      'how often a kind of part, or a part, fails: crimp=3; or how many times as often a zone: zone:rear=4; may be given often',
      more,
      [],
    )
    .option('--search <id>', 'go on with a search that is kept')
    .option('--keep', 'keep the search in the build')
    .option('--ask', 'ask for one answer after another, on standard input; so by itself in a terminal')
    .option('--close <id>', 'close a search that is kept')
    .option('--json', 'print JSON')
    .option('--lines', 'speak one JSON object a line, on a bare network (car-dc-network/1)')
    .action(async (device: string | undefined, options: Options) => {
      if (options.lines) {
        await speakLines(out, input)
        return
      }
      const inTerminal = (input as { isTTY?: boolean }).isTTY === true && !options.json && options.read.length === 0
      const ask = !options.json && (options.ask === true || inTerminal)
      const reads = !ask && !options.keep && options.search === undefined && options.close === undefined
      const store = await openNamed(options.build, reads)
      try {
        if (options.close !== undefined) closeStored(store, options.close, out)
        else await searchCar(store, device, { ...options, ask }, out, input)
      } finally {
        store.close()
      }
    })
}

const speakLines = async (out: Out, input: Readable): Promise<void> => {
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
}
