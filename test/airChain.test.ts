/** The air chain over the demo: what one system needs of another, readings over figures, and bad input. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../demo/index.ts'
import { judgedAir } from '../src/assess/air/airRules.ts'
import { assess } from '../src/assess/assess.ts'
import { isKnown } from '../src/assess/chain/chain.ts'
import { coolingChainOf } from '../src/assess/cooling/chain.ts'
import { type Build, emptyBuild } from '../src/model/build.ts'

const changed = (change: (build: Build) => void): Build => {
  const build = demoBuild()
  change(build)
  return build
}
const figureOf = (build: Build, id: string) => {
  const figure = judgedAir(build)
    .chain.stations.flatMap(({ figures }) => figures)
    .find((each) => each.id === id)
  if (figure === undefined) throw new Error(`no figure ${id}`)
  return figure
}
const amount = (build: Build, id: string): number => {
  const { datum } = figureOf(build, id)
  if (!isKnown(datum)) throw new Error(`${id} is not known: ${JSON.stringify(datum)}`)
  return datum.value
}
const ruleOf = (build: Build, rule: string) =>
  judgedAir(build).judged.find(({ finding }) => finding.rule === rule)?.finding
const without = (...ids: readonly string[]) =>
  changed((build) => {
    for (const id of ids) delete build.collections.readings[id]
  })

describe('the chain of the demo', () => {
  it('goes from outside to the cylinders, water beside it, each station with its figures', () => {
    const { chain } = judgedAir(demoBuild())
    expect(chain.stations.map(({ id }) => id)).toEqual([
      'outside',
      'intake',
      'filter',
      'compressor',
      'cooler',
      'loop',
      'front',
      'store',
      'charge-pipe',
      'engine',
    ])
    for (const { figures } of chain.stations) expect(figures.every(({ datum }) => isKnown(datum))).toBe(true)
    for (const { figures } of chain.stations)
      for (const { datum } of figures) expect(isKnown(datum) && datum.working.length).toBeGreaterThan(0)
  })
  it('finds the failing part by one measurement: water at 57 % of the pump’s flow, volts in order', () => {
    expect(ruleOf(demoBuild(), 'charge-water-flow')).toMatchObject({
      verdict: 'marginal',
      todo: expect.stringMatching(/bleed the loop/),
    })
    expect(ruleOf(without('M-30'), 'charge-water-flow')?.verdict).toBe('sound')
  })
  it('the measured effectiveness stands in place of the reckoned one, and costs the target power', () => {
    const figure = figureOf(demoBuild(), 'effectiveness')
    expect(figure).toMatchObject({ origin: 'measured', reading: 'M-1', datum: { value: 0.52 } })
    expect(figure.superseded && isKnown(figure.superseded) && figure.superseded.value).toBeGreaterThan(0.7)
    expect(ruleOf(demoBuild(), 'air-supports-power')?.verdict).toBe('marginal')
    const mended = without('M-1', 'M-30', 'M-2')
    expect(ruleOf(mended, 'air-supports-power')?.verdict).toBe('sound')
    expect(amount(mended, 'charge-out')).toBeLessThan(amount(demoBuild(), 'charge-out') - 5)
  })
})

describe('what one system needs of another', () => {
  it('a thinner wire to the water pump gives fewer volts, less water, a lower effectiveness and warmer water', () => {
    const thin = without('M-1', 'M-2', 'M-30')
    for (const id of ['W-322', 'W-323', 'W-324']) thin.collections.wires[id]!.area = { value: 0.35e-6 }
    const stock = without('M-1', 'M-2', 'M-30')
    expect(amount(thin, 'pump-volts')).toBeLessThan(amount(stock, 'pump-volts') - 0.3)
    expect(amount(thin, 'loop-flow') / amount(stock, 'loop-flow')).toBeCloseTo(
      amount(thin, 'pump-volts') / amount(stock, 'pump-volts'),
      9,
    )
    expect(amount(thin, 'effectiveness')).toBeLessThan(amount(stock, 'effectiveness'))
    expect(amount(thin, 'water-rise')).toBeGreaterThan(amount(stock, 'water-rise'))
  })
  it('lambda of the fuel sheet makes the air, and never more fuel', () => {
    const leaner = changed((build) => {
      build.sheets.fuel!.lambda = { value: 0.9 }
    })
    expect(amount(leaner, 'air-needed') / amount(demoBuild(), 'air-needed')).toBeCloseTo(0.9 / 0.82, 9)
  })
  it('altitude thins the air and takes power', () => {
    const high = changed((build) => {
      build.sheets.vehicle!.altitude = { value: 2000 }
    })
    expect(amount(high, 'power')).toBeLessThan(0.9 * amount(demoBuild(), 'power'))
  })
})

describe('heat stored in the water', () => {
  it('a short pull stays cooler than steady load, and nears it with time', () => {
    const pull = (seconds: number) =>
      changed((build) => {
        build.sheets.air!.pull = { value: seconds }
        for (const id of ['M-1', 'M-2', 'M-30']) delete build.collections.readings[id]
      })
    expect(amount(pull(5), 'charge-after-pull')).toBeLessThan(amount(pull(5), 'charge-out') - 5)
    expect(amount(pull(5), 'water-after-pull')).toBeLessThan(amount(pull(30), 'water-after-pull'))
    const steady = pull(3000)
    expect(Math.abs(amount(steady, 'charge-after-pull') - amount(steady, 'charge-out'))).toBeLessThan(0.5)
  })
})

describe('bad input', () => {
  const reading = (subject: string, quantity: string, value: number) =>
    changed((build) => {
      build.collections.readings['M-9'] = { id: 'M-9', subject, quantity, value, when: '2026-01-01T00:00:00Z' }
    })
  it('an effectiveness over 1 is told as swapped or heat-soaked sensors, and gives no charge temperature', () => {
    const build = reading('charge-cooler-effectiveness', 'ratio', 1.2)
    expect(ruleOf(build, 'charge-cooler-effectiveness')?.says).toMatch(/two sensors are swapped, or soaked with heat/)
    expect(ruleOf(build, 'charge-temperature')).toMatchObject({
      verdict: 'unknown',
      says: expect.stringMatching(/over 1: two sensors swapped/),
    })
  })
  it('water hotter than the charge is told as swapped sensors', () => {
    expect(ruleOf(reading('charge-cooler-water-in', 'temperature', 450), 'charge-temperature')?.says).toMatch(
      /outside|swapped/,
    )
    expect(ruleOf(reading('charge-cooler-water-in', 'temperature', 410), 'charge-temperature')?.says).toMatch(/swapped/)
  })
  it('a charge cooler than loss-free compression is no reading of a compressor', () => {
    const build = reading('charge-temperature-before-cooler', 'temperature', 345)
    expect(ruleOf(build, 'charge-reading-impossible')?.says).toMatch(/efficiency 1\d\d %/)
    expect(ruleOf(demoBuild(), 'charge-reading-impossible')).toBeUndefined()
  })
  it('intake air colder than the day is told', () => {
    expect(ruleOf(reading('intake-air-temperature', 'temperature', 280), 'intake-heat-soak')?.says).toMatch(
      /colder than the air outside/,
    )
    expect(ruleOf(reading('intake-air-temperature', 'temperature', 335), 'intake-heat-soak')).toMatchObject({
      verdict: 'marginal',
      todo: expect.stringMatching(/before the radiator/),
    })
  })
  it('a barometer stands in place of the standard atmosphere, for air and cooling alike', () => {
    const low = reading('outside-pressure', 'pressureAbsolute', 93e3)
    expect(amount(low, 'outside-pressure')).toBe(93e3)
    expect(figureOf(low, 'outside-pressure').superseded).toMatchObject({
      value: amount(demoBuild(), 'outside-pressure'),
    })
    expect(amount(low, 'power')).toBeLessThan(amount(demoBuild(), 'power') * 0.98)
    expect(coolingChainOf(low).facts.outsidePressure).toMatchObject({ value: 93e3 })
  })
  it('a reading of another kind of quantity is none of this subject', () => {
    expect(amount(reading('intake-air-temperature', 'ratio', 5), 'intake-temperature')).toBeCloseTo(305.15, 9)
  })
})

describe('other builds', () => {
  it('air to air takes the air into the front as its cold reference', () => {
    const build = changed((to) => {
      to.sheets.air!.chargeCooler = {
        kind: 'air to air',
        coldReference: 'ambient air',
        conductance: { value: 300 },
        coldAirFlow: { value: 0.5 },
        chargeLoss: { value: 5000 },
      }
      delete to.collections.readings['M-1']
    })
    const { chain } = judgedAir(build)
    expect(chain.stations.some(({ line }) => line === 'water')).toBe(false)
    // Crossflow, N = 300/155.4 = 1.93, Cr = 155/539 = 0.29: 0.78 by the series.
    expect(amount(build, 'effectiveness')).toBeCloseTo(0.78, 2)
    expect(amount(build, 'cold-reference')).toBeCloseTo(303.15, 6)
  })
  it('an engine that draws without a charger has neither compressor nor cooler', () => {
    const { chain, judged } = judgedAir(soundBuild())
    expect(chain.stations.map(({ id }) => id)).toEqual(['outside', 'intake', 'filter', 'engine'])
    expect(judged.filter(({ finding }) => finding.verdict === 'no-go')).toEqual([])
  })
  it('what is missing is named, on half a build; an empty one is left alone', () => {
    const found = judgedAir(halfBuild()).judged.map(({ finding }) => finding)
    for (const { verdict, missing } of found) if (verdict === 'unknown') expect(missing).toMatch(/\S/)
    expect(judgedAir(emptyBuild('New')).judged).toEqual([])
    expect(assess(emptyBuild('New')).findings.filter(({ system }) => system === 'air' || system === 'cooling')).toEqual(
      [],
    )
  })
})
