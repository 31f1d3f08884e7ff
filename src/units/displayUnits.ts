/** The unit in which a figure of each kind is printed when nobody asked for another: [unit, from this SI size up]. */
import type { Kind } from './kinds.ts'

type Steps = readonly [first: readonly [unit: string, from: 0], ...rest: (readonly [unit: string, from: number])[]]

const STEPS: Readonly<Record<Kind, Steps>> = {
  ratio: [['', 0]],
  angle: [['°', 0]],
  length: [
    ['µm', 0],
    ['mm', 1e-4],
    ['m', 1],
    ['km', 1e4],
  ],
  area: [
    ['mm²', 0],
    ['m²', 0.01],
  ],
  volume: [
    ['cc', 0],
    ['l', 1e-3],
    ['m³', 1],
  ],
  mass: [
    ['g', 0],
    ['kg', 1],
  ],
  time: [
    ['µs', 0],
    ['ms', 1e-3],
    ['s', 1],
    ['min', 120],
    ['h', 7200],
    ['day', 172800],
  ],
  speed: [['km/h', 0]],
  acceleration: [['m/s²', 0]],
  angularSpeed: [['rpm', 0]],
  frequency: [
    ['Hz', 0],
    ['kHz', 1e3],
    ['MHz', 1e6],
  ],
  force: [
    ['N', 0],
    ['kN', 1e3],
  ],
  torque: [['N·m', 0]],
  energy: [
    ['mJ', 0],
    ['J', 1],
    ['kJ', 1e3],
    ['MJ', 1e6],
  ],
  power: [
    ['mW', 0],
    ['W', 1],
    ['kW', 1e3],
  ],
  pressureAbsolute: [
    ['kPa', 0],
    ['bar', 1e6],
  ],
  pressureGauge: [
    ['Pa', 0],
    ['kPa', 1e3],
    ['bar', 1e5],
  ],
  pressureDifference: [
    ['Pa', 0],
    ['kPa', 1e3],
    ['bar', 1e5],
  ],
  stress: [
    ['MPa', 0],
    ['GPa', 1e9],
  ],
  temperature: [['°C', 0]],
  temperatureDifference: [['K', 0]],
  massFlow: [
    ['mg/s', 0],
    ['g/s', 1e-3],
    ['kg/s', 1],
  ],
  volumeFlow: [
    ['cc/min', 0],
    ['l/min', 2e-3 / 60],
    ['m³/s', 0.1],
  ],
  density: [['kg/m³', 0]],
  dynamicViscosity: [
    ['mPa·s', 0],
    ['Pa·s', 1],
  ],
  kinematicViscosity: [['mm²/s', 0]],
  specificHeat: [
    ['J/(kg·K)', 0],
    ['kJ/(kg·K)', 1e3],
  ],
  specificEnergy: [
    ['J/kg', 0],
    ['kJ/kg', 1e3],
    ['MJ/kg', 1e6],
  ],
  specificFuelConsumption: [['g/kWh', 0]],
  heatCapacityRate: [
    ['W/K', 0],
    ['kW/K', 1e4],
  ],
  voltage: [
    ['mV', 0],
    ['V', 1],
    ['kV', 1e3],
  ],
  current: [
    ['µA', 0],
    ['mA', 1e-3],
    ['A', 1],
  ],
  resistance: [
    ['µΩ', 0],
    ['mΩ', 1e-3],
    ['Ω', 1],
    ['kΩ', 1e3],
    ['MΩ', 1e6],
  ],
  resistancePerLength: [
    ['mΩ/m', 0],
    ['Ω/m', 1],
  ],
  charge: [
    ['C', 0],
    ['mAh', 3.6],
    ['Ah', 3600],
  ],
  capacitance: [
    ['pF', 0],
    ['nF', 1e-9],
    ['µF', 1e-6],
    ['mF', 1e-3],
    ['F', 1],
  ],
  inductance: [
    ['µH', 0],
    ['mH', 1e-3],
    ['H', 1],
  ],
  jouleIntegral: [['A²·s', 0]],
}

/** Nothing is neither small nor large: it is printed in the unit that a plain amount of 1 SI would take. */
export const displayUnit = (kind: Kind, si: number): string => {
  const [first, ...rest] = STEPS[kind]
  const size = si === 0 ? 1 : Math.abs(si)
  // A hair of tolerance: 999.9999999 Ω is 1 kΩ that went through a division.
  return rest.findLast(([, from]) => size >= from * (1 - 1e-9))?.[0] ?? first[0]
}
