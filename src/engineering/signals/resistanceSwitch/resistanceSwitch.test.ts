import { describe, expect, it } from 'vitest'
import { Refusal } from '../../../units/problem.ts'
import { exactly, type Interval, within } from '../interval.ts'
import { preferredValues } from '../preferredValues.ts'
import { ageing } from './ageing.ts'
import { controllerRows, readSwitch } from './bands.ts'
import { envelopeOf, type InputCircuit } from './circuit.ts'
import { type DesignQuestion, designSwitch, type Part } from './design.ts'
import { exhaustive } from './exhaustive.testing.ts'
import { levelsOf, type Surroundings, type Switch } from './levels.ts'
import { seriesParts } from './parts.ts'
import { resistorPowers } from './power.ts'
import { bestPullUp } from './pullUp.ts'

const IDEAL: Omit<InputCircuit, 'pullUp'> = {
  supply: exactly(5),
  reference: 'supply',
  earthOffset: exactly(0),
  leakage: exactly(0),
  bits: 10,
  linearity: 0,
}
const REAL: Omit<InputCircuit, 'pullUp'> = {
  supply: { low: 4.9, high: 5.1 },
  reference: { low: 4.95, high: 5.05 },
  earthOffset: { low: -0.01, high: 0.03 },
  leakage: { low: -1e-6, high: 1e-6 },
  bits: 10,
  linearity: 2,
}
const DRY: Surroundings = { contact: 0, short: 0, insulation: Number.POSITIVE_INFINITY }
const OLD: Surroundings = { contact: 5, short: 5, insulation: 1e6 }
const parts = (series: 'E12' | 'E24' | 'E96', least: number, most: number, tolerance: number): Part[] =>
  preferredValues(series, least, most).map((nominal) => ({ nominal, tolerance }))

// A fixed generator (Park & Miller), so that every machine draws the same.
let state = 4711
const uniform = ({ low, high }: Interval): number => {
  state = (state * 48271) % 2147483647
  return low + (high - low) * (state / 2147483647)
}

describe('a resistance behind a pull-up', () => {
  // Divider and step of an ideal converter: 103AT thermistor, 27.28 kΩ at 0 °C behind 10 kΩ: 27.28/37.28 = 0.73176
  // (Semitec AT data sheet for the 27.28 kΩ). Half a step of 10 bits either side.
  it('reads as the divider says, half a step either side', () => {
    const envelope = envelopeOf({ ...IDEAL, pullUp: exactly(10e3) })
    expect(envelope.lowest(27280)).toBeCloseTo(0.73176 - 0.5 / 1024, 5)
    expect(envelope.highest(27280)).toBeCloseTo(0.73176 + 0.5 / 1024, 5)
    expect(envelope.resistanceFor(envelope.lowest(27280))).toBeCloseTo(27280, 6)
  })
  it('stays within its band at every point of the box of tolerances, and fills it', () => {
    const pullUp = within(4700, 0.05)
    const envelope = envelopeOf({ ...REAL, pullUp })
    const resistance = { low: 950, high: 1060 }
    const band = { low: envelope.lowest(resistance.low), high: envelope.highest(resistance.high) }
    let [least, most] = [1, 0]
    for (let draw = 0; draw < 50_000; draw += 1) {
      // Every third draw stands at ends, where the extremes are.
      const from = (interval: Interval): number => {
        const value = uniform(interval)
        return draw % 3 ? value : value < (interval.low + interval.high) / 2 ? interval.low : interval.high
      }
      const [p, s, e, i, r] = [
        from(pullUp),
        from(REAL.supply),
        from(REAL.earthOffset),
        from(REAL.leakage),
        from(resistance),
      ]
      const reference = from(REAL.reference as Interval)
      const reading = (s * r + e * p - i * p * r) / (p + r) / reference + from({ low: -2.5, high: 2.5 }) / 1024
      least = Math.min(least, reading)
      most = Math.max(most, reading)
    }
    expect(least).toBeGreaterThanOrEqual(band.low - 1e-12)
    expect(most).toBeLessThanOrEqual(band.high + 1e-12)
    expect(least - band.low).toBeLessThan(1e-9)
    expect(band.high - most).toBeLessThan(1e-9)
  })
  it('loses the error of a shared supply, and keeps that of two', () => {
    const width = (circuit: Omit<InputCircuit, 'pullUp'>): number => {
      const envelope = envelopeOf({ ...circuit, pullUp: exactly(1000) })
      return envelope.highest(1000) - envelope.lowest(1000)
    }
    expect(width({ ...IDEAL, supply: { low: 4.5, high: 5.5 } })).toBeCloseTo(1 / 1024, 12)
    expect(width({ ...IDEAL, supply: { low: 4.5, high: 5.5 }, reference: exactly(5) })).toBeCloseTo(0.1 + 1 / 1024, 12)
  })
  it('refuses a pull-up of zero and leakage that eats the supply', () => {
    expect(() => envelopeOf({ ...IDEAL, pullUp: exactly(0) })).toThrow(/pull-up is zero.*Measure between the input pin/)
    expect(() => envelopeOf({ ...IDEAL, pullUp: exactly(1e6), leakage: { low: 0, high: 1e-5 } })).toThrow(
      /no longer rises/,
    )
  })
})

