/**
 * Pressure from a ratiometric sensor.   p = p1 + (V/Vs − V1/Vd) / (V2/Vd − V1/Vd) · (p2 − p1)
 *   V   voltage now                         V   0 … 30
 *   Vs  supply now                          V   1 … 30
 *   Vd  supply of the data sheet's points   V   1 … 30
 *   V1  data sheet, voltage at p1           V   0 … 30
 *   p1  data sheet, pressure of V1          Pa  0 … 5e7
 *   V2  data sheet, voltage at p2           V   0 … 30
 *   p2  data sheet, pressure of V2          Pa  0 … 5e7
 *   p   pressure                            Pa
 * Errors: `out-of-range`, `inconsistent-inputs` (the two points coincide). Limits: the sensor's supply and the voltage are
 *   measured against the sensor's own earth; a raised earth adds to V.
 * Source: proportion; see any ratiometric sensor's data sheet.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const sheet: Source = {
  title: 'Freescale MPX4250 data sheet, rev 7 (1/2009): at 5.1 V 0.204 V at 0, 4.909 V at 250 kPa, 18.8 mV/kPa',
  where: 'table of operating characteristics, manualmachine.com/freescale/mpx4250dp',
  how: 'read',
}
const voltage = (symbol: string, about: string) =>
  quantity('voltage', { symbol, min: 0, max: 30, plausible: [0, 5.5], about })
const supply = (symbol: string, about: string) =>
  quantity('voltage', { symbol, min: 1, max: 30, plausible: [3, 15], about })
const pressure = (symbol: string, about: string) => quantity('pressureAbsolute', { symbol, min: 0, max: 5e7, about })
const at = (voltageNow: number, supplyNow: number) => ({
  voltage: voltageNow,
  supply: supplyNow,
  sheetSupply: 5.1,
  voltage1: 0.204,
  pressure1: 0,
  voltage2: 4.909,
  pressure2: 250e3,
})

export const ratiometricPressure = calculation({
  id: 'ratiometric-pressure',
  title: 'Pressure from a ratiometric sensor',
  inputs: {
    voltage: voltage('V', 'voltage now'),
    supply: supply('Vs', 'supply now'),
    sheetSupply: supply('Vd', 'supply at which the data sheet states its points'),
    voltage1: voltage('V1', 'data sheet, voltage at the first pressure'),
    pressure1: pressure('p1', 'data sheet, first pressure'),
    voltage2: voltage('V2', 'data sheet, voltage at the second pressure'),
    pressure2: pressure('p2', 'data sheet, second pressure'),
  },
  outputs: {
    pressure: result('pressureAbsolute', { symbol: 'p', about: 'pressure, of the kind the data sheet states' }),
  },
  formula:
    '{pressure} = {pressure1} + ({voltage}/{supply} − {voltage1}/{sheetSupply}) / ({voltage2}/{sheetSupply} − {voltage1}/{sheetSupply}) × ({pressure2} − {pressure1})',
  sources: [sheet],
  cautions: [],
  limits: ['Voltages against the sensor’s own earth. Absolute points give absolute, gauge points gauge pressure.'],
  conditions: [
    {
      at: 'voltage2',
      holds: (given) => given.voltage1 !== given.voltage2 && given.pressure1 !== given.pressure2,
      says: 'The two points of the data sheet coincide.',
      todo: 'Take the two ends of its range.',
    },
  ],
  checks: [
    {
      inputs: at(0.204 + 0.0188 * 100, 5.1),
      output: 'pressure',
      expected: 100e3,
      tolerance: { abs: 270 },
      because: 'sensitivity printed to three digits, 18.8 ± 0.05 mV/kPa',
      source: sheet,
      evidence: 'published',
    },
    {
      inputs: at(((0.204 + 0.0188 * 200) * 4.85) / 5.1, 4.85),
      output: 'pressure',
      expected: 200e3,
      tolerance: { abs: 540 },
      because: 'the same at the lowest supply of the ratiometric range; sensitivity to three digits',
      source: sheet,
      evidence: 'published',
    },
  ],
  compute: (given) => {
    const [one, two] = [given.voltage1 / given.sheetSupply, given.voltage2 / given.sheetSupply]
    return {
      pressure:
        given.pressure1 + ((given.voltage / given.supply - one) / (two - one)) * (given.pressure2 - given.pressure1),
    }
  },
})
