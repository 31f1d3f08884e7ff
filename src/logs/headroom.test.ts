import { afterAll, describe, expect, it } from 'vitest'
import { bench, noise } from './fixtures.test-helper.ts'
import { type HeadroomOptions, injectorHeadroom } from './headroom.ts'
import { importLog } from './import.ts'
import { type BoundRole, bindRole, guessRoles } from './roles.ts'

const work = bench()
afterAll(() => work.clear())

/** A breathing of its own: a hump, not the parabola of the fit. Dead time 0.9 ms. */
const pulseAt = (speed: number, pressure: number): number =>
  0.9e-3 + (pressure / 1e5) * 4.4e-3 * (0.86 + 0.14 * Math.exp(-(((speed - 420) / 190) ** 2)))
const RPM = Math.PI / 30
const dutyAt = (speed: number, pressure: number): number => (pulseAt(speed, pressure) * speed) / (4 * Math.PI)

const drive = (seed: number, { top = 5000, boost = 150e3, duty = false } = {}): string => {
  const draw = noise(seed)
  const rows: string[] = []
  for (let i = 0; i < 1800; i++) {
    const t = i / 10
    const pull = Math.floor(t / 15)
    const pressure = [70e3, 100e3, 0.85 * boost, boost][pull % 4]!
    const speed = RPM * (1800 + ((top - 1800) * (t % 15)) / 15)
    const pulse = pulseAt(speed, pressure) * (1 + 0.012 * draw())
    const third = duty ? (100 * pulse * speed) / (4 * Math.PI) : pulse * 1e3
    rows.push(
      [t.toFixed(1), (speed / RPM).toFixed(0), (pressure / 1e3 + 0.4 * draw()).toFixed(1), third.toFixed(3)].join(','),
    )
  }
  return `Time [s],RPM [1/min],MAP [kPa],${duty ? 'Injector duty [%]' : 'Injector pulse width [ms]'}\n${rows.join('\n')}\n`
}
const ask = async (
  csv: string,
  options: Partial<HeadroomOptions> = {},
  keep: (roles: BoundRole[]) => BoundRole[] = (r) => r,
) => {
  const report = await importLog(work.file('h.csv', csv), work.path('h.parquet'))
  const roles = guessRoles(report.channels)
    .map(({ role, channel }) => bindRole(role, report.channels.find((each) => each.name === channel)!, true))
    .filter((each): each is BoundRole => each !== undefined)
  return injectorHeadroom(work.path('h.parquet'), keep(roles), { log: 'h', ...options })
}

describe('injector headroom', () => {
  it('holds the true duty in its interval, at the target too, in 18 of 20 drives or more', async () => {
    let covered = 0
    for (let seed = 1; seed <= 20; seed++) {
      const found = await ask(drive(seed), { targetSpeed: 5800 * RPM, targetPressure: 170e3 })
      if (found.answer !== 'told') throw new Error(found.sentence)
      expect(found.target.extrapolated).toBe(true)
      const truth = dutyAt(5800 * RPM, 170e3)
      if (found.target.low <= truth && truth <= found.target.high) covered++
      expect(found.target.high - found.target.low).toBeLessThan(0.15)
    }
    expect(covered).toBeGreaterThanOrEqual(18)
  })
  it('answers in a sentence: left, none left, or not told yet, by the limit that is set', async () => {
    const csv = drive(3)
    const at = { targetSpeed: 5000 * RPM, targetPressure: 150e3 }
    const truth = dutyAt(at.targetSpeed, at.targetPressure)
    const left = await ask(csv, { ...at, limit: truth + 0.1 })
    expect(left.sentence).toMatch(
      /^There is injector left: \d+ % of the cycle.*Duty is \d+\.\d ± \d\.\d % at 5000 rpm and 150 kPa/,
    )
    expect((await ask(csv, { ...at, limit: truth - 0.1 })).sentence).toMatch(
      /^There is no injector left.*limit is met at about \d+ rpm/,
    )
    expect((await ask(csv, { ...at, limit: truth })).sentence).toMatch(/^Whether injector is left cannot be told yet/)
  })
  it('reads the duty channel as well, and gives curves at several pressures', async () => {
    const found = await ask(drive(5, { duty: true }), { targetSpeed: 4800 * RPM, targetPressure: 150e3 })
    if (found.answer !== 'told') throw new Error(found.sentence)
    expect(found.provenance.from).toBe('injector duty')
    expect(Math.abs(found.target.duty - dutyAt(4800 * RPM, 150e3))).toBeLessThan(0.02)
    expect(found.curves.length).toBeGreaterThanOrEqual(3)
    for (const { points } of found.curves) expect(points.at(-1)!.duty).toBeGreaterThan(points[0]!.duty)
  })
  it('cannot tell too far out, from one speed, or without a role, and says what to drive', async () => {
    const far = await ask(drive(1), { targetSpeed: 7500 * RPM })
    expect(far).toMatchObject({
      answer: 'cannot-tell',
      because: 'too-far',
      next: expect.stringMatching(/^Pull from 3750 rpm to 6000 rpm/),
    })
    expect(await ask(drive(1, { top: 2000 }))).toMatchObject({ answer: 'cannot-tell', because: 'too-few-windows' })
    const blind = await ask(drive(1), {}, (roles) => roles.filter(({ role }) => role !== 'injectorPulseWidth'))
    expect(blind).toMatchObject({ because: 'missing-role', missing: ['injectorPulseWidth'] })
  })
})
