/**
 * Continuous current that a fuse may be asked to carry in a warm place.   Il = 0.75 · f(Ta) · In
 *   In   rated current                     A    0.5 … 500
 *   Ta   temperature around the fuse       K    220 … 398.15
 *   Ir   rating re-read at Ta            A
 *   Il   continuous load allowed           A
 * Errors: `out-of-range`. f falls in straight lines between the points of the MAXI sheet; 1 up to 20 °C.
 * Sources: 75 % at 25 °C, maker's guide [read]; MAXI sheet [read]. Limits: no table of blade or bolt-down fuses was read;
 *   the MAXI's serves for all, which zinc links of one construction justify only roughly.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'
import { maxiSheet } from '../fuseGates.ts'

export const fuseGuide: Source = {
  title: 'Fuseology, maker’s guide: continuous load no more than 75 % of rating at 25 °C',
  where: 'circuitprotection.ca',
  how: 'read',
}
/** A at °C of the 40 A fuse. */
export const MAXI_AMBIENT: readonly (readonly [celsius: number, amperes: number])[] = [
  [20, 40],
  [65, 34],
  [85, 30],
  [110, 25],
  [125, 22],
]
export const CONTINUOUS = 0.75

/** Share of its rating that a fuse keeps at `temperature` K; undefined beyond the sheet's 125 °C. */
export const ambientShare = (temperature: number): number | undefined => {
  const celsius = temperature - 273.15
  const rated = MAXI_AMBIENT[0]![1]
  if (celsius <= MAXI_AMBIENT[0]![0]) return 1
  const next = MAXI_AMBIENT.findIndex(([at]) => at >= celsius - 1e-9)
  if (next === -1) return undefined
  const [[t0, a0], [t1, a1]] = [MAXI_AMBIENT[next - 1]!, MAXI_AMBIENT[next]!]
  return (a0 + ((a1 - a0) * (celsius - t0)) / (t1 - t0)) / rated
}

export const fuseDerating = calculation({
  id: 'fuse-derating',
  title: 'Continuous load of a fuse in a warm place',
  inputs: {
    rating: quantity('current', { symbol: 'In', min: 0.5, max: 500, plausible: [1, 300], about: 'rated current' }),
    ambient: quantity('temperature', {
      symbol: 'Ta',
      min: 220,
      max: 398.15,
      plausible: [253, 373],
      about: 'temperature around the fuse',
    }),
  },
  outputs: {
    rerated: result('current', { symbol: 'Ir', about: 'rating re-read at that temperature' }),
    load: result('current', { symbol: 'Il', about: 'continuous load allowed' }),
  },
  formula:
    '{rerated} = {rating} × f({ambient}), f = 1; 0.85; 0.75; 0.625; 0.55 at 20; 65; 85; 110; 125 °C\n{load} = 0.75 × {rerated}',
  sources: [fuseGuide, maxiSheet],
  cautions: ['A fuse that opens in service puts out lamps, pump or fan while the car moves.'],
  limits: ['The table is that of one 40 A high-current blade fuse; other kinds differ.'],
  checks: [
    ...MAXI_AMBIENT.map(([celsius, amperes]) => ({
      inputs: { rating: 40, ambient: celsius + 273.15 },
      output: 'rerated' as const,
      expected: amperes,
      tolerance: { rel: 1e-6 },
      because: 'a point of the sheet',
      source: maxiSheet,
      evidence: 'published' as const,
    })),
    {
      inputs: { rating: 20, ambient: 293.15 },
      output: 'load',
      expected: 15,
      tolerance: { rel: 1e-6 },
      because: '75 %',
      source: fuseGuide,
      evidence: 'published',
    },
  ],
  compute: ({ rating, ambient }) => {
    const rerated = rating * (ambientShare(ambient) ?? Number.NaN)
    return { rerated, load: CONTINUOUS * rerated }
  },
})
