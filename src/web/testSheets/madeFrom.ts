import type { Build } from '../../model/build.ts'

/** What a sheet is made from: readings come and go without it changing. */
export const madeFrom = ({ collections: c, sheets }: Build): readonly unknown[] => [
  c.devices,
  c.wires,
  c.cases,
  c.circuits,
  c.runs,
  c.zones,
  c.outputs,
  c.inputs,
  c.accesses,
  sheets,
]
