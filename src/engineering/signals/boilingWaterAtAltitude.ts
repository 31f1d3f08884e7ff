/**
 * Temperature of boiling water where you stand, for the hot reading of a thermistor.   Ts(p), p from altitude and weather
 *   p0  pressure reduced to sea level   Pa  8.5e4 … 1.1e5
 *   h   altitude above sea level        m   -500 … 1.1e4
 *   p   air pressure                    Pa
 *   Ts  boiling point                   K
 * Errors: `out-of-range`. Limits: those of air pressure at an altitude and of the boiling point of water.
 * Source: ISO 2533 and IAPWS IF97.
 */
import { calculation, result, type Source } from '../calculation.ts'
import { altitudeConstants, altitudeInputs, pressureAt } from './airPressure.ts'
import { if97, isa, ZERO_CELSIUS } from './sources.ts'
import { boilingPointAt } from './waterBoilingPoint.ts'

const outdoors: Source = {
  title: 'Boiling point: 203 °F at 5000 ft, 194 °F at 10 000 ft',
  where: 'outdoors.nordling.de',
  how: 'read',
}
// A quadratic fitted to Glover's Pocket Ref (edspi31415.blogspot.com) gives 86.1 °C at 4115 m and 79.3 at 6325 m; IF97 at
// the standard atmosphere gives 78.8 at the latter. A page (answers.mindstick.com) says 93.4 °C at 1905 m where IF97 gives 93.6. The
// steam tables are kept.
const row = (altitude: number, celsius: number, abs: number, because: string, source: Source) => ({
  inputs: { seaLevelPressure: 101325, altitude },
  output: 'boilingPoint' as const,
  expected: celsius + ZERO_CELSIUS,
  tolerance: { abs },
  because,
  source,
  evidence: 'published' as const,
})

export const boilingWaterAtAltitude = calculation({
  id: 'boiling-water-at-altitude',
  title: 'Temperature of boiling water at an altitude',
  inputs: altitudeInputs,
  outputs: {
    pressure: result('pressureAbsolute', { symbol: 'p', about: 'air pressure there' }),
    boilingPoint: result('temperature', { symbol: 'Ts', about: 'boiling point of pure water there' }),
  },
  constants: altitudeConstants,
  formula:
    'H = {earth} × {altitude} / ({earth} + {altitude})\n{pressure} = {seaLevelPressure} × (1 − {lapse} × H / {temperature0})^5.25588\n{boilingPoint} by IF97 equation 31 at {pressure}',
  sources: [isa, if97],
  cautions: ['Boiling water and its steam scald. Hang the sensor in it by its lead, not by hand.'],
  limits: ['Pure water at a rolling boil, standard temperature profile of the air. 30 hPa of weather are 0.8 K.'],
  checks: [row(1524, 95, 0.28, 'printed to 1 °F', outdoors), row(3048, 90, 0.28, 'printed to 1 °F', outdoors)],
  compute: ({ seaLevelPressure, altitude }) => {
    const pressure = pressureAt(altitude, seaLevelPressure)
    return { pressure, boilingPoint: boilingPointAt(pressure) }
  },
})
