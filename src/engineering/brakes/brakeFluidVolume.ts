/**
 * Fluid that the brakes of an axle take.   V0 = 2·A·c, V = V0 + (2·E + H)·p/pr
 *   A   pistons of one wheel   m²   1e-5 … 0.03
 *   c   clearance              m    0 … 0.01
 *   E   one brake at 10 MPa    m³   0 … 2e-5
 *   H   hoses at 10 MPa        m³   0 … 2e-5
 *   p   line pressure          Pa   0 … 3e7
 *   V0  at first touch         m³
 *   V   at that pressure       m³
 * Errors: `out-of-range`. Limits: E and H as a straight line in pressure; air in the fluid is no part of it.
 * Source: geometry; hoses FMVSS 106, table I [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { PSI } from '../exactUnits.ts'
import { linePressureInput } from './discBrake.ts'
import { brakeHoseTable, limpert } from './sources.ts'

/** Pressure that what brakes and hoses take is entered for: 100 bar, near that of a hard stop. */
const AT = 1e7
const FOOT_CC = 0.66e-6

const taken = (symbol: string, about: string) => quantity('volume', { symbol, min: 0, max: 2e-5, about })

export const brakeFluidVolume = calculation({
  id: 'brake-fluid-volume',
  title: 'Fluid that the brakes of an axle take',
  inputs: {
    pistons: quantity('area', {
      symbol: 'A',
      min: 1e-5,
      max: 0.03,
      plausible: [1e-4, 6e-3],
      about: 'pistons of one wheel: one side of a caliper, or the one piston that pushes one shoe',
    }),
    clearance: quantity('length', {
      symbol: 'c',
      min: 0,
      max: 0.01,
      plausible: [1e-4, 2e-3],
      about: 'way of the pistons of one wheel to first touch: both pads, or both shoes, together',
    }),
    brake: taken('E', 'what one brake takes from first touch to 10 MPa: its stiffness and that of its pads'),
    hoses: taken('H', 'swelling of all hoses of the axle at 10 MPa'),
    pressure: linePressureInput,
  },
  outputs: {
    touch: result('volume', { symbol: 'V0', about: 'fluid taken at first touch' }),
    pressed: result('volume', { symbol: 'V', about: 'fluid taken at that pressure' }),
  },
  constants: { at: { symbol: 'pr', value: AT, unit: 'Pa', source: { title: 'Chosen: 100 bar', how: 'computed' } } },
  formula: '{touch} = 2 × {pistons} × {clearance}\n{pressed} = {touch} + (2 × {brake} + {hoses}) × {pressure} / {at}',
  sources: [brakeHoseTable, limpert],
  cautions: ['At best the arithmetic holds: a qualified person must inspect the brakes before the car is driven.'],
  limits: [
    'What brakes and hoses take is thought a straight line in pressure; it is steeper at first, so low pressures take more.',
    'Air in the fluid and the fluid’s own compression are left out, unless what was entered was measured on the car.',
    'A sliding caliper moves its pistons by both pads’ clearance, a fixed one each side by its own: the same volume.',
  ],
  checks: [
    {
      inputs: { pistons: 1e-4, clearance: 0, brake: 0, hoses: (FOOT_CC * AT) / (1000 * PSI), pressure: 1000 * PSI },
      output: 'pressed',
      expected: FOOT_CC,
      tolerance: { rel: 1e-6 },
      because: 'one foot of hose taken to 10 MPa by proportion and back: the pressure of the table',
      source: brakeHoseTable,
      evidence: 'published',
    },
    {
      // By hand: 2·22.9 cm²·0.5 mm = 2.29 cm³; and (2·1.2 + 0.8)·8/10 = 2.56 cm³: 4.85 cm³.
      inputs: { pistons: 22.9e-4, clearance: 5e-4, brake: 1.2e-6, hoses: 0.8e-6, pressure: 8e6 },
      output: 'pressed',
      expected: 4.85e-6,
      tolerance: { rel: 1e-6 },
      because: 'worked by hand to the last digit',
      source: { title: 'Piston area × way, worked by hand', how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ pistons, clearance, brake, hoses, pressure }) => {
    const touch = 2 * pistons * clearance
    return { touch, pressed: touch + ((2 * brake + hoses) * pressure) / AT }
  },
})
