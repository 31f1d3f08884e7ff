import { describe, expect, it } from 'vitest'
import { areaAsAwg, awgArea, awgLabel, Refusal } from './index.ts'

/** ASTM B258 by its formula, mm² to the digits of the published solid-wire table (computed from the formula, 4-digit NBS values from memory). */
const PUBLISHED: readonly (readonly [gauge: number, label: string, squareMillimetres: string])[] = [
  [-3, 'AWG 4/0', '107.22'],
  [-1, 'AWG 2/0', '67.43'],
  [0, 'AWG 1/0', '53.475'],
  [2, 'AWG 2', '33.631'],
  [4, 'AWG 4', '21.151'],
  [6, 'AWG 6', '13.302'],
  [8, 'AWG 8', '8.3656'],
  [10, 'AWG 10', '5.2612'],
  [12, 'AWG 12', '3.3088'],
  [14, 'AWG 14', '2.0809'],
  [16, 'AWG 16', '1.3087'],
  [18, 'AWG 18', '0.8230'],
  [20, 'AWG 20', '0.5176'],
  [22, 'AWG 22', '0.3255'],
  [24, 'AWG 24', '0.2047'],
  [26, 'AWG 26', '0.1288'],
  [28, 'AWG 28', '0.0810'],
  [30, 'AWG 30', '0.0509'],
]

describe('wire gauge', () => {
  it.each(PUBLISHED)('gauge %i is %s with %s mm²', (gauge, label, printed) => {
    const decimals = printed.split('.')[1]?.length ?? 0
    expect((awgArea(gauge) * 1e6).toFixed(decimals)).toBe(printed)
    expect(awgLabel(gauge)).toBe(label)
    expect(areaAsAwg(awgArea(gauge)).label).toBe(label)
  })

  // ASTM B258 fixes two diameters: 4/0 is 0.4600 in and No. 36 is 0.0050 in.
  it('has the two diameters that define it', () => {
    const diameterInches = (gauge: number) => Math.sqrt((4 * awgArea(gauge)) / Math.PI) / 0.0254
    expect(diameterInches(-3)).toBeCloseTo(0.46, 10)
    expect(diameterInches(36)).toBeCloseTo(0.005, 10)
  })

  // Published Ω/1000 ft of solid copper at 20 °C, read at wp.1728.org; resistivity 1/58 Ω·mm²/m. The areas above were
  // computed from the formula, so this is the check from outside.
  it.each([
    [20, 10.15],
    [22, 16.14],
    [24, 25.67],
    [26, 40.81],
    [28, 64.9],
    [30, 103.2],
  ])('gauge %i has the published resistance %d Ω/1000 ft', (gauge, published) => {
    const resistance = ((1 / 58e6) * 304.8) / awgArea(gauge)
    expect(Math.abs(resistance / published - 1)).toBeLessThan(5e-4)
  })

  it('says between which gauges a metric size lies instead of rounding it', () => {
    expect(areaAsAwg(0.75e-6)).toMatchObject({ between: ['AWG 18', 'AWG 19'] })
    expect(areaAsAwg(0.75e-6).label).toBeUndefined()
    expect(areaAsAwg(500e-6).between).toBeUndefined()
  })

  it('refuses what is no gauge', () => {
    expect(() => awgArea(57)).toThrow(/AWG 57 is not a gauge of ASTM B258/)
    expect(() => awgArea(18.5)).toThrow(Refusal)
    expect(() => areaAsAwg(0)).toThrow(/has no wire gauge/)
  })
})
