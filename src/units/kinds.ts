/**
 * Quantity kinds. A number inside Swapwright is always the SI value of one of these kinds.
 *
 * Absolute and gauge pressure, temperature and temperature difference, mass flow and volume flow are kinds of their
 * own: a value of one is never taken for the other. `Of<K>` is made here, by one helper, for the whole project; a
 * plain literal is accepted where a kind is asked for, a value already known to be of another kind is refused by the
 * compiler.
 */
export const KINDS = {
  ratio: { si: '1', title: 'ratio' },
  angle: { si: 'rad', title: 'angle' },
  length: { si: 'm', title: 'length' },
  area: { si: 'm²', title: 'area' },
  volume: { si: 'm³', title: 'volume' },
  mass: { si: 'kg', title: 'mass' },
  time: { si: 's', title: 'time' },
  speed: { si: 'm/s', title: 'speed' },
  acceleration: { si: 'm/s²', title: 'acceleration' },
  angularSpeed: { si: 'rad/s', title: 'angular speed' },
  frequency: { si: 'Hz', title: 'frequency' },
  force: { si: 'N', title: 'force' },
  torque: { si: 'N·m', title: 'torque' },
  energy: { si: 'J', title: 'energy' },
  power: { si: 'W', title: 'power' },
  pressureAbsolute: { si: 'Pa', title: 'absolute pressure' },
  pressureGauge: { si: 'Pa', title: 'gauge pressure' },
  pressureDifference: { si: 'Pa', title: 'pressure difference' },
  stress: { si: 'Pa', title: 'stress' },
  temperature: { si: 'K', title: 'temperature' },
  temperatureDifference: { si: 'K', title: 'temperature difference' },
  massFlow: { si: 'kg/s', title: 'mass flow' },
  volumeFlow: { si: 'm³/s', title: 'volume flow' },
  density: { si: 'kg/m³', title: 'density' },
  dynamicViscosity: { si: 'Pa·s', title: 'dynamic viscosity' },
  kinematicViscosity: { si: 'm²/s', title: 'kinematic viscosity' },
  specificHeat: { si: 'J/(kg·K)', title: 'specific heat' },
  specificEnergy: { si: 'J/kg', title: 'specific energy' },
  specificFuelConsumption: { si: 'kg/J', title: 'specific fuel consumption' },
  heatCapacityRate: { si: 'W/K', title: 'heat capacity rate' },
  voltage: { si: 'V', title: 'voltage' },
  current: { si: 'A', title: 'current' },
  resistance: { si: 'Ω', title: 'resistance' },
  resistancePerLength: { si: 'Ω/m', title: 'resistance per length' },
  charge: { si: 'C', title: 'charge' },
  capacitance: { si: 'F', title: 'capacitance' },
  inductance: { si: 'H', title: 'inductance' },
  jouleIntegral: { si: 'A²·s', title: 'Joule integral' },
} as const

export type Kind = keyof typeof KINDS

declare const kindOf: unique symbol

/** An SI number of kind K. Accepts a plain number; refuses a value of another kind. */
export type Of<K extends Kind> = number & { readonly [kindOf]?: K }
