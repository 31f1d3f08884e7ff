/** Volts at the injectors in the full-load case, and their dead time at those volts. */
import { deadTimeAt, deadTimeFaults } from '../../engineering/fuel/deadTime.ts'
import { type Datum, isKnown, known, lacking } from '../chain/chain.ts'
import { endpointOf, own } from '../make.ts'
import type { FuelFacts } from './facts.ts'

/** Supply of the first injector; the driver's own drop, some tenths of a volt, is left out. */
export const injectorVolts = ({ build, fuel, full }: FuelFacts): Datum => {
  const device = own(build.collections.devices, fuel.injectors?.devices[0] ?? '')
  const load = device?.loads?.[0]
  const volts = full && device && load ? full.voltages[endpointOf(device.id, load.from)] : undefined
  return volts == null
    ? lacking('volts at the injectors in the full-load case')
    : known(
        volts,
        full?.plusMinus ?? 0,
        'Volts at the injector’s supply, solved, full load; the driver’s own drop left out',
      )
}

export const deadTimes = ({ fuel }: FuelFacts): readonly (readonly [number, number])[] =>
  (fuel.injectors?.card?.deadTime ?? fuel.injectors?.deadTime ?? []).map(
    ([volts, seconds]) => [volts.value, seconds.value] as const,
  )

/** Between two voltages of the table, never beyond them. */
export const injectorDeadTime = (facts: FuelFacts): Datum => {
  const table = deadTimes(facts)
  const faults = deadTimeFaults(table)
  if (faults.length > 0) return { missing: [], problems: faults }
  const volts = injectorVolts(facts)
  if (!isKnown(volts)) return volts
  const seconds = deadTimeAt(table, volts.value)
  return seconds === undefined
    ? lacking(`dead time at ${volts.value.toFixed(1)} V`)
    : known(seconds, 0, `Dead time at ${volts.value.toFixed(2)} V, between two rows of its table`, ...volts.working)
}
