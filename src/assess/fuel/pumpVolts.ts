/** Volts and amperes of the fuel pump in the solved full-load case, and what makes them doubtful. */
import type { Build } from '../../model/build.ts'
import { type Datum, known, lacking } from '../chain/chain.ts'
import { thinnestWires } from '../chain/deviceVolts.ts'
import { deviceName, endpointOf, own } from '../make.ts'
import { chain, hiddenDraws, type Solved } from '../solveCases.ts'

export interface PumpVolts {
  readonly volts: Datum
  readonly amps: Datum
  /** What draws unseen, named: others then get no more than the solved volts, perhaps less. */
  readonly hidden: readonly string[]
}

export const pumpVolts = (build: Build, full: Solved | undefined): PumpVolts => {
  const id = build.sheets.fuel?.pump?.device
  const pump = id === undefined ? undefined : own(build.collections.devices, id)
  const load = pump?.loads?.[0]
  const named = (subject: string): string => deviceName(build, subject.split('/')[1] ?? '')
  const gaps: string[] = []
  if (id === undefined) gaps.push('the fuel pump')
  else if (!pump) gaps.push(`the pump ${id} among the devices`)
  else if (!load?.law) gaps.push(`what ${pump.name} draws`)
  if (!full) gaps.push('an operating case at full load')
  if (!full || !pump || !load) return { volts: lacking(...gaps), amps: lacking(...gaps), hidden: [] }
  const [from, to] = [load.from, load.to].map((pin) => endpointOf(pump.id, pin)) as [string, string]
  const unsure = [...chain(full, full.bound.nodeOf(from), 'up'), ...chain(full, full.bound.nodeOf(to), 'down')]
    .filter(({ element }) => full.bound.unsure.has(element))
    .map(({ element }) => `cross-section, material or length of ${element.replace('wire:', '')}`)
  const sources = full.missing
    .filter(({ subject }) =>
      ['battery', 'alternator'].includes(own(build.collections.devices, subject.split('/')[1] ?? '')?.spec.kind ?? ''),
    )
    .map(({ subject, datum }) => `${datum} of ${named(subject)}`)
  gaps.push(...new Set([...unsure, ...sources]))
  const [a, b] = [full.voltages[from], full.voltages[to]]
  if (a == null || b == null) gaps.push('the solved voltage at the pump in the full-load case')
  const hidden = hiddenDraws(full).map(({ subject, datum }) => `${datum} of ${named(subject)}`)
  if (gaps.length > 0 || a == null || b == null) return { volts: lacking(...gaps), amps: lacking(...gaps), hidden }
  const amps = full.elements.get(full.bound.loadElement(pump.id, load.id))
  const where = `${pump.name}, case “${full.kase.name}”, solved with its wires warm`
  return {
    volts: known(a - b, full.plusMinus ?? 0, `${where}: ${(a - b).toFixed(2)} V across it`),
    amps: amps == null ? lacking('the solved current of the pump') : known(Math.abs(amps), 0, `${where}`),
    hidden,
  }
}

/** The thinnest wires that carry the pump's current in the full-load case: where volts are lost first. */
export const thinnestPumpWires = (build: Build, full: Solved | undefined): readonly string[] =>
  thinnestWires(build, full, build.sheets.fuel?.pump?.device)
