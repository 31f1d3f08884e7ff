/**
 * Boiling point of the coolant under its cap.   p = p0 + Δp, ps(T) = p/xw
 *   p0  outside pressure           Pa  4e4 … 1.1e5
 *   Δp  cap, above outside         Pa  0 … 3e5
 *   x   glycol by volume           1   0 … 0.6
 *   p   pressure in the system     Pa
 *   xw  water among the molecules  1
 *   Tb  boiling point              K
 * Errors: `out-of-range`. Limits: Raoult’s law, glycol’s own vapour not counted; within 2.5 K of printed tables.
 * Source: IAPWS IF97 (water); Raoult’s law [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { PSI } from '../exactUnits.ts'
import { if97 } from '../signals/sources.ts'
import { boilingPointAt } from '../signals/waterBoilingPoint.ts'
import { glycolInput, waterMolecules } from './sources.ts'

const fahrenheit = (degrees: number): number => (degrees + 459.67) / 1.8
const raoult: Source = { title: 'Raoult’s law, water in an ideal solution', how: 'memory' }

export const coolantBoiling = calculation({
  id: 'coolant-boiling-point',
  title: 'Boiling point of the coolant under its cap',
  inputs: {
    outside: quantity('pressureAbsolute', {
      symbol: 'p0',
      min: 4e4,
      max: 1.1e5,
      plausible: [6e4, 1.05e5],
      about: 'absolute pressure of the air outside, by altitude',
    }),
    cap: quantity('pressureDifference', {
      symbol: 'Δp',
      min: 0,
      max: 3e5,
      plausible: [3e4, 1.6e5],
      about: 'opening pressure of the cap above outside; 0 for an open or worn-out cap',
    }),
    glycol: glycolInput,
  },
  outputs: {
    pressure: result('pressureAbsolute', { symbol: 'p', about: 'absolute pressure in the system' }),
    molecules: result('ratio', { symbol: 'xw', about: 'share of water among the molecules' }),
    boilingPoint: result('temperature', { symbol: 'Tb', about: 'boiling point of the coolant there' }),
  },
  formula:
    '{pressure} = {outside} + {cap}\n{molecules} from {glycol} by density and molar mass\n{boilingPoint} where ps(T) = {pressure} / {molecules}, ps of water by IF97',
  sources: [if97, raoult],
  cautions: ['Never open a hot system: at the cap’s pressure it boils over at once and scalds.'],
  limits: [
    'Good to 2.5 K against printed tables. A cap ages: what it holds is measured, not read off its lid. Local boiling in the head comes before.',
  ],
  checks: [
    {
      inputs: { outside: 101325, cap: 0, glycol: 0.5 },
      output: 'boilingPoint',
      expected: fahrenheit(226),
      tolerance: { abs: 0.6 },
      because: 'printed to 1 °F; ASTM D3306 asks for at least 108 °C',
      source: { title: 'Boiling point of 50/50 coolant: 226 °F, 108 °C', where: 'zippyfacts.com', how: 'read' },
      evidence: 'published',
    },
    {
      inputs: { outside: 101325, cap: 15 * PSI, glycol: 0.5 },
      output: 'boilingPoint',
      expected: fahrenheit(265),
      tolerance: { abs: 2.5 },
      because: 'sources print 262 and 265 °F; Raoult gives 266',
      source: { title: 'Coolant 50/50 under a cap: 265 °F', where: 'pilotthomas.com', how: 'read' },
      evidence: 'published',
    },
    {
      inputs: { outside: 101325, cap: 15 * PSI, glycol: 0 },
      output: 'boilingPoint',
      expected: 120.95 + 273.15,
      tolerance: { abs: 0.01 },
      because: 'steam tables to 0.01 K',
      source: { ...if97, where: 'saturation of water at 204.7 kPa' },
      evidence: 'published',
    },
  ],
  compute: ({ outside, cap, glycol }) => {
    const pressure = outside + cap
    const molecules = waterMolecules(glycol)
    return { pressure, molecules, boilingPoint: boilingPointAt(pressure / molecules) }
  },
})
