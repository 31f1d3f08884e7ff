/**
 * Petrol with ethanol.   densities by volume, air and heat by mass
 *   x  share of ethanol by volume   1      0 … 1
 *   ρ  density at 15 °C             kg/m³
 *   w  share of ethanol by mass     1
 *   A  air to fuel at lambda 1      1
 *   H  lower heating value          J/kg
 *   O  oxygen by mass               1
 * Errors: `out-of-range`. Limits: ideal mixing; nominal petrol of 745 kg/m³, 43.2 MJ/kg and 14.7.
 * Source: US DOE AFDC fuel property tables [read]; EN 228 on oxygen [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { blend, ETHANOL, PETROL } from './fuels.ts'

const afdc: Source = {
  title: 'US DOE AFDC, fuel property tables',
  where: 'density, heating value, air to fuel of petrol and ethanol',
  how: 'read',
}
const en228: Source = {
  title: 'EN 228:2012+A1:2017, scope: 10.0 % (V/V) of ethanol with 3.7 % (m/m) of oxygen',
  where: 'evs.ee, standards.iteh.ai',
  how: 'read',
}
const table: Source = { title: 'Widely quoted air to fuel of E85: 9.7 to 9.8', where: 'trade tables', how: 'read' }
/** One atom of oxygen in C2H5OH: 15.999 / 46.069. */
const OXYGEN_IN_ETHANOL = 15.999 / 46.069

export const fuelBlend = calculation({
  id: 'fuel-blend',
  title: 'Petrol with ethanol: density, air and heat',
  inputs: {
    ethanol: quantity('ratio', {
      symbol: 'x',
      min: 0,
      max: 1,
      plausible: [0, 0.85],
      about: 'share of ethanol by volume',
    }),
  },
  outputs: {
    density: result('density', { symbol: 'ρ', about: 'density at 15 °C' }),
    massShare: result('ratio', { symbol: 'w', about: 'share of ethanol by mass' }),
    stoichiometric: result('ratio', { symbol: 'A', about: 'air to fuel by mass at lambda 1' }),
    heatingValue: result('specificEnergy', { symbol: 'H', about: 'lower heating value' }),
    oxygen: result('ratio', { symbol: 'O', about: 'oxygen by mass' }),
  },
  constants: {
    petrolDensity: { symbol: 'ρp', value: PETROL.density, unit: 'kg/m³', source: afdc },
    ethanolDensity: { symbol: 'ρe', value: ETHANOL.density, unit: 'kg/m³', source: afdc },
    petrolAir: { symbol: 'Ap', value: PETROL.stoichiometric, unit: '1', source: afdc },
    ethanolAir: { symbol: 'Ae', value: ETHANOL.stoichiometric, unit: '1', source: afdc },
    petrolHeat: { symbol: 'Hp', value: PETROL.heatingValue, unit: 'J/kg', source: afdc },
    ethanolHeat: { symbol: 'He', value: ETHANOL.heatingValue, unit: 'J/kg', source: afdc },
  },
  formula:
    '{density} = (1 − {ethanol}) × {petrolDensity} + {ethanol} × {ethanolDensity}\n{massShare} = {ethanol} × {ethanolDensity} / {density}\n{stoichiometric} = (1 − {massShare}) × {petrolAir} + {massShare} × {ethanolAir}\n{heatingValue} = (1 − {massShare}) × {petrolHeat} + {massShare} × {ethanolHeat}\n{oxygen} = 0.3473 × {massShare}',
  sources: [afdc],
  cautions: [
    'Ethanol and methanol attack some hoses, seals and pump windings: every wetted part must be rated for them.',
  ],
  limits: ['“E85” at the pump may hold 51 to 85 % of ethanol (EN 15293, ASTM D5798, from memory): measure it.'],
  checks: [
    {
      inputs: { ethanol: 0.1 },
      output: 'oxygen',
      expected: 0.037,
      tolerance: { rel: 0.01 },
      because: 'two digits in the standard',
      source: en228,
      evidence: 'published',
    },
    {
      inputs: { ethanol: 0.85 },
      output: 'stoichiometric',
      expected: 9.75,
      tolerance: { rel: 0.01 },
      because: '9.7 to 9.8',
      source: table,
      evidence: 'published',
    },
  ],
  compute: ({ ethanol }) => {
    const { density, stoichiometric, heatingValue } = blend(ethanol)
    const massShare = (ethanol * ETHANOL.density) / density
    return { density, massShare, stoichiometric, heatingValue, oxygen: OXYGEN_IN_ETHANOL * massShare }
  },
})
