/** Sources and tube materials that the calculations of the driveline share. */
import type { Source } from '../calculation.ts'

export const mechanics: Source = { title: 'Shigley, Mechanical Engineering Design: shafts, clutches', how: 'memory' }
export const vehicleDynamics: Source = {
  title: 'Gillespie, Fundamentals of Vehicle Dynamics, chapters 1 and 2',
  how: 'memory',
}
export const jointHandbook: Source = {
  title: 'SAE AE-7, Universal Joint and Driveshaft Design Manual, sections 3.1 and 3.2',
  how: 'memory',
}
export const angleCalculator: Source = {
  title: 'Driveline operating angle calculator of a maker of joints, spicerparts.com',
  where: 'basic rules and table of greatest angles, 5000 to 3500 1/min read; 3000 to 1500 1/min from memory',
  how: 'read',
}

/** What a propeller shaft’s tube is made of. */
export const TUBES = {
  steel: {
    modulus: 206e9,
    density: 7850,
    source: { title: 'Carbon steel: 206 GPa, 7850 kg/m³, as in engineering handbooks', how: 'memory' },
  },
  aluminium: {
    modulus: 69e9,
    density: 2700,
    source: { title: 'Aluminium alloy 6061: 69 GPa, 2700 kg/m³, as in engineering handbooks', how: 'memory' },
  },
} as const satisfies Readonly<Record<string, { modulus: number; density: number; source: Source }>>
