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
      'circuits',
      'front',
      'rear',
      'tyres',
      'heat',
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
