/**
 * First power, in the order in which it hurts nothing: earths proved with the battery off, everything clever unplugged;
 * the battery on through a lamp; fuses one at a time, the volts behind each expected with the lamp in series; the lamp
 * out; supply and earth proved at each controller's plug before it goes on; coils, injectors and pump last.
 */
import type { Build, Device, OperatingCase } from '../../model/build.ts'
import { foundCase } from '../faults/found.ts'
import { batteryPins } from '../pins.ts'
import { makeContext, named } from './firstPowerContext.ts'
import { earthSection } from './firstPowerEarths.ts'
import { fuelPumps } from './firstPowerFuses.ts'
import { lampSection } from './firstPowerLamp.ts'
import { outputSection } from './firstPowerOutputs.ts'
import { plugSection } from './firstPowerPlugs.ts'
import { unplugSection } from './firstPowerUnplug.ts'
import type { TestSheet } from './types.ts'

const quietest = (build: Build): OperatingCase | undefined => {
  const standing = Object.values(build.collections.cases).filter(
    ({ engine, battery, supply }) => engine === 'off' && battery === 'connected' && supply === undefined,
  )
  const busy = ({ switches, outputs }: OperatingCase): number =>
    Object.keys(switches).length + Object.keys(outputs).length
  return standing.length === 0 ? undefined : standing.reduce((p, q) => (busy(q) < busy(p) ? q : p))
}

export const firstPowerSheet = (build: Build, caseId?: string): TestSheet => {
  const devices = Object.values(build.collections.devices)
  const of = (...kinds: Device['spec']['kind'][]): Device[] =>
    devices.filter(({ spec, restricted }) => restricted === undefined && kinds.includes(spec.kind))
  const restricted = devices.filter((device) => device.restricted !== undefined)
  const notes: string[] = []
  if (restricted.length > 0)
    notes.push(`Left to those whose work it is: ${named(restricted)}. Their plugs stay as that person leaves them.`)
  const battery = of('battery')[0]
  const { positive, negative } = battery ? batteryPins(battery) : { positive: undefined, negative: undefined }
  const parked = caseId === undefined ? quietest(build) : foundCase(build, { case: caseId })
  const missing = [
    ...(battery && positive !== undefined && negative !== undefined ? [] : ['a battery with its two posts']),
    ...(parked ? [] : ['an operating case with the engine off and the battery connected, as parked']),
  ]
  if (!battery || positive === undefined || negative === undefined || !parked)
    return {
      id: 'first-power',
      title: 'First power',
      sections: [],
      notes: [...notes, `Not entered: ${missing.join(' and ')}.`],
    }
  const context = makeContext(build, parked, battery, positive, negative)
  const sections = [
    unplugSection(of('controller'), [...of('coil'), ...of('injector')], fuelPumps(build, of('pump')), of('fuse')),
    earthSection(context, of('earth-stud'), of('controller')),
    lampSection(context, of('fuse'), fuelPumps(build, of('pump')), of('earth-stud')),
    plugSection(context, of('controller')),
    outputSection(build),
  ].filter(({ lines }) => lines.length > 0)
  return { id: 'first-power', title: 'First power', case: parked.id, sections, notes: [...notes, ...context.notes] }
}
