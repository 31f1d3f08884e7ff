import { afterAll, describe, expect, it } from 'vitest'
import { compareCooling } from './compareCooling.ts'
import { chargeCooling } from './cooling.ts'
import { bench, noise } from './fixtures.test-helper.ts'
import { importLog } from './import.ts'
import { pool, student95, varianceOfMean } from './interval.ts'
import { type BoundRole, bindRole, guessRoles, recallRoles, sourceSignature } from './roles.ts'

const work = bench()
afterAll(() => work.clear())

const CHANNELS = [
  { name: 'Charge temp pre cooler', unit: '°C' },
  { name: 'Charge temp post cooler', unit: '°C' },
  { name: 'Ambient temp', unit: '°C' },
  { name: 'MAF', unit: 'g/s' },
]
const ROLES = ['chargeTemperatureBefore', 'chargeTemperatureAfter', 'ambientTemperature', 'airFlow'] as const
const roles: BoundRole[] = ROLES.map((role, i) => bindRole(role, CHANNELS[i]!, true)!)

interface Drive {
  readonly seed: number
  readonly effectiveness: (flow: number) => number
  readonly seconds?: number
  readonly rise?: number
  readonly swap?: boolean
}

/** Loads held for 100 s each; sensors lag by 3 s; white noise, and a slow wander that a neighbour's sample shares. */
function drive({ seed, effectiveness, seconds = 1500, rise = 50, swap = false }: Drive): string {
  const draw = noise(seed)
  const rows: string[] = []
  let [before, after] = [25, 25]
  let wander = 0
  for (let i = 0; i < seconds * 4; i++) {
    const t = i / 4
    const load = ((Math.floor(t / 100) * 3) % 5) / 5 + 0.4
    const flow = 60 + 60 * load
    const ambient = 20 + t / 2000
    const hot = ambient + rise * load
    const cold = hot - effectiveness(flow) * (hot - ambient)
    before += (hot - before) / 12
    after += (cold - after) / 12
    wander += -wander / 20 + 0.05 * draw()
    const pair = [before + 0.4 * draw(), after + wander + 0.3 * draw()]
    if (swap) pair.reverse()
    rows.push(
      [
        t,
        ...pair.map((value) => value.toFixed(1)),
        (ambient + 0.2 * draw()).toFixed(1),
        (flow + draw()).toFixed(1),
      ].join(','),
    )
  }
  return `Time [s],${CHANNELS.map(({ name, unit }) => `${name} [${unit}]`).join(',')}\n${rows.join('\n')}\n`
}

const run = async (given: Drive, bound: readonly BoundRole[] = roles) => {
  await importLog(work.file('drive.csv', drive(given)), work.path('drive.parquet'))
  return chargeCooling(work.path('drive.parquet'), bound, { log: 'drive.csv' })
}

describe('charge cooling', () => {
  it('covers the truth in 90 … 99 of 100 drives, without bias', async () => {
    let covered = 0
    let sum = 0
    const drives = 120
    for (let seed = 1; seed <= drives; seed++) {
      const found = await run({ seed, effectiveness: () => 0.7, seconds: 900 })
      if (found.answer !== 'told') throw new Error(found.sentence)
      const { value, low, high, standardError, windows } = found.effectiveness
      // By noise and scatter alone; lags that may differ widen it, and these sensors have none.
      if (Math.abs(value - 0.7) <= student95(windows - 1) * standardError) covered++
      expect(low).toBeLessThanOrEqual(0.7)
      expect(high).toBeGreaterThanOrEqual(0.7)
      sum += value
    }
    expect(covered / drives).toBeGreaterThanOrEqual(0.9)
    expect(covered / drives).toBeLessThanOrEqual(0.99)
    // What is left of the lag in a window may move the ratio by less than the share that the rule for windows allows.
    expect(Math.abs(sum / drives - 0.7)).toBeLessThan(0.003)
  }, 50_000)

  it('shows effectiveness falling with air flow, and says so in a sentence with its reference', async () => {
    const found = await run({ seed: 7, effectiveness: (flow) => 0.9 - 0.002 * flow, seconds: 2500 })
    if (found.answer !== 'told') throw new Error(found.sentence)
    expect(found.sentence).toMatch(/effectiveness is 0\.\d{3} ± 0\.\d{3} against ambient air at 0\.\d+ kg\/s/)
    const [first, last] = [found.againstAirFlow[0]!, found.againstAirFlow.at(-1)!]
    expect(first.low).toBeGreaterThan(last.high)
    for (const bin of found.againstAirFlow) expect(Math.abs(bin.value - (0.9 - 2 * bin.airFlow))).toBeLessThan(0.03)
    expect(found.provenance.windows.length).toBe(found.effectiveness.windows)
  })

  it('cannot tell from swapped sensors, a small rise, a short log, or without a role, and says what to do', async () => {
    const swapped = await run({ seed: 1, effectiveness: () => 0.7, swap: true })
    expect(swapped).toMatchObject({
      answer: 'cannot-tell',
      because: 'sensors-implausible',
      sentence: expect.stringMatching(/probably swapped/),
    })
    const above = await run({ seed: 1, effectiveness: () => 1.2 })
    expect(above).toMatchObject({
      answer: 'cannot-tell',
      because: 'sensors-implausible',
      sentence: expect.stringMatching(/colder than the ambient air/),
    })
    const cool = await run({ seed: 1, effectiveness: () => 0.7, rise: 4 })
    expect(cool).toMatchObject({
      answer: 'cannot-tell',
      because: 'rise-too-small',
      next: expect.stringMatching(/at least 10 K above the ambient air/),
    })
    const short = await run({ seed: 1, effectiveness: () => 0.7, seconds: 15 })
    expect(short).toMatchObject({
      answer: 'cannot-tell',
      because: 'too-short',
      next: expect.stringMatching(/Hold one gear .* 3 times/),
    })
    const blind = await run({ seed: 1, effectiveness: () => 0.7 }, roles.slice(0, 2))
    expect(blind).toMatchObject({
      answer: 'cannot-tell',
      because: 'missing-role',
      missing: ['ambientTemperature'],
      sentence: expect.stringMatching(/ambient air temperature/),
    })
  })
})

