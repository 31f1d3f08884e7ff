/**
 * Volume of petrol at another temperature.   V2 = V1·C1/C2,  C = exp(−α·ΔT·(1 + 0.8·α·ΔT)),  α = (346.4228 + 0.43884·ρ)/ρ²
 *   ρ   density at 15 °C            kg/m³  653 … 770
 *   V1  volume                      m³     1e-6 … 100
 *   T1  temperature of that volume  K      238 … 338
 *   T2  temperature in question     K      238 … 338
 *   V2  volume at T2                m³
 *   C   volume correction at T2     1
 * Errors: `out-of-range`. Limits: petrol without ethanol; ethanol expands by about a tenth less.
 * Source: API MPMS 11.1 / ASTM D1250-80 table 54B, as quoted in public source files [read so; the standard was not opened].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const mpms: Source = {
  title: 'API MPMS 11.1 / ASTM D1250-80 table 54B, petrol: K0 346.4228, K1 0.43884',
  where: 'quoted in several public source files',
  how: 'read',
}
const edition2004: Source = {
  title: 'API MPMS 11.1, 2004, petrol at 60 °F: K0 192.4571, K1 0.2438; by way of it 745 kg/m³ at 50 °C gives 0.95704',
  where: 'quoted in public source files; arithmetic done here',
  how: 'read',
}
const K0 = 346.4228
const K1 = 0.43884
const BASE = 288.15

/** Share of its volume that a petrol has at 15 °C, against that at `temperature`. */
const correction = (density: number, temperature: number): number => {
  const alpha = (K0 + K1 * density) / (density * density)
  const rise = temperature - BASE
  return Math.exp(-alpha * rise * (1 + 0.8 * alpha * rise))
}

export const fuelExpansion = calculation({
  id: 'fuel-expansion',
  title: 'Volume of petrol at another temperature',
  inputs: {
    density: quantity('density', {
      symbol: 'ρ',
      min: 653,
      max: 770,
      plausible: [715, 770],
      about: 'density at 15 °C',
    }),
    volume: quantity('volume', { symbol: 'V1', min: 1e-6, max: 100, about: 'volume of petrol' }),
    temperature: quantity('temperature', { symbol: 'T1', min: 238, max: 338, about: 'temperature of that volume' }),
    otherTemperature: quantity('temperature', { symbol: 'T2', min: 238, max: 338, about: 'temperature in question' }),
  },
  outputs: {
    otherVolume: result('volume', { symbol: 'V2', about: 'volume at the temperature in question' }),
    correction: result('ratio', { symbol: 'C', about: 'volume correction at T2, to 15 °C' }),
  },
  formula:
    'α = (346.4228 + 0.43884 × {density}) / {density}²\n{correction} = exp(−α ΔT (1 + 0.8 α ΔT)), ΔT = {otherTemperature} − 288.15 K\n{otherVolume} = {volume} × C({temperature}) / {correction}',
  sources: [mpms],
  cautions: [
    'A tank filled to the brim with cold petrol overflows or builds pressure as it warms: leave its expansion space.',
  ],
  limits: ['Petrol of 653 to 770 kg/m³ at 15 °C without ethanol. ± 0.05 % (from memory).'],
  checks: [
    {
      inputs: { density: 745, volume: 1, temperature: BASE, otherTemperature: 323.15 },
      output: 'correction',
      expected: 0.95704,
      tolerance: { abs: 2e-5 },
      because: 'the other edition’s constants, five digits',
      source: edition2004,
      evidence: 'published',
    },
    {
      inputs: { density: 745, volume: 0.06, temperature: 283.15, otherTemperature: 313.15 },
      output: 'otherVolume',
      expected: 0.06227,
      tolerance: { rel: 2e-4 },
      because: '60 l filled at 10 °C and warmed to 40 °C: 2.27 l more, three digits',
      source: { title: 'Arithmetic of ours from the same constants', how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ density, volume, temperature, otherTemperature }) => {
    const there = correction(density, otherTemperature)
    return { otherVolume: (volume * correction(density, temperature)) / there, correction: there }
  },
})
