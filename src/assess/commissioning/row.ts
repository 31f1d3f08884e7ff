/** The row of gates and which of them are closed: cheap, for whoever only wants to know how far it is. */
import type { Build } from '../../model/build.ts'
import { byTime } from './evidence.ts'
import { firstPowerGates } from './firstPower.ts'
import { firstStartGates } from './firstStart.ts'
import type { Gate } from './types.ts'

export const gatesOf = (build: Build): readonly Gate[] => [...firstPowerGates(build), ...firstStartGates(build)]

/** The latest word on a gate: closed, or opened again. */
export const closingOf = (build: Build, gate: string) => {
  const latest = byTime(
    Object.values(build.collections.records).filter(
      (record) => record.kind === 'commissioning gate' && record.gate === gate,
    ),
  ).at(-1)
  return latest?.done ? latest : undefined
}
