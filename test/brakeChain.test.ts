/** The brakes over the demo: pedal-force sheet, vacuum circuit and job list move together; what cannot be told is named. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../demo/index.ts'
import { assess } from '../src/assess/assess.ts'
import { isAdhesion } from '../src/assess/brakes/adhesion.ts'
import { judgedBrakes } from '../src/assess/brakes/brakeRules.ts'
import type { BrakeCase } from '../src/assess/brakes/chain.ts'
import { STATES } from '../src/assess/brakes/states.ts'
import { isKnown } from '../src/assess/chain/chain.ts'
import { closeAnswered, jobFromFinding } from '../src/assess/jobs.ts'
import { type Build, emptyBuild } from '../src/model/build.ts'
import { applyChanges } from '../src/model/read.ts'

const changed = (change: (build: Build) => void, make = demoBuild): Build => {
  const build = make()
  change(build)
  return build
}
const amount = (build: Build, id: string, chosen?: BrakeCase): number => {
  const figure = judgedBrakes(build, chosen)
    .chain.stations.flatMap(({ figures }) => figures)
    .find((each) => each.id === id)
  if (!figure || !isKnown(figure.datum)) throw new Error(`${id} is not known: ${JSON.stringify(figure?.datum)}`)
  return figure.datum.value
}
const ruleOf = (build: Build, rule: string, part?: string) =>
  judgedBrakes(build).judged.find(
    ({ finding }) => finding.rule === rule && (part === undefined || finding.key.endsWith(`.${part}`)),
  )?.finding
const LADEN: BrakeCase = { load: 'laden', state: 'all working' }

describe('the chain of the demo', () => {
  it('has its stations in the order of the force, every figure known with its working, in every case', () => {
    const { chain } = judgedBrakes(demoBuild())
    expect(chain.stations.map(({ id }) => id)).toEqual([
      'pedal',
      'servo',
      'vacuum',
      'master',
      'travel',
      'circuits',
      'front',
      'rear',
      'tyres',
      'heat',
      'fluid',
      'parking',
    ])
    for (const state of STATES)
      for (const load of ['driver only', 'laden'] as const)
        for (const { figures } of judgedBrakes(demoBuild(), { load, state }).chain.stations)
          for (const { id, datum } of figures)
            expect(isKnown(datum) && datum.working.length, `${state} ${id}`).toBeGreaterThan(0)
  })
  it('carries the force through: pedal × ratio + help is pressure × bore, and the axles’ forces are mass × deceleration', () => {
    const build = demoBuild()
    const bore = (Math.PI / 4) * 0.0222 ** 2
    expect(amount(build, 'force') * 4.2 + amount(build, 'servo-help')).toBeCloseTo(amount(build, 'line') * bore, 6)
    expect(amount(build, 'front-road') + amount(build, 'rear-road')).toBeCloseTo(1330 * 5, 6)
    expect(amount(build, 'front-load') + amount(build, 'rear-load')).toBeCloseTo(1330 * 9.80665, 6)
    expect(amount(build, 'front-torque')).toBeCloseTo((amount(build, 'front-road') * 0.312) / 2, 6)
  })
  it('says at best that the arithmetic holds, and asks for a qualified person', () => {
    for (const { finding } of judgedBrakes(demoBuild()).judged) {
      expect(finding.says).not.toMatch(/\b(safe|sound|OK|fine)\b(?! side)/)
      expect(finding.cautions.join()).toMatch(/qualified person must inspect/)
      if (finding.verdict === 'sound')
        expect(finding.says).toMatch(/The arithmetic holds; a qualified person must inspect/)
    }
  })
})

describe('a change to the brake hydraulics', () => {
  const bored = changed((build) => {
    build.sheets.brakes!.masterCylinder = { value: 0.02857 }
  })
  it('changes the pedal-force sheet in every state', () => {
    const [before, after] = [demoBuild(), bored].map((build) => judgedBrakes(build).chain.sheet)
    before!.forEach((row, index) => {
      const other = after![index]!
      if (!isKnown(row.force) || !isKnown(other.force)) throw new Error('not known')
      expect(other.force.value).toBeGreaterThan(row.force.value * 1.5)
    })
  })
  it('changes the vacuum circuit: the stop needs more vacuum, and the help of a stalled engine is used up sooner', () => {
    expect(amount(bored, 'vacuum-needed', LADEN)).toBeCloseTo(
      amount(demoBuild(), 'vacuum-needed', LADEN) * (28.57 / 22.2) ** 2,
      3,
    )
    const forces = (build: Build) =>
      judgedBrakes(build).chain.stalled!.map(({ force }) => (isKnown(force) ? force.value : Number.NaN))
    expect(forces(bored)[1]).toBeGreaterThan(forces(demoBuild())[1]! * 1.5)
    expect(ruleOf(bored, 'brake-stalled')!.says).toMatch(/firm stop after firm stop: \d+, /)
  })
  it('changes the job list: its finding becomes a job, which closes by itself once the bore is put back', () => {
    const worse = assess(bored).findings.find(({ key }) => key === 'brake-pedal-force:sheet/brakes.first-circuit')!
    expect(worse.verdict).toBe('no-go')
    expect(worse.todo).toMatch(/Of the usual bores 2\d\.\d mm would, with 1\.\d+ times the pedal travel|No usual bore/)
    const job = { ...jobFromFinding(worse), id: 'J-bore' }
    expect(job.cautions?.join()).toMatch(/qualified person/)
    const planned = applyChanges(bored, [{ collection: 'jobs', id: job.id, value: job }])
    const still = closeAnswered(planned, assess(planned).findings)
    expect(still?.changes.some((change) => 'id' in change && change.id === 'J-bore') ?? false).toBe(false)
    const mended = changed(
      (build) => {
        build.sheets.brakes!.masterCylinder = { value: 0.01905 }
      },
      () => structuredClone(planned),
    )
    expect(closeAnswered(mended, assess(mended).findings)!.changes).toContainEqual(
      expect.objectContaining({ id: 'J-bore', value: expect.objectContaining({ status: 'closed' }) }),
    )
  })
})

describe('order of lock', () => {
  it('larger wheel cylinders at the rear make it lock first, and that is a no-go', () => {
    const rear = changed((build) => {
      build.sheets.brakes!.rearPistonArea = { value: 5e-4 }
    })
    const found = ruleOf(rear, 'brake-balance')!
    expect(found.verdict).toBe('no-go')
    expect(found.says).toMatch(/Driver only: the rear locks first between .* UN R13 allows none between 0\.15 and 0\.5/)
  })
  it('a valve that begins early gives the front back the first lock', () => {
    const valved = changed((build) => {
      build.sheets.brakes!.rearPistonArea = { value: 5e-4 }
      build.sheets.brakes!.valve = { kind: 'fixed', split: { value: 1e6 }, slope: { value: 0.2 } }
    })
    expect(ruleOf(valved, 'brake-balance')!.verdict).not.toBe('no-go')
  })
  it('lies on the even line where the shares are those of the loads', () => {
    const found = judgedBrakes(demoBuild()).chain.adhesion['driver only']
    if (!isAdhesion(found)) throw new Error('not known')
    for (const { rate, front, rear } of found.points) {
      // What both axles use, weighed by their loads, is the braking rate.
      const load = (720 * 9.80665 + (1330 * 9.80665 * rate * 0.66) / 2.69) / (1330 * 9.80665)
      expect(front * load + rear * (1 - load)).toBeCloseTo(rate, 9)
    }
  })
  it('is left to a brake specialist where an anti-lock unit is fitted', () => {
    const unit = changed((build) => {
      build.sheets.brakes!.antiLock = true
    })
    expect(ruleOf(unit, 'brake-balance')).toMatchObject({
      verdict: 'unknown',
      missing: 'the judgement of a brake specialist',
    })
    expect(ruleOf(unit, 'brake-anti-lock')!.says).toMatch(/not sized, altered or probed here/)
  })
})

describe('the vacuum circuit', () => {
  const withServo = (change: Record<string, unknown>): Build =>
    changed((build) => {
      const [servo, ...others] = build.sheets.vacuum!.users!
      build.sheets.vacuum!.users = [{ ...servo!, ...change }, ...others]
    })
  it('without a check valve a boosted engine’s port is a no-go, and the stop straight off boost has no help', () => {
    const bare = withServo({ checkValve: false })
    expect(ruleOf(bare, 'vacuum-servo')).toMatchObject({ verdict: 'no-go', says: expect.stringMatching(/sees boost/) })
    expect(amount(bare, 'servo-help', { load: 'laden', state: 'on boost' })).toBe(0)
    expect(amount(demoBuild(), 'servo-help', { load: 'laden', state: 'on boost' })).toBeGreaterThan(1000)
  })
  it('a shared port, a blanked port and a cap only pushed on are found', () => {
    expect(ruleOf(withServo({ port: 'Plenum, front' }), 'vacuum-servo')).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/shares Plenum, front with Compressor bypass valve/),
    })
    expect(ruleOf(withServo({ port: 'Donor purge' }), 'vacuum-servo')!.verdict).toBe('no-go')
    expect(ruleOf(demoBuild(), 'vacuum-blanked')!.verdict).toBe('marginal')
  })
  it('a reservoir makes the help of a stalled engine last, altitude takes from it', () => {
    const reserve = changed((build) => {
      build.sheets.vacuum!.reservoir = { value: 0.006 }
    })
    const third = (build: Build) => {
      const force = judgedBrakes(build).chain.stalled![3]!.force
      return isKnown(force) ? force.value : Number.NaN
    }
    expect(third(reserve)).toBeLessThan(third(demoBuild()) - 20)
    const high = changed((build) => {
      build.sheets.vehicle!.altitude = { value: 2500 }
    })
    expect(amount(high, 'servo-greatest', { load: 'laden', state: 'at altitude' })).toBeLessThan(
      amount(demoBuild(), 'servo-greatest', LADEN) - 300,
    )
  })
})

describe('pedal travel', () => {
  const withTravel = (change: Record<string, unknown>): Build =>
    changed((build) => {
      Object.assign(build.sheets.brakes!.travel!, change)
    })
  const FRONT_EMPTY: BrakeCase = { load: 'laden', state: 'first circuit failed' }
  it('is pedal ratio × (idle way + fluid / piston area), and an empty chamber is run through first', () => {
    const build = demoBuild()
    const area = (Math.PI / 4) * 0.0222 ** 2
    const touch = 2 * 22.9e-4 * 0.5e-3 + 2 * 2.4e-4 * 1.4e-3
    expect(amount(build, 'first-touch', LADEN)).toBeCloseTo(4.2 * (1.8e-3 + touch / area), 9)
    const fluid = amount(build, 'front-fluid', LADEN) + amount(build, 'rear-fluid', LADEN)
    expect(amount(build, 'pedal-travel', LADEN)).toBeCloseTo(4.2 * (1.8e-3 + fluid / area), 9)
    // The push rod's chamber feeds the front: 36 − 16 mm.
    expect(amount(build, 'lost-stroke', FRONT_EMPTY)).toBeCloseTo(0.02, 12)
    expect(amount(build, 'front-fluid', FRONT_EMPTY)).toBe(0)
  })
  it('tells a cylinder that bottoms with a circuit empty, a chamber too short, and a pedal that meets the floor', () => {
    const loose = withTravel({ rearClearance: { value: 9.9e-3 } })
    expect(ruleOf(loose, 'brake-travel', 'first-circuit')).toMatchObject({
      verdict: 'no-go',
      says: expect.stringMatching(/The master cylinder bottoms before that pressure is reached/),
    })
    const short = withTravel({ floatingStroke: { value: 3e-3 } })
    expect(ruleOf(short, 'brake-travel', 'working')).toMatchObject({
      verdict: 'no-go',
      says: expect.stringMatching(/In the rear circuit’s chamber the piston bottoms/),
    })
    const floor = withTravel({ pedal: { value: 0.09 } })
    expect(ruleOf(floor, 'brake-travel', 'working')!.verdict).toBe('sound')
    expect(ruleOf(floor, 'brake-travel', 'first-circuit')!.says).toMatch(
      /The pedal meets what stops it, after 90\.0 mm/,
    )
  })
  it('names what it lacks once, and refuses a chamber longer than the cylinder', () => {
    const bare = changed((build) => {
      delete build.sheets.brakes!.travel
    })
    expect(ruleOf(bare, 'brake-travel', 'working')).toMatchObject({
      verdict: 'unknown',
      missing: expect.stringMatching(/play of the push rod.*stroke of the master cylinder.*floating piston’s chamber/),
    })
    expect(ruleOf(bare, 'brake-travel', 'first-circuit')).toBeUndefined()
    expect(ruleOf(withTravel({ floatingStroke: { value: 0.05 } }), 'brake-travel', 'working')!.missing).toMatch(
      /less than the whole stroke/,
    )
  })
  it('with diagonal circuits thinks the longer chamber empty and half of each axle at work', () => {
    const build = changed((each) => {
      each.sheets.brakes!.circuits = 'diagonal'
    })
    expect(amount(build, 'lost-stroke', FRONT_EMPTY)).toBeCloseTo(0.02, 12)
    expect(amount(build, 'front-fluid', FRONT_EMPTY)).toBeGreaterThan(22.9e-4 * 0.5e-3)
  })
})

describe('the parking brake', () => {
  const withParking = (change: Record<string, unknown>): Build =>
    changed((build) => {
      Object.assign(build.sheets.brakes!.parking!, change)
    })
  it('takes from the grip what the slope pulls: needed × efficiency at the limit is the slope’s share of the weight', () => {
    const build = demoBuild()
    expect(amount(build, 'parking-needed') * amount(build, 'parking-efficiency')).toBeCloseTo(
      (600 * 0.18) / Math.sqrt(1 + 0.18 ** 2),
      9,
    )
    // Facing downhill the rear is lighter, and slides on a lesser slope.
    expect(amount(build, 'slides-downhill')).toBeLessThan(amount(build, 'slides-uphill'))
  })
  it('is a no-go where the hand is too weak, or where the rear tyres slide first', () => {
    expect(ruleOf(withParking({ force: { value: 150 } }), 'brake-parking')).toMatchObject({
      verdict: 'no-go',
      todo: expect.stringMatching(/More ratio at the lever/),
    })
    expect(ruleOf(withParking({ gradient: { value: 0.45 }, wheel: { value: 4 } }), 'brake-parking')).toMatchObject({
      verdict: 'no-go',
      says: expect.stringMatching(/There the tyres give out/),
    })
  })
  it('that pulls with more than the weight is judged by the tyres, no gradient being its own', () => {
    const found = ruleOf(withParking({ wheel: { value: 20 } }), 'brake-parking')!
    expect(found.verdict).toBe('sound')
    expect(found.says).toMatch(/pulls with more than the weight/)
  })
  it('asks for the other shoes’ factor where it cannot be that of the rear brakes', () => {
    const leading = changed((build) => {
      build.sheets.brakes!.rearShoes!.kind = 'two leading'
    })
    expect(ruleOf(leading, 'brake-parking')!.missing).toMatch(/two leading shoes when they turn backwards/)
    expect(ruleOf(withParking({ radius: { value: 0.09 } }), 'brake-parking')!.missing).toMatch(/own shoes/)
    expect(ruleOf(withParking({ by: undefined }), 'brake-parking')!.missing).toMatch(/whether hand or foot/)
  })
})

describe('the brake fluid', () => {
  const withFluid = (fluid: NonNullable<Build['sheets']['brakes']>['fluid']): Build =>
    changed((build) => {
      build.sheets.brakes!.fluid = fluid
    })
  it('is unknown without a measured temperature, however hot the iron, and says how to measure it', () => {
    const found = ruleOf(withFluid({ kind: 'DOT 3', age: 'up to two years' }), 'brake-fluid')!
    expect(found).toMatchObject({ verdict: 'unknown', missing: expect.stringMatching(/hottest brake fluid, measured/) })
    expect(found.says).toMatch(
      /boils at 140 °C or above.*iron is the hotter.*How much of it reaches the fluid is not reckoned/,
    )
    expect(found.todo).toMatch(/temperature paint or a thermocouple/)
    expect(ruleOf(withFluid(undefined), 'brake-fluid')!.missing).toMatch(
      /kind of brake fluid.*age.*hottest brake fluid/,
    )
  })
  it('is judged by what was measured: dry, wet, old, tested', () => {
    const temperature = { value: 273.15 + 160 }
    const verdict = (fluid: Parameters<typeof withFluid>[0]) => ruleOf(withFluid(fluid), 'brake-fluid')!.verdict
    expect(verdict({ kind: 'DOT 4', age: 'up to two years', temperature })).toBe('no-go')
    expect(verdict({ kind: 'DOT 4', age: 'just filled', temperature })).toBe('sound')
    expect(verdict({ kind: 'DOT 5.1', age: 'more than two years', temperature })).toBe('marginal')
    expect(verdict({ kind: 'other', temperature, boiling: { value: 273.15 + 162, plusMinus: 5 } })).toBe('marginal')
    expect(verdict({ kind: 'other', temperature })).toBe('unknown')
  })
})

describe('what is missing', () => {
  it('is named: half the data, none, and a car with only its brakes entered', () => {
    for (const { finding } of judgedBrakes(halfBuild()).judged) {
      expect(finding.says).not.toMatch(/NaN|undefined|\[object/)
      if (finding.verdict === 'unknown') expect(finding.missing).toMatch(/\S/)
    }
    expect(ruleOf(halfBuild(), 'brake-pedal-force', 'working')).toMatchObject({
      verdict: 'unknown',
      missing: expect.stringMatching(/mass on the front axle|bore|pedal ratio|friction/),
    })
    expect(judgedBrakes(emptyBuild('empty')).judged).toEqual([])
    const alone = changed((build) => {
      delete build.sheets.vehicle
      delete build.sheets.vacuum
    })
    expect(ruleOf(alone, 'brake-pedal-force', 'working')!.missing).toMatch(/mass on the front axle.*inspection/)
    expect(ruleOf(alone, 'vacuum-servo')).toMatchObject({ missing: 'which vacuum user is the servo' })
  })
  it('a cylinder wider than there is, is told as out of range', () => {
    const wrong = changed((build) => {
      build.sheets.brakes!.masterCylinder = { value: 0.222 }
    })
    expect(ruleOf(wrong, 'brake-pedal-force', 'working')!.says).toMatch(/bore 0\.222 m is outside 0\.01 … 0\.06 m/)
  })
})

it('the tug without a servo holds by its own inspection’s figures', () => {
  const found = judgedBrakes(soundBuild()).judged.map(({ finding }) => finding)
  expect(found.filter(({ verdict }) => verdict !== 'sound')).toEqual([])
  expect(found[0]!.says).toMatch(/for 3\.92 m\/s².*of 600 N allowed/)
})
