/** The cooling chain over the demo: what one system needs of another, the pressure-hold test, bad input. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../demo/index.ts'
import { isKnown } from '../src/assess/chain/chain.ts'
import { judgedCooling } from '../src/assess/cooling/coolingRules.ts'
import type { Build } from '../src/model/build.ts'

const changed = (change: (build: Build) => void): Build => {
  const build = demoBuild()
  change(build)
  return build
}
const figureOf = (build: Build, id: string) => {
  const figure = judgedCooling(build)
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
  judgedCooling(build).judged.find(({ finding }) => finding.rule === rule)?.finding
const unmeasured = (change: (build: Build) => void = () => {}) =>
  changed((build) => {
    delete build.collections.readings['M-31']
    change(build)
  })

describe('the chain of the demo', () => {
  it('has its stations, all figures known with their working', () => {
    const { chain } = judgedCooling(demoBuild())
    expect(chain.stations.map(({ id }) => id)).toEqual([
      'engine',
      'thermostat',
      'flow',
      'air',
      'radiator',
      'cap',
      'header',
      'hold',
    ])
    for (const { figures } of chain.stations)
      for (const { datum } of figures) expect(isKnown(datum) && datum.working.length).toBeGreaterThan(0)
  })
  it('finds the failing part by one measurement: a quarter of the air goes round the core, and the margin goes with it', () => {
    expect(ruleOf(demoBuild(), 'radiator-air')).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/Measured 0\.40 .*75 % of the 0\.53/),
    })
    expect(ruleOf(demoBuild(), 'boil-margin')?.verdict).toBe('marginal')
    expect(ruleOf(unmeasured(), 'boil-margin')?.verdict).toBe('sound')
    expect(amount(demoBuild(), 'margin')).toBeLessThan(amount(unmeasured(), 'margin') - 10)
  })
})

describe('what one system needs of another', () => {
  it('a thinner wire to the fan gives less air and a hotter engine', () => {
    const thin = unmeasured((build) => {
      for (const id of ['W-311', 'W-312']) build.collections.wires[id]!.area = { value: 1e-6 }
    })
    expect(amount(thin, 'fan-volts')).toBeLessThan(amount(unmeasured(), 'fan-volts') - 0.5)
    expect(amount(thin, 'radiator-air')).toBeLessThan(amount(unmeasured(), 'radiator-air'))
    expect(amount(thin, 'coolant')).toBeGreaterThan(amount(unmeasured(), 'coolant'))
  })
  it('the heat of the charge cooler warms the air into the radiator', () => {
    const alone = unmeasured((build) => {
      delete build.sheets.air!.chargeCooler
    })
    expect(amount(alone, 'air-in')).toBeCloseTo(303.15, 6)
    expect(amount(unmeasured(), 'air-in')).toBeGreaterThan(304)
  })
  it('altitude and a weak cap bring boiling nearer', () => {
    const high = changed((build) => {
      build.sheets.vehicle!.altitude = { value: 2500 }
    })
    expect(amount(high, 'boiling')).toBeLessThan(amount(demoBuild(), 'boiling') - 2)
    const weak = changed((build) => {
      build.collections.readings['M-40'] = {
        id: 'M-40',
        subject: 'cap-opening-pressure',
        quantity: 'pressureGauge',
        value: 30e3,
      }
    })
    expect(figureOf(weak, 'cap-pressure').superseded).toMatchObject({ value: 1e5 })
    expect(amount(weak, 'boiling')).toBeLessThan(amount(demoBuild(), 'boiling') - 10)
  })
  it('below the thermostat’s opening the coolant stands where the thermostat holds it', () => {
    const easy = unmeasured((build) => {
      build.sheets.cooling!.sustainedPower = { value: 8e3 }
    })
    expect(amount(easy, 'radiator-in')).toBeLessThan(355)
    expect(amount(easy, 'coolant')).toBeCloseTo(360.15, 6)
    // What it holds for good is a trait of the car, not of the climb it was asked about nor of the thermostat.
    expect(amount(easy, 'capacity') / amount(unmeasured(), 'capacity')).toBeCloseTo(1, 2)
  })
  it('a share of the heat that is not entered is wider at part load, where sources differ', () => {
    const shareOf = (power: number) => {
      const { datum } = figureOf(
        unmeasured((build) => {
          delete build.sheets.cooling!.heatShare
          build.sheets.cooling!.sustainedPower = { value: power }
        }),
        'share',
      )
      if (!isKnown(datum)) throw new Error('share')
      return [datum.value - datum.plusMinus, datum.value + datum.plusMinus]
    }
    // Heywood, 17 to 26 % at maximum power; to 35 % at low speed by a textbook's balance.
    expect(shareOf(150e3)).toEqual([expect.closeTo(0.17), expect.closeTo(0.26)])
    expect(shareOf(45e3)).toEqual([expect.closeTo(0.17), expect.closeTo(0.35)])
  })
  it('a header that the coolant fills is told, not reckoned on', () => {
    const full = unmeasured((build) => {
      build.sheets.cooling!.headerSpace = { value: 3e-4 }
    })
    expect(figureOf(full, 'header-pressure').datum).toMatchObject({
      problems: [{ code: 'header-full', says: expect.stringMatching(/grows by more than the header has room for/) }],
    })
    expect(ruleOf(full, 'header-room')).toMatchObject({ verdict: 'marginal', says: expect.stringMatching(/pushes/) })
  })
})

describe('pressure-hold test', () => {
  const held = (change: (hold: NonNullable<NonNullable<Build['sheets']['cooling']>['hold']>) => void) =>
    changed((build) => change(build.sheets.cooling!.hold!))
  const answerOf = (build: Build) => judgedCooling(build).chain.hold
  it('names a rate only with the trapped gas volume and the give of the hoses', () => {
    expect(ruleOf(demoBuild(), 'pressure-hold')?.says).toMatch(/not tight.*As liquid 2\d\d ml\/h ± \d/)
    for (const datum of ['gasVolume', 'hoseGive'] as const) {
      const build = held((hold) => {
        delete hold[datum]
      })
      expect(isKnown(answerOf(build)!.rate)).toBe(false)
      expect(ruleOf(build, 'pressure-hold')?.says).not.toMatch(/ml\/h/)
    }
  })
  it('without them: not tight on a great fall at steady temperature, tight on none, else it cannot tell', () => {
    const plain = (end: number, endTemperature = 291.15, pressure = 0.9e5) =>
      answerOf(
        held((hold) => {
          delete hold.gasVolume
          hold.startPressure = { value: pressure, plusMinus: 500 }
          hold.endPressure = { value: end, plusMinus: 500 }
          hold.endTemperature = { value: endTemperature, plusMinus: 0.3 }
        }),
      )
    expect(plain(0.7e5)?.answer).toBe('not tight')
    expect(plain(0.9e5)?.answer).toBe('tight')
    expect(plain(0.86e5)?.answer).toBe('cannot tell')
    // Shrinking coolant alone takes that pressure.
    expect(plain(0.7e5, 287.15)?.answer).toBe('cannot tell')
    expect(plain(0.7e5, 287.15)?.next).toMatch(/trapped gas volume/)
  })
  it('no leak within the ± says so, with the least it would show', () => {
    const found = answerOf(
      held((hold) => {
        hold.endPressure = { value: 0.895e5, plusMinus: 1000 }
      }),
    )
    expect(found?.answer).toBe('tight')
    expect(found?.because).toMatch(/one of \d+ ml\/h would/)
  })
  it('a test above the cap’s pressure, or warm, is told as wrong', () => {
    const over = held((hold) => {
      hold.startPressure = { value: 1.3e5 }
    })
    expect(ruleOf(over, 'pressure-hold')?.says).toMatch(/never test above what the cap holds/)
    const warm = held((hold) => {
      hold.startTemperature = { value: 320 }
      hold.endTemperature = { value: 319 }
    })
    expect(ruleOf(warm, 'pressure-hold')).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/test it cold, and never open it hot/),
    })
  })
})

describe('bad input', () => {
  it('a fan curve that rises is refused with its likely cause', () => {
    const build = unmeasured((to) => {
      to.sheets.cooling!.fanCurve = [
        [{ value: 20 }, { value: 0.1 }],
        [{ value: 120 }, { value: 0.6 }],
      ]
    })
    expect(ruleOf(build, 'radiator-air')).toMatchObject({
      verdict: 'unknown',
      says: expect.stringMatching(/swapped, or a point belongs to another voltage/),
    })
  })
  it('a consumption that makes more work than its fuel holds is refused with its likely cause', () => {
    const build = changed((to) => {
      to.sheets.fuel!.fuel = 'methanol'
      to.sheets.fuel!.specificConsumption = { value: 4.2e-8 }
    })
    expect(ruleOf(build, 'boil-margin')).toMatchObject({
      verdict: 'unknown',
      says: expect.stringMatching(/efficiency over 1/),
    })
  })
  it('coolant colder than the day on a climb is told', () => {
    const build = changed((to) => {
      to.collections.readings['M-41'] = {
        id: 'M-41',
        subject: 'coolant-temperature-climb',
        quantity: 'temperature',
        value: 290,
      }
    })
    expect(ruleOf(build, 'cooling-readings')?.says).toMatch(/colder than the air outside/)
  })
})

it('no finding asks for a hot system to be opened, and half a build names what it lacks', () => {
  for (const build of [demoBuild(), halfBuild()])
    for (const { finding } of judgedCooling(build).judged) {
      expect(finding.cautions.join(' ')).toMatch(/[Nn]ever open/)
      if (finding.verdict === 'unknown') expect(finding.missing).toMatch(/\S/)
    }
})
