/** Inputs that the calculations of oil in a pipe share. */
import { quantity } from '../calculation.ts'

export const viscosityInput = quantity('kinematicViscosity', {
  symbol: 'ν',
  min: 5e-7,
  max: 0.02,
  plausible: [4e-6, 2e-3],
  about: 'kinematic viscosity of the oil at its temperature',
})
export const roughnessInput = quantity('length', {
  symbol: 'ε',
  min: 0,
  max: 0.003,
  plausible: [0, 3e-4],
  about: 'roughness of the wall, 1.5 µm drawn tube',
})