const branches = (...values: number[]): Switch => ({
  topology: 'branches',
  buttons: values.map((value, i) => ({ name: `B${i + 1}`, resistor: within(value, 0.01) })),
})

describe('a switch that exists', () => {
  it('gives bands, thresholds in the middle of the gaps, and a table without holes', () => {
    const circuit = { ...REAL, pullUp: within(1000, 0.01) }
    const reading = readSwitch(circuit, branches(270, 680, 1500, 4700), OLD)
    expect(reading.bands.map(({ kind }) => kind)).toEqual(['short', 'button', 'button', 'button', 'button', 'open'])
    expect(reading.smallest.gap).toBeGreaterThan(0)
    for (const [i, each] of reading.thresholds.entries()) {
      const [below, above] = [reading.bands[i]!, reading.bands[i + 1]!]
      expect(each.voltage - below.voltage.high).toBeCloseTo(above.voltage.low - each.voltage, 12)
      expect(below.codes.high).toBeLessThan(each.code)
      expect(above.codes.low).toBeGreaterThanOrEqual(each.code)
    }
    const rows = controllerRows(circuit, reading)
    expect([rows[0]!.fromCode, rows.at(-1)!.toCode]).toEqual([0, 1023])
    for (let i = 1; i < rows.length; i += 1) {
      expect(rows[i]!.fromCode).toBe(rows[i - 1]!.toCode + 1)
      expect(rows[i]!.from).toBe(rows[i - 1]!.below)
    }
  })
  it('shows two buttons of a branch switch side by side, and where they would be mistaken', () => {
    const reading = readSwitch({ ...IDEAL, pullUp: within(1000, 0.01) }, branches(500, 1000, 1000.5 * 1.2), DRY)
    const pair = reading.pairs.find(({ names }) => names.join() === 'B1,B2')!
    // 500 ∥ 1000 = 333.3 Ω; 5 V × 333.3 / 1333.3 = 1.25 V.
    expect((pair.voltage.low + pair.voltage.high) / 2).toBeCloseTo(1.25, 2)
    expect(
      readSwitch({ ...IDEAL, pullUp: within(1000, 0.01) }, branches(333.3, 500, 1000), DRY).pairs[2]!.collidesWith,
    ).toEqual(['B1'])
  })
  it('lets the nearer button of a chain win', () => {
    const chain: Switch = { ...branches(220, 330, 560), topology: 'chain', idle: within(1000, 0.01) }
    const reading = readSwitch({ ...REAL, pullUp: within(1000, 0.01) }, chain, OLD)
    for (const { names, readsAs } of reading.pairs) expect(readsAs).toEqual([names[0]])
    const levels = levelsOf(chain, DRY)
    expect(levels[2]!.resistance.low).toBeCloseTo(550 * 0.99, 9)
    expect(levels.at(-2)).toMatchObject({ kind: 'idle', resistance: { high: expect.closeTo(2110 * 1.01, 9) } })
  })
  it('keeps the hottest case of each resistor', () => {
    const circuit = { ...IDEAL, supply: { low: 4.9, high: 5.1 }, pullUp: within(1000, 0.05) }
    const powers = resistorPowers(circuit, branches(100, 1000))
    expect(powers[0]!.power).toBeCloseTo(5.1 ** 2 / 950, 12)
    // Matched: 5.1²/(4·990) would need r = p; the nearest r of 990 … 1010 to 950 is 990.
    expect(powers[2]!.power).toBeCloseTo((5.1 ** 2 * 990) / (950 + 990) ** 2, 12)
  })
  it('finds the best of all pull-ups and shows the others', () => {
    const choice = bestPullUp(REAL, branches(270, 680, 1500, 4700), OLD, parts('E12', 100, 1e5, 0.01))
    const gaps = choice.tried.flatMap(({ gap }) => gap ?? [])
    expect(choice.reading.smallest.gap).toBe(Math.max(...gaps))
    expect(choice.pullUp.nominal).toBeGreaterThan(270)
    expect(choice.pullUp.nominal).toBeLessThan(4700)
  })
  it('refuses equal buttons with what to measure', () => {
    expect(() => levelsOf(branches(470, 1000, 470), DRY)).toThrow(
      /B1 and B3 have the same resistance.*Measure both again/,
    )
    expect(() => levelsOf({ ...branches(470, 0), topology: 'chain' }, DRY)).toThrow(/No resistor stands before B2/)
    expect(() => levelsOf(branches(), DRY)).toThrow(Refusal)
  })
})

