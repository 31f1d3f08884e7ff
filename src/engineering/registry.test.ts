import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { expect, it, describe as suite } from 'vitest'
import { KINDS } from '../units/kinds.ts'
import { Refusal } from '../units/problem.ts'
import { chargeCoolerEffectiveness } from './air/chargeCoolerEffectiveness.ts'
import { compressionTemperature } from './air/compressionTemperature.ts'
import {
  type Calculation,
  describe,
  hold,
  isOutside,
  propagate,
  readInputs,
  run,
  working,
  workingLines,
} from './calculation.ts'
import {
  CHECKSUM_FAA,
  CHECKSUM_ISO6722,
  CHECKSUM_ISO6722_MEMORY,
  CONDUCTORS,
  PRINTED_FAA,
  PRINTED_ISO6722,
  PRINTED_ISO6722_MEMORY,
} from './electrical/conductorTable.ts'
import { conductorTemperature } from './electrical/conductorTemperature.ts'
import { GATES, slowestTime } from './electrical/fuseGates.ts'
import { surfaceHeat } from './electrical/heatBalance.ts'
import { voltageDrop } from './electrical/voltageDrop.ts'
import { injectorDemand } from './fuel/injectorDemand.ts'
import { pumpFlow } from './fuel/pumpFlow.ts'
import { calculationOf, calculations } from './registry.ts'

const here = import.meta.dirname
const files = readdirSync(here, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
  .map((name) => readFileSync(`${here}/${name}`, 'utf8'))
const fileOf = (calc: Calculation): string => files.find((text) => text.includes(`id: '${calc.id}'`)) ?? ''
const refusal = (act: () => unknown): Refusal => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error
    throw error
  }
  throw new Error('nothing was refused')
}

