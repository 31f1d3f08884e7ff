/**
 * The range in which each figure of a car can lie, SI. Outside it a figure is a slip, not a choice. Widths: a decade or so
 * beyond what any car has, and within what the heat balance and the solver hold for. Common practice, no published source.
 */
import type { Device } from '../../model/build.ts'

export interface Limit {
  /** As a person knows the datum: `cross-section`. */
  readonly datum: string
  readonly min: number
  readonly max: number
  readonly unit: 'mm²' | 'm' | 'Ω' | 'V' | 'A' | 'A·h' | 'W' | '°C'
}
const limit = (datum: string, min: number, max: number, unit: Limit['unit']): Limit => ({ datum, min, max, unit })

/** m²: AWG 32 to three times the thickest battery cable. */
export const AREA = limit('cross-section', 3e-8, 3.9e-4, 'mm²')
export const LENGTH = limit('length', 1e-3, 100, 'm')
/** Ω: a joint may be rotten, but none is perfect. */
export const JOINT_RESISTANCE = limit('resistance of a joint', 1e-7, 1e6, 'Ω')
/** K: colder than any winter, and hotter than any place in which a wire has insulation. */
export const ZONE_AMBIENT = limit('ambient temperature', 220, 600, '°C')
export const CASE_AMBIENT = limit('temperature', 220, 345, '°C')
export const SUPPLY = limit('voltage of the jump source', 1, 100, 'V')

const CONTACT = { contactResistance: limit('contact resistance', 1e-7, 1e6, 'Ω') }
export const SPEC: { readonly [K in Device['spec']['kind']]?: Readonly<Record<string, Limit>> } = {
  battery: {
    restedVoltage: limit('rested voltage', 1.5, 60, 'V'),
    internalResistance: limit('internal resistance', 1e-5, 10, 'Ω'),
    capacity: limit('capacity', 360, 7.2e6, 'A·h'),
  },
  alternator: {
    setpoint: limit('set voltage', 5, 60, 'V'),
    internalResistance: limit('internal resistance', 1e-5, 10, 'Ω'),
    hotOutputIdle: limit('hot output at idle', 0.1, 1000, 'A'),
    hotOutputCruise: limit('hot output at cruise', 0.1, 1000, 'A'),
  },
  starter: {
    crankingCurrent: limit('cranking current', 1, 5000, 'A'),
    stallCurrent: limit('stalled current', 1, 1e4, 'A'),
    solenoidResistance: limit('resistance of the solenoid', 1e-3, 1e3, 'Ω'),
    pullIn: limit('pull-in voltage of the solenoid', 0.1, 60, 'V'),
  },
  'earth-stud': CONTACT,
  fuse: {
    rating: limit('rating', 1e-3, 1000, 'A'),
    coldResistance: limit('cold resistance', 1e-6, 1e3, 'Ω'),
    breakingCapacity: limit('breaking capacity', 1, 1e6, 'A'),
  },
  relay: {
    coilResistance: limit('resistance of the coil', 0.1, 1e6, 'Ω'),
    pullIn: limit('pull-in voltage', 0.1, 100, 'V'),
    dropOut: limit('drop-out voltage', 1e-3, 100, 'V'),
    ...CONTACT,
  },
  switch: CONTACT,
  diode: { forwardVoltage: limit('forward voltage', 0.01, 60, 'V') },
  resistor: { resistance: limit('resistance', 1e-6, 1e9, 'Ω') },
}

/** Figures of a load's law: any that is no number above 0, or beyond these, makes it a load that is not described. */
export const LAW: Readonly<Record<string, readonly [min: number, max: number]>> = {
  resistance: [1e-4, 1e9],
  ratedVoltage: [0.1, 1000],
  ratedPower: [1e-6, 1e6],
  current: [0, 1e5],
  minimumVoltage: [1e-3, 1000],
  power: [1e-6, 1e6],
  runningCurrent: [1e-9, 1e6],
  stallCurrent: [1e-9, 1e7],
}

export const within = ({ min, max }: { readonly min: number; readonly max: number }, value: number): boolean =>
  value >= min && value <= max