describe('before and after', () => {
  it('says by how much effectiveness rose at equal air flow, or that it cannot tell', async () => {
    const shape = (gain: number) => (flow: number) => 0.8 - 0.002 * flow + gain
    const before = await run({ seed: 3, effectiveness: shape(0), seconds: 2500 })
    const after = await run({ seed: 4, effectiveness: shape(0.06), seconds: 2500 })
    const found = compareCooling(before, after)
    if (found.answer !== 'told') throw new Error(found.sentence)
    expect(Math.abs(found.difference - 0.06)).toBeLessThan(found.half)
    expect(found.half).toBeLessThan(0.02)
    expect(found.sentence).toMatch(/Effectiveness rose by 0\.0\d\d ± 0\.0\d\d at 0\.\d+ kg\/s/)
    const same = compareCooling(before, await run({ seed: 5, effectiveness: shape(0), seconds: 2500 }))
    expect(same.sentence).toMatch(/did not change beyond what the logs can tell/)
    const cool = await run({ seed: 1, effectiveness: () => 0.7, rise: 4 })
    expect(compareCooling(before, cool)).toMatchObject({
      answer: 'cannot-tell',
      sentence: expect.stringMatching(/the second log alone does not tell/),
    })
    const blind = await run({ seed: 1, effectiveness: () => 0.7 }, roles.slice(0, 3))
    expect(compareCooling(before, blind)).toMatchObject({
      answer: 'cannot-tell',
      next: expect.stringMatching(/air mass flow/),
    })
  }, 20_000)
})

describe('what a log lacks or hides', () => {
  const withEngine = (csv: string): string => {
    const [head, ...rows] = csv.trimEnd().split('\n')
    const more = rows.map((row) => {
      // Speed 300 rad/s; pressure that gives the logged flow at 0.9 of 2.3 l and the logged charge temperature.
      const cells = row.split(',')
      const [after, flow] = [Number(cells[2]) + 273.15, Number(cells[4]) / 1e3]
      const pressure = (flow * 4 * Math.PI * 287.05 * after) / (0.9 * 2.3e-3 * 300)
      return `${row},2864.79,${(pressure / 1e3).toFixed(3)},${(Number(cells[0]) * 0.12 + 25).toFixed(2)}`
    })
    return `${head},RPM [1/min],MAP [kPa],Cooler water in [°C]\n${more.join('\n')}\n`
  }
  const more = [
    bindRole('engineSpeed', { name: 'RPM', unit: '1/min' }, true)!,
    bindRole('manifoldPressure', { name: 'MAP', unit: 'kPa' }, true)!,
  ]
  it('reckons air flow from speed and manifold pressure where none was logged, and says so', async () => {
    const csv = withEngine(drive({ seed: 7, effectiveness: () => 0.7, seconds: 2000 }))
    await importLog(work.file('e.csv', csv), work.path('e.parquet'))
    const found = await chargeCooling(work.path('e.parquet'), [...roles.slice(0, 3), ...more], {
      log: 'e',
      sweptVolume: 2.3e-3,
    })
    if (found.answer !== 'told') throw new Error(found.sentence)
    expect(found.cautions.join(' ')).toMatch(/Air flow was not logged: it is reckoned/)
    const measured = await chargeCooling(work.path('e.parquet'), roles, { log: 'e' })
    if (measured.answer !== 'told') throw new Error(measured.sentence)
    expect(found.againstAirFlow.at(-1)!.airFlow / measured.againstAirFlow.at(-1)!.airFlow).toBeCloseTo(1, 2)
  })
  it('does not count windows in which the water of the loop still warms, against ambient air', async () => {
    const csv = withEngine(drive({ seed: 7, effectiveness: () => 0.7 }))
    await importLog(work.file('w.csv', csv), work.path('w.parquet'))
    const water = bindRole('coolerWaterIn', { name: 'Cooler water in', unit: '°C' }, true)!
    // The loop gains 0.12 K a second: 7 K in the minute that it takes up heat, beside a rise of 20 to 50 K.
    const found = await chargeCooling(work.path('w.parquet'), [...roles, water], { log: 'w', reference: 'ambient air' })
    expect(found).toMatchObject({ answer: 'cannot-tell', because: 'never-steady' })
    const quick = await chargeCooling(work.path('w.parquet'), [...roles, water], {
      log: 'w',
      reference: 'ambient air',
      waterTime: 1,
    })
    expect(quick.answer).toBe('told')
  })
})