it('lists every declared calculation once', () => {
  const declared = files.flatMap((text) =>
    [...text.matchAll(/= calculation\(\{\s*id: '([^']+)'/g)].map((match) => match[1]),
  )
  expect(declared.sort()).toEqual(calculations.map(({ id }) => id).sort())
  expect(calculationOf('voltage-drop')).toBe(voltageDrop)
})

for (const calc of calculations) {
  suite(calc.id, () => {
    it('has a check from outside, not only laws and common practice', () =>
      expect(calc.checks.some(isOutside)).toBe(true))
    calc.checks.forEach((check, index) => {
      it(`check ${index + 1} holds: ${check.source.title}`, () => {
        const held = hold(calc, check)
        expect(held.holds, `got ${held.got}, expected ${held.expected} ± ${held.allowed}`).toBe(true)
      })
      it(`check ${index + 1} fails when its figure moves by twice the tolerance`, () => {
        expect(hold(calc, check, 2.0001).holds).toBe(false)
        expect(hold(calc, check, -2.0001).holds).toBe(false)
      })
    })
    it('says in its docstring what its declaration says', () => {
      const lines = fileOf(calc)
        .split('*/')[0]!
        .split('\n')
        .filter((line) => / {3}\S+ {2,}/.test(line))
        .map((line) => line.replace(/^ \*\s+/, '').split(/ {2,}/))
      const line = (symbol: string): string[] => lines.find((cells) => cells[0] === symbol) ?? []
      for (const input of Object.values(calc.inputs)) {
        const cells = line(input.symbol)
        if (input.type === 'choice') {
          expect(cells[2], input.symbol).toMatch(/^one of /)
          if (input.options.length < 6) expect(cells[2]).toBe(`one of ${input.options.join(', ')}`)
        } else {
          expect([cells[2], ...(cells[3] ?? '').split(' … ').map(Number)], input.symbol).toEqual([
            KINDS[input.kind].si,
            input.min,
            input.max,
          ])
        }
      }
      for (const output of Object.values(calc.outputs))
        expect(line(output.symbol)[2], output.symbol).toBe(KINDS[output.kind].si)
    })
    it('refuses every input that is missing, and every input beyond its range', () => {
      expect(refusal(() => run(calc, {})).problems.map(({ path }) => path)).toEqual(Object.keys(calc.inputs))
      const beyond = Object.fromEntries(
        Object.entries(calc.inputs).map(([name, input]) => [
          name,
          input.type === 'choice' ? 'no such thing' : input.max * 1.01,
        ]),
      )
      expect(refusal(() => run(calc, beyond)).problems.map(({ path }) => path)).toEqual(Object.keys(calc.inputs))
    })
    it('shows its working and describes itself as JSON', () => {
      const shown = working(calc, calc.checks[0]!.inputs)
      expect(shown.formula + shown.withNumbers).not.toMatch(/[{}]|undefined|NaN/)
      expect(shown.results.length).toBe(Object.keys(calc.outputs).length)
      const told = JSON.parse(JSON.stringify(describe(calc)))
      expect(told).toMatchObject({ id: calc.id, title: calc.title })
      for (const part of ['inputs', 'outputs', 'sources', 'checks'] as const)
        expect(told[part].length).toBeGreaterThan(0)
    })
  })
}

suite('what a person reads', () => {
  it('tells all that is out of range, with unit and range', () => {
    const { problems, message } = refusal(() => run(voltageDrop, { resistance: 0.01, length: -1, current: 3000 }))
    expect(problems.map(({ code }) => code)).toEqual(['out-of-range', 'out-of-range'])
    expect(message).toMatch(/length -1 m is outside 0 … 1000 m\. Enter length of conductor/)
    expect(message).toMatch(/current 3000 A is outside 0 … 2000 A/)
  })
  it('names an input that does not exist, and text that is no number', () => {
    const given = { resistance: 0.01, length: 1, current: Number.NaN, colour: 1 }
    expect(refusal(() => run(voltageDrop as Calculation, given)).message).toMatch(
      /current “NaN” is not a number.*\n.*has no input “colour”/,
    )
  })
  it('refuses half an injector', () => {
    expect(
      refusal(() => run(injectorDemand, { power: 1e5, specificConsumption: 8e-8, count: 4.5, duty: 0.8 })).message,
    ).toMatch(/count 4.5 is not a whole number\. Count number of injectors/)
  })
  it('refuses a charge no hotter than its cold reference, and a pump beyond its curve', () => {
    expect(
      refusal(() => run(chargeCoolerEffectiveness, { inlet: 300, outlet: 299, coldReference: 298 })).message,
    ).toMatch(/not at least 5 K hotter/)
    expect(refusal(() => run(pumpFlow, { ...pumpFlow.checks[0]!.inputs, pressure: 9e5 })).message).toMatch(
      /does not lie between the two points/,
    )
  })
  it('has no steady temperature for a wire on fire', () => {
    expect(
      refusal(() => run(conductorTemperature, { ...conductorTemperature.checks[2]!.inputs, current: 500 })).message,
    ).toMatch(/gives no figure for conductor temperature/)
  })
  it('answers what is unusual, and says so', () => {
    const { outputs, warnings } = run(voltageDrop, { resistance: 0.01, length: 100, current: 1 })
    expect(outputs.drop).toBeCloseTo(1)
    expect(warnings[0]!.says).toBe('length 100 m is unusual; 0.02 … 30 m is to be expected.')
  })
  it('puts the numbers in', () => {
    const shown = working(voltageDrop, { resistance: 0.01, length: { value: 3, plusMinus: 0.1 }, current: 10 })
    expect(shown.formula.split('\n')[0]).toBe("U = R' × L × I")
    expect(shown.withNumbers.split('\n')[0]).toBe('U = 0.01 Ω/m × 3 m × 10 A')
    expect(shown.results[0]).toBe('U = 0.3 ± 0.01 V  (voltage lost along the conductor)')
    expect(workingLines(shown).at(-1)).toMatch(/^Source: FAA AC 43\.13-1B, page 11-22/)
  })
  it('raises a figure together with its unit', () => {
    expect(working(conductorTemperature, conductorTemperature.checks[2]!.inputs).withNumbers).toMatch(/^\(24 A\)² × /)
  })
  it('reads what a builder types', () => {
    const given = readInputs(voltageDrop, { resistance: '12.7 mΩ/m', length: '2 m 30', current: '10 ± 0.5 A' })
    expect(given.length).toBeCloseTo(2.3, 12)
    expect(propagate(voltageDrop as Calculation, given).outputs.drop).toMatchObject({
      plusMinus: expect.closeTo(0.014605, 9),
    })
    expect(
      refusal(() => readInputs(voltageDrop, { length: '2 bar', current: 'much' })).problems.map(({ path }) => path),
    ).toEqual(['length', 'current'])
  })
  it('reads typed text through the door’s reader and gathers what it cannot read', () => {
    const read = (_kind: string, text: string): number => {
      if (Number.isNaN(Number(text)))
        throw new Refusal([
          { code: 'unreadable-quantity', says: `“${text}” is no quantity.`, todo: 'Type a number and a unit.' },
        ])
      return Number(text)
    }
    expect(readInputs(voltageDrop, { resistance: '0.01', length: '2' }, read)).toEqual({ resistance: 0.01, length: 2 })
    expect(refusal(() => readInputs(voltageDrop, { resistance: 'x', length: 'y' }, read)).message).toMatch(
      /resistance: “x”.*\n.*length: “y”/,
    )
  })
})

suite('± by first order', () => {
  // Box–Muller on a small fixed generator (Park & Miller), so that the test gives the same figure on every machine.
  let state = 20240
  const uniform = (): number => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
  const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
  const cases: readonly [Calculation, Record<string, number | string | { value: number; plusMinus: number }>][] = [
    [
      compressionTemperature,
      {
        temperature: { value: 298, plusMinus: 2 },
        pressure: { value: 1e5, plusMinus: 1500 },
        outletPressure: { value: 1.9e5, plusMinus: 4000 },
        efficiency: { value: 0.7, plusMinus: 0.04 },
      },
    ],
    [
      injectorDemand,
      {
        power: { value: 1.5e5, plusMinus: 6e3 },
        specificConsumption: { value: 8.6e-8, plusMinus: 5e-9 },
        count: 4,
        duty: 0.85,
      },
    ],
    [
      chargeCoolerEffectiveness,
      {
        inlet: { value: 393, plusMinus: 3 },
        outlet: { value: 318, plusMinus: 2 },
        coldReference: { value: 298, plusMinus: 1.5 },
      },
    ],
    [
      conductorTemperature,
      {
        current: { value: 20, plusMinus: 1 },
        metal: 'copper',
        resistance: { value: 0.0127, plusMinus: 3e-4 },
        conductorDiameter: 1.8e-3,
        outerDiameter: { value: 3e-3, plusMinus: 1e-4 },
        ambient: { value: 313, plusMinus: 4 },
      },
    ],
  ]
  const DRAWS = 20000
  for (const [calc, given] of cases) {
    it(`agrees with Monte Carlo: ${calc.id}`, () => {
      const { outputs, warnings } = propagate(calc, given)
      expect(warnings.filter(({ code }) => code === 'rough-plus-minus')).toEqual([])
      const draws = Object.fromEntries(Object.keys(calc.outputs).map((name) => [name, [] as number[]]))
      for (let draw = 0; draw < DRAWS; draw += 1) {
        const at = Object.fromEntries(
          Object.entries(given).map(([name, value]) => [
            name,
            typeof value === 'object' ? value.value + (value.plusMinus / 1.959964) * normal() : value,
          ]),
        )
        const { outputs: drawn } = run(calc, at)
        for (const [name, list] of Object.entries(draws)) list.push(drawn[name]!)
      }
      for (const [name, list] of Object.entries(draws)) {
        list.sort((a, b) => a - b)
        const half = (list[Math.floor(0.975 * DRAWS)]! - list[Math.floor(0.025 * DRAWS)]!) / 2
        // 20 000 draws give a 95 % half width to about 1 %; the rest is curvature.
        expect(outputs[name]!.plusMinus / half, name).toBeGreaterThan(0.96)
        expect(outputs[name]!.plusMinus / half, name).toBeLessThan(1.04)
      }
    })
  }
  it('says which input the ± comes from, and when first order is too rough', () => {
    const { outputs } = propagate(voltageDrop, {
      resistance: 0.01,
      length: { value: 3, plusMinus: 0.3 },
      current: { value: 10, plusMinus: 0.1 },
    })
    expect(outputs.drop.shares.length).toBeCloseTo(100 / 101, 6)
    const rough = propagate(chargeCoolerEffectiveness, {
      inlet: { value: 310, plusMinus: 4 },
      outlet: 300,
      coldReference: 298,
    })
    expect(rough.warnings.map(({ code }) => code)).toContain('rough-plus-minus')
  })
  it('gives no figure where the calculation gives none, and none that nothing can have', () => {
    // A coil whose current stops between pulses.
    const stops = { supply: 12, diode: 0.8, resistance: 8, inductance: 1e-4, duty: 0.1, frequency: 10 }
    for (const plusMinus of [0, 0.1])
      expect(() => propagate(calculationOf('pulsed-current')!, { ...stops, supply: { value: 12, plusMinus } })).toThrow(
        /gives no figure for/,
      )
    const store = { mass: 1, specificHeat: 4000, warmConductance: 1, warmSide: 300, coldConductance: 1, coldSide: 300 }
    const drained = { ...store, heat: -5000, start: 300, time: 100 }
    expect(() => run(calculationOf('stored-heat')!, drained)).toThrow(/below absolute zero/)
    expect(() => propagate(calculationOf('stored-heat')!, drained)).toThrow(/below absolute zero/)
  })
  it('steps one way only from the edge of where there is an answer', () => {
    const always = { supply: 12, diode: 0.8, resistance: 8, frequency: 300, duty: { value: 1, plusMinus: 0.01 } }
    const { mean } = propagate(calculationOf('pulsed-current')!, { ...always, inductance: 0.02 }).outputs
    expect(mean!.value).toBeCloseTo(12 / 8, 9)
    // dI/dD = (V + Vf)/R.
    expect(mean!.plusMinus).toBeCloseTo((12.8 / 8) * 0.01, 6)
    // With next to no inductance the current stops at any duty short of 1.
    expect(() => propagate(calculationOf('pulsed-current')!, { ...always, inductance: 1e-6, frequency: 1 })).toThrow(
      /cannot be followed/,
    )
  })
  it('refuses a negative ±, and a ± on a count', () => {
    expect(
      refusal(() => propagate(voltageDrop, { resistance: 0.01, length: { value: 3, plusMinus: -1 }, current: 1 }))
        .message,
    ).toMatch(/The ± of length is -1/)
    expect(
      refusal(() =>
        propagate(injectorDemand, {
          power: 1e5,
          specificConsumption: 8e-8,
          count: { value: 4, plusMinus: 1 },
          duty: 0.8,
        }),
      ).message,
    ).toMatch(/count is a count and has no ±/)
  })
})

suite('tables', () => {
  const sum = (text: string): string => createHash('sha256').update(text).digest('hex')
  it('stand as printed', () => {
    expect([sum(PRINTED_ISO6722), sum(PRINTED_ISO6722_MEMORY), sum(PRINTED_FAA)]).toEqual([
      CHECKSUM_ISO6722,
      CHECKSUM_ISO6722_MEMORY,
      CHECKSUM_FAA,
    ])
  })
  // References: resistance × section of ISO 6722 lies between 0.0181 and 0.0194 Ω·mm²/m. Aircraft strands hold up to 3 %
  // more metal than the gauge's solid wire (18 and 20), or less (16, 0000), and the large sizes are printed to one digit.
  it('keep to copper', () => {
    for (const { family, size, area, maximumResistance } of CONDUCTORS) {
      const product = area * 1e6 * maximumResistance
      const [least, most] = family === 'ISO 6722' ? [0.0181, 0.0195] : [0.0165, 0.0225]
      expect(product, size).toBeGreaterThan(least)
      expect(product, size).toBeLessThan(most)
    }
  })
  // Incropera & DeWitt example 9.4 [memory]: Ø 0.1 m, 165 °C in 23 °C, ε 0.85: 325 + 441 = 766 W/m.
  it('give off heat as the book’s pipe does', () => {
    const { convection, radiation } = surfaceHeat(0.1, 438.15, 296.15, 0.85)
    expect(Math.abs(convection / 325 - 1)).toBeLessThan(0.02)
    expect(Math.abs(radiation / 441 - 1)).toBeLessThan(0.005)
  })
  // Littelfuse 287 ATOF [read]: 160 % 50 s, 200 % 5 s, 350 % 0.5 s; 299 MAXI: 350 % 7 s, 600 % 1 s.
  it('open at the gates, and between them on a straight line of logarithms', () => {
    expect([1.6, 2, 3.5].map((multiple) => slowestTime('blade', multiple))).toEqual([50, 5, 0.5])
    expect([3.5, 6].map((multiple) => slowestTime('maxi', multiple))).toEqual([7, 1])
    expect(slowestTime('blade', Math.sqrt(1.6 * 2))).toBeCloseTo(Math.sqrt(50 * 5), 6)
    expect(slowestTime('blade', 1.3)).toBeUndefined()
    for (const gates of Object.values(GATES))
      for (const { shortest = 0, longest = Number.POSITIVE_INFINITY } of gates) expect(shortest).toBeLessThan(longest)
  })
})
