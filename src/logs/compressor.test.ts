// Çengel & Boles, ideal compression of air: T₂s = T₁ r^((κ−1)/κ); 25 °C, r 2.0, η 0.70 gives 391.43 K (recomputed).
import { afterAll, describe, expect, it } from 'vitest'
import { type CompressorOptions, compressorEfficiency } from './compressor.ts'
import { bench, noise } from './fixtures.test-helper.ts'
import { importLog } from './import.ts'
import { type BoundRole, bindRole, guessRoles } from './roles.ts'

const work = bench()
afterAll(() => work.clear())

const drive = (seed: number, efficiency: number, ratio = 2): string => {
  const draw = noise(seed)
  const rows: string[] = []
  let hot = 298.15
  for (let i = 0; i < 1600; i++) {
    const t = i / 4
    const r = Math.floor(t / 80) % 2 === 0 ? ratio : ratio - 0.15
    const end = 298.15 * (1 + (r ** (0.4 / 1.4) - 1) / efficiency)
    hot += (end - hot) / 16
    rows.push(
      [
        t,
        (25 + 0.1 * draw()).toFixed(2),
        (hot - 273.15 + 0.3 * draw()).toFixed(2),
        (r * 100 + 0.5 * draw()).toFixed(1),
        '100.0',
      ].join(','),
    )
  }
  return `Time [s],Ambient temp [°C],Compressor outlet temp [°C],Boost pressure [kPa],Barometric pressure [kPa]\n${rows.join('\n')}\n`
}
const ask = async (csv: string, options: Partial<CompressorOptions> = {}, keep = (_: BoundRole): boolean => true) => {
  const report = await importLog(work.file('c.csv', csv), work.path('c.parquet'))
  const roles = guessRoles(report.channels)
    .map(({ role, channel }) => bindRole(role, report.channels.find((each) => each.name === channel)!, true))
    .filter((each): each is BoundRole => each !== undefined && keep(each))
  return compressorEfficiency(work.path('c.parquet'), roles, { log: 'c', ...options })
}

describe('compressor efficiency from a log', () => {
  it('finds it within its interval in 18 of 20 drives or more, and carries the sensors', async () => {
    expect(298.15 * (1 + (2 ** (0.4 / 1.4) - 1) / 0.7)).toBeCloseTo(391.43, 2)
    let covered = 0
    for (let seed = 1; seed <= 20; seed++) {
      const found = await ask(drive(seed, 0.7))
      if (found.answer !== 'told') throw new Error(found.sentence)
      // What the rule for steady windows leaves of the lag.
      if (Math.abs(found.value - 0.7) <= (found.high - found.low) / 2 + 0.002) covered++
    }
    expect(covered).toBeGreaterThanOrEqual(18)
    const wide = await ask(drive(1, 0.7), { sensorTolerance: 2 })
    if (wide.answer !== 'told') throw new Error(wide.sentence)
    expect((wide.high - wide.low) / 2).toBeGreaterThan((2 * Math.hypot(0.7, 1.7)) / 93 - 0.002)
    expect(wide.sentence).toMatch(/efficiency is 0\.7\d\d ± 0\.0\d\d at a pressure ratio of 1\.9/)
  })
  it('cannot tell without boost, without a sensor, or above what is possible', async () => {
    expect(await ask(drive(1, 0.7, 1.1))).toMatchObject({
      because: 'too-few-windows',
      next: expect.stringMatching(/^Hold one gear at steady boost for \d+ s/),
    })
    expect(await ask(drive(1, 0.7), {}, ({ role }) => role !== 'ambientTemperature')).toMatchObject({
      because: 'missing-role',
      missing: ['ambientTemperature'],
    })
    expect(await ask(drive(1, 1.4))).toMatchObject({ because: 'implausible' })
  })
})
