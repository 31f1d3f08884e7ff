import { afterAll, describe, expect, it } from 'vitest'
import { bench, noise } from './fixtures.test-helper.ts'
import { importLog } from './import.ts'
import { type BoundRole, bindRole, guessRoles } from './roles.ts'
import { type SanityOptions, sensorSanity } from './sanity.ts'

const work = bench()
afterAll(() => work.clear())

interface Wrong {
  readonly step?: number
  readonly stuck?: boolean
  readonly drops?: boolean
  readonly rough?: boolean
  readonly cold?: number
  readonly fan?: boolean
}
const drive = ({ step = 0, stuck = false, drops = false, rough = false, cold = 0, fan = true }: Wrong): string => {
  const draw = noise(11)
  const rows: string[] = []
  for (let i = 0; i < 3000; i++) {
    const t = i / 10
    const off = t < 5
    const on = fan && !off && Math.floor(t / 12) % 2 === 1
    const drive = t > 150 ? 1 : 0
    const speed = off ? 0 : 850 + drive * (1500 + 900 * Math.sin(t / 9)) + 6 * draw()
    const manifold = off ? 100.2 : 38 + drive * (40 + 30 * Math.sin(t / 9))
    rows.push(
      [
        t.toFixed(1),
        speed.toFixed(0),
        (manifold + (on ? step : 0) + 0.2 * draw()).toFixed(2),
        (off ? 100.1 : 100.1 + 0.03 * draw()).toFixed(2),
        (18 + cold + Math.max(0, t - 5) * 0.2 + (rough ? 9 : 0.1) * draw()).toFixed(1),
        (drops && (i === 1200 || i === 1900) ? -40 : 18.4 + Math.max(0, t - 5) * 0.03 + 0.1 * draw()).toFixed(1),
        (18.1 + 0.05 * draw()).toFixed(1),
        on ? 1 : 0,
        (stuck ? 12.4 : 13.9 - (on ? 0.35 : 0) + 0.02 * draw()).toFixed(2),
      ].join(','),
    )
  }
  return `Time [s],RPM [1/min],MAP [kPa],Barometric pressure [kPa],Coolant temp [°C],IAT [°C],Ambient temp [°C],Fan [-],Battery [V]\n${rows.join('\n')}\n`
}
const ask = async (wrong: Wrong, options: Partial<SanityOptions> = {}) => {
  const report = await importLog(work.file('s.csv', drive(wrong)), work.path('s.parquet'))
  const roles = guessRoles(report.channels)
    .map(({ role, channel }) => bindRole(role, report.channels.find((each) => each.name === channel)!, true))
    .filter((each): each is BoundRole => each !== undefined)
  return sensorSanity(work.path('s.parquet'), roles, { log: 's', ...options })
}

describe('sensor sanity', () => {
  it('accuses nobody in a sound log', async () => {
    const { remarks, sentence, unchecked } = await ask({})
    expect(remarks.filter(({ weight }) => weight === 'suspect')).toEqual([])
    expect(unchecked).toEqual([])
    expect(sentence).toBe('No sensor is caught lying in 8 channels.')
  })
  it('sees an earth fault when the fan runs, with its ±, beside what the circuits expect', async () => {
    const { remarks } = await ask({ step: 1.9 }, { expected: [{ role: 'manifoldPressure', step: 1.7e3, earth: 'E2' }] })
    const found = remarks.find(({ trouble }) => trouble === 'moves with a load')!
    expect(found.sentence).toMatch(
      /^Manifold pressure \(absolute\) steps by 1\.[89]\d*\skPa ± 0\.\d+\skPa when Fan is switched on \(\d+ times, 95 %\); the model expects 1\.7\skPa from the shared earth E2/,
    )
    const silent = await ask({}, { expected: [{ role: 'manifoldPressure', step: 1.7e3, earth: 'E2' }] })
    expect(silent.remarks[0]?.sentence).toMatch(/which does not agree/)
  })
  it('names the stuck, the noisy, the one that drops out and the one that disagrees cold', async () => {
    const { remarks, sentence } = await ask({ stuck: true, drops: true, rough: true, cold: 9 })
    const of = (trouble: string): string[] =>
      remarks.filter((each) => each.trouble === trouble && each.weight === 'suspect').map(({ channel }) => channel)
    expect(of('stuck')).toEqual(['Battery'])
    expect(of('drops out')).toEqual(['IAT'])
    expect(of('noisy')).toEqual(['Coolant temp'])
    expect(of('disagrees cold')).toEqual(['Coolant temp'])
    expect(sentence).toMatch(/^3 channels are suspect: /)
  })
  it('says which checks a log does not allow', async () => {
    const { unchecked } = await ask({ fan: false })
    expect(unchecked.join(' ')).toMatch(/was switched 0 times; three are needed/)
  })
})