/** Smallest gap of a choice, by the same bands that a person sees, so that the search's shortcuts are under test as well. */
const gapOf = (question: DesignQuestion, pullUp: Part, values: readonly Part[], idle?: Part): number =>
  readSwitch(
    { ...question.circuit, pullUp: within(pullUp.nominal, pullUp.tolerance) },
    {
      topology: question.topology,
      buttons: values.map(({ nominal, tolerance }, i) => ({ name: `B${i + 1}`, resistor: within(nominal, tolerance) })),
      ...(idle ? { idle: within(idle.nominal, idle.tolerance) } : {}),
    },
    question.around,
  ).smallest.gap

describe('a designed switch', () => {
  const base: DesignQuestion = {
    topology: 'branches',
    buttons: 4,
    parts: parts('E24', 100, 9100, 0.01),
    pullUps: [330, 1000, 2200].map((nominal) => ({ nominal, tolerance: 0.01 })),
    endOfLine: false,
    circuit: REAL,
    around: OLD,
  }
  for (const topology of ['branches', 'chain'] as const)
    for (const buttons of [1, 2, 3, 4])
      it(`${topology}, ${buttons} buttons from two decades of E24: equals every choice tried`, () => {
        // Four in a chain are 48⁴ = 5.3 million choices a pull-up: one pull-up is enough there.
        const pullUps = topology === 'chain' && buttons === 4 ? [base.pullUps[1]!] : base.pullUps
        const question = { ...base, topology, buttons, pullUps }
        const design = designSwitch(question)
        expect(Math.abs(design.smallestGap - exhaustive(question))).toBeLessThanOrEqual(design.proof.within)
        expect(gapOf(question, design.pullUp, design.resistors)).toBeCloseTo(design.smallestGap, 9)
        expect(design.proof.unreachable).toBeGreaterThanOrEqual(design.smallestGap)
      })
  it('from a drawer of mixed tolerances and few pieces equals every choice tried', () => {
    const drawer: Part[] = [
      [120, 0.05],
      [220, 0.01],
      [330, 0.05],
      [390, 0.01],
      [470, 0.1],
      [680, 0.01],
      [1000, 0.05],
      [1200, 0.01],
      [1800, 0.2],
      [2700, 0.01],
      [4700, 0.05],
    ].map(([nominal, tolerance]) => ({ nominal: nominal!, tolerance: tolerance!, stock: 1 }))
    const question: DesignQuestion = { ...base, topology: 'chain', buttons: 4, parts: drawer, around: DRY }
    let best = 0
    const go = (chosen: readonly Part[]): void => {
      if (chosen.length === 4) {
        for (const pullUp of question.pullUps) best = Math.max(best, gapOf(question, pullUp, chosen))
        return
      }
      for (const part of drawer) if (!chosen.includes(part)) go([...chosen, part])
    }
    go([])
    const design = designSwitch(question)
    expect(design.smallestGap).toBeCloseTo(best, 8)
    expect(new Set(design.resistors).size).toBe(4)
  })
  it('with an end-of-line resistor equals every choice tried, in both topologies', () => {
    for (const topology of ['branches', 'chain'] as const) {
      const question: DesignQuestion = {
        ...base,
        topology,
        buttons: 2,
        parts: parts('E12', 100, 8200, 0.01),
        pullUps: [base.pullUps[1]!],
        endOfLine: true,
      }
      let best = 0
      for (const idle of question.parts)
        for (const one of question.parts)
          for (const two of question.parts) {
            if (topology === 'branches' && one.nominal >= two.nominal) continue
            best = Math.max(best, gapOf(question, base.pullUps[1]!, [one, two], idle))
          }
      const design = designSwitch(question)
      expect(design.smallestGap).toBeCloseTo(best, 8)
      expect(gapOf(question, design.pullUp, design.resistors, design.idle)).toBeCloseTo(best, 8)
    }
  })
  for (const topology of ['branches', 'chain'] as const)
    it(`${topology}: eight buttons from E24 over three decades`, () => {
      const question = {
        ...base,
        topology,
        buttons: 8,
        parts: parts('E24', 100, 91e3, 0.01),
        pullUps: parts('E24', 100, 91e3, 0.01),
      }
      const design = designSwitch(question)
      expect(gapOf(question, design.pullUp, design.resistors)).toBeCloseTo(design.smallestGap, 9)
    })
  it('chooses from a series with its customary tolerance', () => {
    expect(seriesParts('E96', 100, 102)).toEqual([
      { nominal: 100, tolerance: 0.01 },
      { nominal: 102, tolerance: 0.01 },
    ])
    expect(() => seriesParts('E3', 100, 1000)).toThrow(/no customary tolerance/)
  })
  it('says so when no choice keeps the states apart', () => {
    expect(() => designSwitch({ ...base, buttons: 12, parts: parts('E12', 100, 8200, 0.1) })).toThrow(
      /No choice of these parts.*split the buttons/,
    )
    expect(() => designSwitch({ ...base, parts: [] })).toThrow(/nothing to choose parts from/)
    expect(() => designSwitch({ ...base, parts: [{ nominal: 0, tolerance: 0 }] })).toThrow(
      /could not be told from a short/,
    )
  })
})