describe('intervals', () => {
  it('has the t quantiles of the NIST e-Handbook, table 1.3.6.7.2', () => {
    // Printed to three decimals: half a unit of the last.
    for (const [degrees, printed] of [
      [1, 12.706],
      [10, 2.228],
      [30, 2.042],
      [40, 2.021],
      [60, 2.0],
      [100, 1.984],
    ] as const)
      expect(Math.abs(student95(degrees) - printed)).toBeLessThan(0.0006)
  })
  it('knows the variance of the mean of a first-order series: σ²/n · (1 + ρ)/(1 − ρ)', () => {
    const draw = noise(3)
    const series = new Float64Array(40_000)
    for (let i = 1; i < series.length; i++) series[i] = 0.8 * series[i - 1]! + draw()
    const expected = (1 / (1 - 0.64) / series.length) * 9
    expect(varianceOfMean(series) / expected).toBeGreaterThan(0.8)
    expect(varianceOfMean(series) / expected).toBeLessThan(1.2)
  })
  it('weighs by precision and widens for unlike windows', () => {
    expect(pool([1, 2], [1, 1e6]).value).toBeCloseTo(1, 2)
    expect(pool([0.5, 0.7, 0.9], [1e-6, 1e-6, 1e-6]).half).toBeGreaterThan(0.3)
  })
})

describe('roles', () => {
  const channels = [
    ...CHANNELS,
    { name: 'RPM', unit: 'rpm' },
    { name: 'Batt V', unit: 'V' },
    { name: 'TPS', unit: '%' },
    { name: 'Coolant Temp', unit: '°C' },
    { name: 'InjectorPulseWidth', unit: 'ms' },
    { name: 'Lambda 1', unit: 'λ' },
    { name: 'Boost target', unit: 'kPa' },
  ].map((entry) => ({ ...entry, min: entry.unit === 'V' ? 12 : 1, mean: 14, max: entry.unit === 'λ' ? 1.2 : 14.5 }))
  it('guesses meanings by name and unit, with a reason, and leaves the rest alone', () => {
    const found = Object.fromEntries(guessRoles(channels).map(({ role, channel }) => [role, channel]))
    expect(found).toEqual({
      chargeTemperatureBefore: 'Charge temp pre cooler',
      chargeTemperatureAfter: 'Charge temp post cooler',
      ambientTemperature: 'Ambient temp',
      airFlow: 'MAF',
      engineSpeed: 'RPM',
      batteryVoltage: 'Batt V',
      throttle: 'TPS',
      coolantTemperature: 'Coolant Temp',
      injectorPulseWidth: 'InjectorPulseWidth',
      lambda: 'Lambda 1',
    })
    expect(guessRoles(channels).find(({ role }) => role === 'engineSpeed')).toMatchObject({
      reason: expect.stringMatching(/the name says so; the unit rpm fits/),
    })
  })
  it('refuses a unit of another kind, converts to SI, and remembers by source', () => {
    expect(bindRole('engineSpeed', { name: 'RPM', unit: 'kPa' }, true)).toBeUndefined()
    expect(bindRole('ambientTemperature', { name: 'T', unit: '°F' }, true)).toMatchObject({ factor: 5 / 9 })
    expect(sourceSignature(channels)).toBe(sourceSignature([...channels]))
    expect(sourceSignature(channels)).not.toBe(sourceSignature(channels.slice(1)))
    expect(recallRoles(roles, CHANNELS.slice(0, 1)).map(({ role }) => role)).toEqual(['chargeTemperatureBefore'])
  })
})
