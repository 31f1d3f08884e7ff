/**
 * Density and specific heat of glycol and water.   tables, between their points by straight lines
 *   x   glycol by volume   1         0 … 0.6
 *   T   temperature        K         278 … 394
 *   ρ   density            kg/m³
 *   c   specific heat      J/(kg·K)
 * Errors: `out-of-range`. Limits: ethylene glycol with a few per cent of inhibitor; other antifreeze differs.
 * Source: ASHRAE Fundamentals, density [read]; CoolProp 8.0.0 (Melinder 2010), specific heat.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { ashrae, densityOf, glycolInput, melinder, specificHeatOf } from './sources.ts'

export const coolantProperties = calculation({
  id: 'coolant-properties',
  title: 'Density and specific heat of the coolant',
  inputs: {
    glycol: glycolInput,
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 278,
      max: 394,
      plausible: [278, 390],
      about: 'temperature of the coolant',
    }),
  },
  outputs: {
    density: result('density', { symbol: 'ρ', about: 'density' }),
    specificHeat: result('specificHeat', { symbol: 'c', about: 'specific heat' }),
  },
  formula: '{density} and {specificHeat} from the tables at {glycol} and {temperature}, straight lines between points',
  sources: [ashrae, melinder],
  cautions: ['Ethylene glycol is poisonous and tastes sweet: keep it from children and animals; catch what you drain.'],
  limits: ['Ethylene glycol and water. Other antifreeze, and waterless coolant, differ.'],
  checks: [
    {
      inputs: { glycol: 0.4728, temperature: 353.15 },
      output: 'density',
      expected: 1042,
      tolerance: { rel: 7e-3 },
      because: 'sources differ: 1026 (CoolProp), 1036 (ASHRAE by volume), 1042 here',
      source: {
        title: 'Ethylene glycol and water properties, mass fraction 0.5 at 80 °C',
        where: 'corecheminc.com',
        how: 'read',
      },
      evidence: 'published',
    },
    {
      inputs: { glycol: 0.3744, temperature: 358.15 },
      output: 'specificHeat',
      expected: 0.9 * 4186.8,
      tolerance: { rel: 0.01 },
      because: 'printed to two digits, for 82 to 88 °C',
      source: {
        title: 'US Veterans Affairs, HVAC design manual, table 2-3: 40 % by mass, 0.90',
        where: 'vacriteria.tpub.com, page 2-18',
        how: 'read',
      },
      evidence: 'published',
    },
    {
      inputs: { glycol: 0, temperature: 350 },
      output: 'specificHeat',
      expected: 4195,
      tolerance: { rel: 1e-3 },
      because: 'printed to four digits',
      source: { title: 'Incropera & DeWitt, table A.6, water at 350 K', how: 'memory' },
      evidence: 'published',
    },
    {
      inputs: { glycol: 0.5, temperature: 368.15 },
      output: 'specificHeat',
      expected: 3589.2636099240785,
      tolerance: { rel: 3e-3 },
      because: 'straight lines between the points of a curve',
      source: melinder,
      evidence: 'library',
    },
  ],
  compute: ({ glycol, temperature }) => ({
    density: densityOf(glycol, temperature),
    specificHeat: specificHeatOf(glycol, temperature),
  }),
})