describe('what age does', () => {
  // By hand, everything else perfect: 1 kΩ and 2 kΩ behind 1 kΩ read alike once the first contact adds 1 kΩ, but for a step.
  it('finds the contact at which two buttons first read alike', () => {
    const circuit = { ...IDEAL, bits: 24, pullUp: exactly(1000) }
    const made: Switch = {
      topology: 'branches',
      buttons: [
        { name: 'Up', resistor: exactly(1000) },
        { name: 'Down', resistor: exactly(2000) },
      ],
    }
    const found = ageing(circuit, made, DRY)
    expect(found.until).toBeCloseTo(1000, 1)
    expect([found.first.below, found.first.above]).toEqual(['Up', 'Down'])
    // 5 V × (2/3 − 1/2); “no button” stands 5 V × 1/3 above, further.
    expect(found.gapNew).toBeCloseTo(5 / 6, 5)
  })
  it('agrees with the bands on either side of what it finds, in a real circuit, also of a chain', () => {
    for (const topology of ['branches', 'chain'] as const) {
      const circuit = { ...REAL, pullUp: within(1000, 0.01) }
      const made: Switch = {
        topology,
        buttons: [220, 680, 1500].map((value, i) => ({ name: `${i}`, resistor: within(value, 0.01) })),
        idle: within(8200, 0.01),
      }
      const { until } = ageing(circuit, made, OLD)
      const gapAt = (contact: number) => readSwitch(circuit, made, { ...OLD, contact }).smallest.gap
      expect(gapAt(until * 0.999)).toBeGreaterThan(0)
      expect(gapAt(until * 1.001)).toBeLessThanOrEqual(0)
    }
  })
  it('is nothing where two buttons are alike from the first day', () => {
    const made: Switch = {
      topology: 'branches',
      buttons: [1000, 1010].map((value, i) => ({ name: `${i}`, resistor: within(value, 0.05) })),
    }
    expect(ageing({ ...REAL, pullUp: within(1000, 0.01) }, made, OLD).until).toBe(0)
  })
})
