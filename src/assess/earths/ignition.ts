/** The ignition switch, found by its terminals (DIN 72552: 30 in, 15 and 50 out), and whether a case has it on. */
import type { Build, Device, OperatingCase } from '../../model/build.ts'
import { own } from '../make.ts'

export const ignitionSwitches = (build: Build): Device[] =>
  Object.values(build.collections.devices).filter(
    ({ spec, pins }) =>
      spec.kind === 'switch' && Object.hasOwn(pins, '15') && (Object.hasOwn(pins, '30') || Object.hasOwn(pins, '50')),
  )

/** Undefined where no switch can be told for the ignition switch. */
export const ignitionOn = (build: Build, kase: OperatingCase): boolean | undefined => {
  const switches = ignitionSwitches(build)
  if (switches.length === 0) return undefined
  return switches.some(({ id, spec }) => {
    if (spec.kind !== 'switch') return false
    const pairs = own(spec.positions, own(kase.switches, id) ?? spec.rest) ?? []
    return pairs.some((pair) => pair.includes('15'))
  })
}
