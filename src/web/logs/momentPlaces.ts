/** Where on the chains a logged channel is measured, by what it means. */
import type { Logged, LoggedAt } from '../air/AirDrawing.tsx'

export type DrawnSystem = 'air' | 'fuel' | 'cooling'

interface Place {
  readonly system: DrawnSystem
  readonly station: string
  /** The curve of the air drawing that it lies on. */
  readonly curve?: Logged['curve']
  readonly short: string
}

const PLACES: Readonly<Record<string, Place>> = {
  ambientTemperature: { system: 'air', station: 'outside', curve: 'temperature', short: 'logged' },
  barometricPressure: { system: 'air', station: 'outside', curve: 'pressureAbsolute', short: 'logged' },
  airFlow: { system: 'air', station: 'filter', short: 'logged' },
  chargeTemperatureBefore: { system: 'air', station: 'compressor', curve: 'temperature', short: 'logged' },
  compressorPressure: { system: 'air', station: 'compressor', curve: 'pressureAbsolute', short: 'logged' },
  chargeTemperatureAfter: { system: 'air', station: 'cooler', curve: 'temperature', short: 'logged' },
  coolerWaterIn: { system: 'air', station: 'loop', short: 'logged' },
  manifoldPressure: { system: 'air', station: 'engine', curve: 'pressureAbsolute', short: 'logged' },
  throttle: { system: 'air', station: 'engine', short: 'throttle' },
  engineSpeed: { system: 'air', station: 'engine', short: 'at' },
  fuelPressure: { system: 'fuel', station: 'rail', short: 'rail pressure' },
  fuelPressureDifference: { system: 'fuel', station: 'rail', short: 'over the manifold' },
  fuelTemperature: { system: 'fuel', station: 'rail', short: 'fuel' },
  injectorPulseWidth: { system: 'fuel', station: 'injectors', short: 'pulse' },
  injectorDuty: { system: 'fuel', station: 'injectors', short: 'duty' },
  injectorVoltage: { system: 'fuel', station: 'injectors', short: 'at the injectors' },
  lambda: { system: 'fuel', station: 'engine', short: 'lambda' },
  targetLambda: { system: 'fuel', station: 'engine', short: 'lambda aimed at' },
  fuelTrim: { system: 'fuel', station: 'engine', short: 'trim' },
  coolantTemperature: { system: 'cooling', station: 'engine', short: 'coolant' },
  fanState: { system: 'cooling', station: 'air', short: 'fan' },
  vehicleSpeed: { system: 'cooling', station: 'air', short: 'road speed' },
}

export interface MomentReading {
  readonly channel: string
  readonly unit: string
  readonly value: number | string | null
  readonly t: number | null
  /** What the channel means, and its value in SI, where both are known. */
  readonly role?: string
  readonly si?: number | null
}

export const valueText = ({ value, unit }: MomentReading): string =>
  value === null ? 'no value yet' : `${typeof value === 'number' ? Number(value.toPrecision(5)) : value} ${unit}`.trim()

/** Readings by station of each system; those without a value, and channels of no station, are left out. */
export const onChains = (readings: readonly MomentReading[]): ReadonlyMap<DrawnSystem, LoggedAt> => {
  const found = new Map<DrawnSystem, Map<string, Logged[]>>()
  for (const reading of readings) {
    const place = reading.role === undefined ? undefined : PLACES[reading.role]
    if (!place || reading.value === null) continue
    const stations = found.get(place.system) ?? new Map<string, Logged[]>()
    found.set(place.system, stations)
    const si = place.curve && typeof reading.si === 'number' ? reading.si : undefined
    stations.set(place.station, [
      ...(stations.get(place.station) ?? []),
      {
        says: `${place.short} ${valueText(reading)}`,
        ...(place.curve && si !== undefined ? { curve: place.curve, si } : {}),
      },
    ])
  }
  return found
}
