/** Which strip a channel belongs on: one strip a system, its channels in the order of the stations from source to sink. */
import type { Log, Strip } from './strips.ts'

const SYSTEMS: readonly (readonly [name: string, roles: readonly string[], names: RegExp])[] = [
  ['Driving', ['pedal', 'throttle', 'engineSpeed', 'vehicleSpeed', 'ignitionAngle'], /rpm|speed|throttle|pedal|gear/i],
  [
    'Air',
    [
      'ambientTemperature',
      'barometricPressure',
      'airFlow',
      'compressorPressure',
      'chargeTemperatureBefore',
      'chargeTemperatureAfter',
      'manifoldPressure',
    ],
    /ambient|baro|boost|map|maf|charge|intake|air/i,
  ],
  ['Charge-cooler water', ['coolerWaterIn'], /cooler water/i],
  [
    'Fuel',
    [
      'fuelPressure',
      'fuelPressureDifference',
      'fuelTemperature',
      'injectorPulseWidth',
      'injectorDuty',
      'fuelTrim',
      'targetLambda',
      'lambda',
      'narrowBandVoltage',
    ],
    /fuel|inj|lambda|afr|trim/i,
  ],
  ['Electrical', ['batteryVoltage', 'injectorVoltage', 'fanState'], /batt|volt|fan|alternator/i],
  ['Engine cooling', ['coolantTemperature'], /coolant|water|engine temp/i],
  ['Oil', ['oilPressure', 'oilTemperature'], /oil/i],
]
const OTHER = 'Other'

export interface SystemStrip {
  readonly system: string
  readonly strips: readonly Strip[]
}

export const placeOf = (log: Log, channel: string): readonly [system: number, station: number] => {
  const role = log.channels.find(({ name }) => name === channel)?.role
  const byRole = SYSTEMS.findIndex(([, roles]) => role !== undefined && roles.includes(role))
  if (byRole >= 0) return [byRole, SYSTEMS[byRole]![1].indexOf(role!)]
  const byName = role === undefined ? SYSTEMS.findIndex(([, , names]) => names.test(channel)) : -1
  return [byName >= 0 ? byName : SYSTEMS.length, 100]
}

export const bySystem = (log: Log, strips: readonly Strip[]): readonly SystemStrip[] => {
  const groups = new Map<number, { strip: Strip; station: number }[]>()
  for (const strip of strips) {
    const [system, station] = placeOf(log, strip.channel)
    groups.set(system, [...(groups.get(system) ?? []), { strip, station }])
  }
  return [...groups]
    .sort(([a], [b]) => a - b)
    .map(([system, list]) => ({
      system: SYSTEMS[system]?.[0] ?? OTHER,
      strips: list.sort((a, b) => a.station - b.station).map(({ strip }) => strip),
    }))
}
