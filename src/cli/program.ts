import { Command } from 'commander'
import { addBook } from './book.ts'
import { addBuilds } from './builds.ts'
import { addCalc } from './calc.ts'
import { addFault } from './fault.ts'
import { addGates } from './gates.ts'
import { addLedger } from './ledger.ts'
import { addLevel } from './level.ts'
import { addLists } from './lists.ts'
import { addLogs } from './logs.ts'
import { addLoom } from './loom.ts'
import { addNetwork } from './network.ts'
import { addPatterns } from './patterns.ts'
import { addPlan } from './plan.ts'
import type { Out } from './print.ts'
import { addServe } from './serve.ts'
import { addSheet } from './sheet.ts'
import { addSignals } from './signals.ts'
import { addSize } from './size.ts'
import { addSwitch } from './switch.ts'
import { addTable } from './table.ts'
import { addWires } from './wires.ts'

export const makeProgram = (out: Out, setStatus: (status: number) => void): Command => {
  const program = new Command('swapwright')
    .description(
      'A workbench for fitting a modern fuel-injected engine and a programmable controller into an older car.',
    )
    .addHelpText(
      'after',
      `
Which build: --build <folder>, else SWAPWRIGHT_BUILD, else the demo (made in ./swapwright-build).
Exit status: 0 no no-go; 1 a no-go; 2 usage; 3 internal fault; 4 input refused.

A first evening:
  swapwright new my-van --name "The van"
  swapwright wires import list.csv --build my-van          shows what it understood
  swapwright wires import list.csv --build my-van --yes    stores it
  swapwright check --build my-van --working
  swapwright sitting --hours 2.5 --build my-van            what to do tonight
  swapwright serve --build my-van                          the workbench, on this machine only`,
    )
    .configureOutput({ writeOut: out.write, writeErr: out.error })
    .exitOverride()
  addBuilds(program, out, setStatus)
  addCalc(program, out)
  addSize(program, out, setStatus)
  addPatterns(program, out, setStatus)
  addSignals(program, out, setStatus)
  addSwitch(program, out, setStatus)
  addTable(program, out)
  addLevel(program, out, setStatus)
  addWires(program, out, setStatus)
  addLogs(program, out, setStatus)
  addLoom(program, out)
  addNetwork(program, out)
  addFault(program, out)
  addSheet(program, out, setStatus)
  addPlan(program, out)
  addGates(program, out, setStatus)
  addLedger(program, out)
  addLists(program, out, setStatus)
  addBook(program, out)
  addServe(program, out)
  // Sub-commands made before exitOverride inherit it only when told.
  const inherit = (command: Command): void => {
    for (const child of command.commands) {
      child.exitOverride().configureOutput({ writeOut: out.write, writeErr: out.error })
      inherit(child)
    }
  }
  inherit(program)
  return program
}
