/**
 * Specific consumption with another fuel, at the same brake efficiency.   b2 = b1·H1/H2
 *   b1  specific consumption as known      kg/J   3e-8 … 4e-7
 *   H1  lower heating value of that fuel   J/kg   15000000 … 50000000
 *   ρ1  density of that fuel               kg/m³  600 … 900
 *   H2  lower heating value of the other   J/kg   15000000 … 50000000
 *   ρ2  density of the other               kg/m³  600 … 900
 *   b2  specific consumption               kg/J
 *   r   litres of the other for one litre  1
 * Errors: `out-of-range`. Limits: the same brake efficiency; alcohol often allows a little more.
 * Source: definition of brake efficiency, Heywood section 2.8 [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { POUND } from '../exactUnits.ts'
import { definition, LAMBDA_LIMIT, US_GALLON } from './sources.ts'

const BTU = 1055.05585262
const afdc: Source = {
  title:
    'US DOE AFDC: petrol 18 676 Btu/lb and 116 090 Btu/US gal; ethanol 11 585 Btu/lb, 6.61 lb/US gal, 76 330 Btu/US gal',
  where: 'fuel property table; the last figure from memory',
  how: 'read',
}

export const otherFuel = calculation({
  id: 'other-fuel',
  title: 'Specific consumption with another fuel',
  inputs: {
    consumption: quantity('specificFuelConsumption', {
      symbol: 'b1',
      min: 3e-8,
      max: 4e-7,
      plausible: [6e-8, 2.5e-7],
      about: 'brake specific fuel consumption with the fuel it is known for',
    }),
    heat: quantity('specificEnergy', { symbol: 'H1', min: 15e6, max: 50e6, about: 'lower heating value of that fuel' }),
    density: quantity('density', { symbol: 'ρ1', min: 600, max: 900, about: 'density of that fuel' }),
    otherHeat: quantity('specificEnergy', {
      symbol: 'H2',
      min: 15e6,
      max: 50e6,
      about: 'lower heating value of the other fuel',
    }),
    otherDensity: quantity('density', { symbol: 'ρ2', min: 600, max: 900, about: 'density of the other fuel' }),
  },
  outputs: {
    otherConsumption: result('specificFuelConsumption', {
      symbol: 'b2',
      about: 'specific consumption with the other fuel',
    }),
    volumes: result('ratio', { symbol: 'r', about: 'litres of the other fuel for one litre of the first' }),
  },
  formula:
    '{otherConsumption} = {consumption} × {heat} / {otherHeat}\n{volumes} = ({heat} × {density}) / ({otherHeat} × {otherDensity})',
  sources: [definition],
  cautions: ['Another fuel needs its own hoses, seals, pump and calibration.'],
  limits: [LAMBDA_LIMIT, 'The same brake efficiency with both fuels.'],
  checks: [
    {
      inputs: {
        consumption: 8e-8,
        heat: (18676 * BTU) / POUND,
        density: ((116090 / 18676) * POUND) / US_GALLON,
        otherHeat: (11585 * BTU) / POUND,
        otherDensity: (6.61 * POUND) / US_GALLON,
      },
      output: 'volumes',
      expected: 116090 / 76330,
      tolerance: { rel: 5e-3 },
      because: 'densities printed to three digits',
      source: afdc,
      evidence: 'published',
    },
  ],
  compute: ({ consumption, heat, density, otherHeat, otherDensity }) => ({
    otherConsumption: (consumption * heat) / otherHeat,
    volumes: (heat * density) / (otherHeat * otherDensity),
  }),
})
