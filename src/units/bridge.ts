/** The only ways from one kind to another that looks like it: each needs the datum that tells them apart. */
import type { Of } from './kinds.ts'
import { refuse } from './problem.ts'

const positive = (name: string, value: number, unit: string): number => {
  if (value > 0 && Number.isFinite(value)) return value
  throw refuse(
    'out-of-range',
    `${name} ${value} ${unit} is not above zero.`,
    `Give the ${name.toLowerCase()} that applies.`,
  )
}

/** Mass flow, kg/s, of a volume flow, m³/s, of a fluid of stated density, kg/m³.   ṁ = ρ · V̇ */
export const massFlowFromVolumeFlow = (flow: Of<'volumeFlow'>, density: Of<'density'>): Of<'massFlow'> =>
  flow * positive('Density', density, 'kg/m³')

/** Volume flow, m³/s, of a mass flow, kg/s, of a fluid of stated density, kg/m³.   V̇ = ṁ / ρ */
export const volumeFlowFromMassFlow = (flow: Of<'massFlow'>, density: Of<'density'>): Of<'volumeFlow'> =>
  flow / positive('Density', density, 'kg/m³')

/** Absolute pressure, Pa, of a gauge pressure, Pa, at a stated ambient pressure, Pa absolute. */
export const gaugeToAbsolute = (gauge: Of<'pressureGauge'>, ambient: Of<'pressureAbsolute'>): Of<'pressureAbsolute'> =>
  gauge + positive('Ambient pressure', ambient, 'Pa')

/** Gauge pressure, Pa, of an absolute pressure, Pa, at a stated ambient pressure, Pa absolute. */
export const absoluteToGauge = (
  absolute: Of<'pressureAbsolute'>,
  ambient: Of<'pressureAbsolute'>,
): Of<'pressureGauge'> => absolute - positive('Ambient pressure', ambient, 'Pa')
