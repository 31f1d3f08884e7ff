/** The driveline over the demo: what each part sees in one currency, what the tyres decide, and what cannot be told. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../demo/index.ts'
import { isKnown } from '../src/assess/chain/chain.ts'
import type { DrivelineCase } from '../src/assess/driveline/chain.ts'
import { judgedDriveline } from '../src/assess/driveline/drivelineRules.ts'
import { closeAnswered, jobFromFinding } from '../src/assess/jobs.ts'
import { type Build, emptyBuild } from '../src/model/build.ts'
import { applyChanges } from '../src/model/read.ts'

const changed = (change: (sheet: NonNullable<Build['sheets']['driveline']>, build: Build) => void): Build => {
  const build = demoBuild()
  change(build.sheets.driveline!, build)
  return build
}
const amount = (build: Build, id: string, chosen?: DrivelineCase): number => {
  const figure = judgedDriveline(build, chosen)
    .chain.stations.flatMap(({ figures }) => figures)
    .find((each) => each.id === id)
  if (!figure || !isKnown(figure.datum)) throw new Error(`${id} is not known: ${JSON.stringify(figure?.datum)}`)
  return figure.datum.value
}
const ruleOf = (build: Build, rule: string, part?: string) => {
  const found = judgedDriveline(build).judged.find(
    ({ finding }) => finding.rule === rule && (part === undefined || finding.key.endsWith(`.${part}`)),
  )?.finding
  if (!found) throw new Error(`no finding of ${rule}`)
  return found
}
const DEGREE = Math.PI / 180
const FIRST_ALONE: DrivelineCase = { gear: 0, load: 'driver only' }

describe('the chain of the demo', () => {
  it('has its stations from the crankshaft to the road, every figure known with its working, in every gear and load', () => {
    for (const load of ['driver only', 'laden'] as const)
      for (let gear = 0; gear < 5; gear += 1) {
        const { chain } = judgedDriveline(demoBuild(), { gear, load })
        expect(chain.stations.map(({ id }) => id).join(' ')).toBe(
          'crank clutch gearbox mounts shaft joints axle tyres road scales tilt swap',
        )
        for (const { figures } of chain.stations)
          for (const { id, datum } of figures)
            expect(isKnown(datum) && datum.working.length, `${load} ${gear} ${id}`).toBeGreaterThan(0)
      }
  })
  it('multiplies by gear and final drive, and never past what the tyres pass', () => {
    const build = demoBuild()
    // 850 N/kN of grip on 610 kg, with the load that moves back: worked by hand in the sheet of the test.
    const lean = (0.85 * 0.66) / 2.69
    const grip = ((0.85 * 9.80665 * 610) / (1 - lean)) * 0.312
    expect(amount(build, 'grip-torque', FIRST_ALONE)).toBeCloseTo(grip, 6)
    expect(amount(build, 'at-axle', FIRST_ALONE)).toBeCloseTo(grip, 6)
    expect(amount(build, 'through', FIRST_ALONE)).toBeCloseTo(grip / (3.65 * 3.9), 6)
    const third: DrivelineCase = { gear: 2, load: 'driver only' }
    expect(amount(build, 'at-axle', third)).toBeCloseTo(300 * 1.37 * 3.9, 6)
  })
  it('holds every part against one currency: in first gear, laden, the axle gives out first, at rating over both ratios', () => {
    const { chain } = judgedDriveline(demoBuild())
    expect(chain.case).toEqual({ gear: 0, load: 'laden' })
    expect(chain.weakest).toBe('axle')
    expect(amount(demoBuild(), 'axle-capacity')).toBeCloseTo(2600 / (3.65 * 3.9), 9)
    expect(judgedDriveline(demoBuild(), { gear: 4, load: 'laden' }).chain.weakest).toBe('gearbox')
  })
  it('says at best that the arithmetic holds, and asks for a qualified person', () => {
    for (const { finding } of judgedDriveline(demoBuild()).judged) {
      expect(finding.says).not.toMatch(/\b(safe|sound|OK|fine)\b/)
      expect(finding.cautions.join()).toMatch(/qualified person must inspect/)
    }
    for (const { finding } of judgedDriveline(soundBuild()).judged) expect(finding.verdict, finding.key).toBe('sound')
  })
})

describe('what the tyres decide', () => {
  it('laden, the axle gets more than its rating; with the driver alone the tyres spin first', () => {
    const found = ruleOf(demoBuild(), 'axle-torque')
    expect(found.verdict).toBe('no-go')
    expect(found.says).toMatch(/rated for 2600 N·m .* gets 4107 ± 343 N·m in 1st gear, laden: there the tyres spin/)
    expect(found.todo).toMatch(/held to 183 N·m in 1st gear/)
    const alone = changed((_sheet, build) => {
      delete build.sheets.vehicle!.ladenMass
      delete build.sheets.brakes!.ladenFrontMass
    })
    expect(ruleOf(alone, 'axle-torque').verdict).toBe('sound')
  })
  it('a dropped clutch counts up to the tyres, and is told where only it is too much', () => {
    const strong = changed((sheet) => {
      sheet.tyreGrip = { value: 1.1 }
      sheet.axleTorque = { value: 4600 }
    })
    const found = ruleOf(strong, 'axle-torque')
    expect(found.verdict).toBe('marginal')
    expect(found.says).toMatch(/A dropped clutch puts \d+ ± \d+ N·m on it for a moment/)
    expect(found.todo).toMatch(/^Never drop the clutch/)
    const mild = changed((sheet) => {
      sheet.tyreGrip = { value: 1.1 }
      sheet.axleTorque = { value: 4600 }
      sheet.shock = { value: 0.8 }
    })
    expect(ruleOf(mild, 'axle-torque').verdict).toBe('sound')
  })
})

describe('clutch and gearbox', () => {
  it('a clutch below the torque is a no-go, near it marginal, and the cover that would do is told', () => {
    const at = (value: number) =>
      ruleOf(
        changed((sheet) => {
          sheet.clutchTorque = { value, plusMinus: 10 }
        }),
        'clutch-torque',
      )
    expect(at(250).verdict).toBe('no-go')
    expect(at(250).todo).toMatch(/A cover of 1\.55 times the clamping force/)
    expect(at(305).verdict).toBe('marginal')
    expect(at(340).verdict).toBe('sound')
  })
  it('takes the clutch from clamp and lining where there is no rating, and a measured one before either', () => {
    const reckoned = changed((sheet) => {
      delete sheet.clutchTorque
    })
    expect(amount(reckoned, 'clutch-torque')).toBeCloseTo((2 * 0.36 * 5600 * (0.228 + 0.15)) / 4, 6)
    reckoned.collections.readings['M-90'] = {
      id: 'M-90',
      subject: 'clutch-torque',
      quantity: 'torque',
      value: 310,
      plusMinus: 5,
    }
    expect(amount(reckoned, 'clutch-torque')).toBe(310)
    expect(ruleOf(reckoned, 'clutch-torque').verdict).toBe('marginal')
  })
  it('with target power alone knows the least that the torque can be: enough to condemn, never to pass', () => {
    const bare = changed((sheet) => {
      delete sheet.torqueCurve
    })
    expect(amount(bare, 'engine-torque')).toBeCloseTo(150e3 / ((5600 * Math.PI) / 30), 6)
    const gearbox = ruleOf(bare, 'gearbox-torque')
    expect(gearbox).toMatchObject({ verdict: 'unknown', missing: 'greatest torque of the engine' })
    bare.sheets.driveline!.gearboxTorque = { value: 200 }
    expect(ruleOf(bare, 'gearbox-torque').verdict).toBe('no-go')
  })
})

describe('the propeller shaft', () => {
  it('whirls below the greatest speed in one piece; in two pieces or slower it keeps to three quarters', () => {
    const found = ruleOf(demoBuild(), 'propshaft-whirl')
    expect(found.verdict).toBe('no-go')
    expect(found.says).toMatch(/turns 4974 .* 109 % of the 4575 ± 60 rpm/)
    const piece = Number(/at most (\d\.\d\d) m/.exec(found.todo)![1])
    const mended = (length: number) =>
      ruleOf(
        changed((sheet) => {
          sheet.propshaftLength = { value: length }
        }),
        'propshaft-whirl',
      ).verdict
    expect(mended(piece - 0.02)).toBe('sound')
    expect(mended(piece + 0.03)).toBe('no-go')
  })
  it('of a speed that only engine and gears could give says so, and condemns nothing', () => {
    const found = ruleOf(
      changed((sheet) => {
        delete sheet.topSpeed
      }),
      'propshaft-whirl',
    )
    expect(found.verdict).toBe('marginal')
    expect(found.says).toMatch(/the car may not reach it/)
  })
  it('joints: unequal angles, yokes out of line and no angle at all are each told', () => {
    const at = (change: Parameters<typeof changed>[0]) => ruleOf(changed(change), 'joint-angles')
    const steep = at((sheet) => {
      sheet.slopes = { ...sheet.slopes!, gearbox: { value: 0.5 * DEGREE } }
    })
    expect(steep.verdict).not.toBe('sound')
    expect(steep.says).toMatch(/beyond the 4\.8 ± 0\.1° allowed even on long journeys|They differ by 2\.8°/)
    const quarter = at((sheet) => {
      sheet.phase = { value: Math.PI / 2 }
    })
    expect(quarter.says).toMatch(/2\.8 ± .*° is left behind both, of 2\.2° allowed .* 90\.0° out of phase/)
    const straight = at((sheet) => {
      delete sheet.slopes
      delete sheet.plan
      sheet.jointAngles = [{ value: 0.2 * DEGREE }, { value: 0.2 * DEGREE }]
    })
    expect(straight.says).toMatch(/less than 0\.5°: its needles do not turn/)
  })
  it('adds the angle from above to that from the side, and knows parts in two planes as out of phase', () => {
    const aside = changed((sheet) => {
      sheet.plan = { gearbox: { value: 0 }, shaft: { value: 2 * DEGREE }, axle: { value: 0 } }
    })
    expect(amount(aside, 'joint-1') / DEGREE).toBeCloseTo(Math.hypot(2.1, 2), 1)
    // From the side 2.1 and 1.8, from above 2 and 2: planes at atan(2.1/2) and atan(1.8/2), 4.4° apart.
    expect(amount(aside, 'phase') / DEGREE).toBeCloseTo(4.4, 0)
  })
  it('is no part of a car whose driven wheels are in front', () => {
    const front = changed((sheet) => {
      sheet.driven = 'front'
      sheet.engineSet = 'transverse'
      delete sheet.propshaftLength
    })
    const { chain, judged } = judgedDriveline(front)
    expect(chain.parts).toEqual(['clutch', 'gearbox', 'mounts', 'axle'])
    expect(judged.map(({ finding }) => finding.rule)).not.toContain('propshaft-whirl')
    // The mounts of a transverse engine hold the torque of the wheels.
    expect(amount(front, 'mount-torque')).toBeCloseTo(amount(front, 'at-axle'), 9)
  })
})

describe('road speed and weights', () => {
  it('tells the revs of long journeys now and before', () => {
    expect(amount(demoBuild(), 'cruise-revs') / (Math.PI / 30)).toBeCloseTo(
      ((105 / 3.6) * 3.9 * 0.82 * 30) / (0.312 * Math.PI),
      6,
    )
    expect(ruleOf(demoBuild(), 'gearing').says).toMatch(/turns 2855 ± 37 rpm; the old 1\.6 turned 3995 rpm, 29 % more/)
  })
  it('holds what was weighed against the vehicle sheet, and a twisted car against an even one', () => {
    const off = changed((_sheet, build) => {
      build.sheets.vehicle!.frontMass = { value: 650 }
      build.sheets.vehicle!.centreOfGravityHeight = { value: 0.5 }
    })
    expect(ruleOf(off, 'corner-weights')).toMatchObject({ verdict: 'marginal' })
    expect(ruleOf(off, 'corner-weights').says).toMatch(/The vehicle sheet has 650 kg on the front axle/)
    expect(ruleOf(off, 'gravity-height').todo).toMatch(/Put 0\.66 ± 0\.03 m on the vehicle sheet/)
    expect(ruleOf(off, 'axle-loads').verdict).toBe('marginal')
    const twisted = changed((sheet) => {
      sheet.corners = { ...sheet.corners!, frontLeft: { value: 330 }, frontRight: { value: 388 } }
    })
    expect(ruleOf(twisted, 'corner-weights').says).toMatch(/More than 2 % off the half/)
  })
  it('does not believe a tilt that the scales cannot tell', () => {
    const vague = ruleOf(
      changed((sheet) => {
        sheet.tilt = { ...sheet.tilt!, level: { value: 718, plusMinus: 20 }, tilted: { value: 758, plusMinus: 20 } }
      }),
      'gravity-height',
    )
    expect(vague.verdict).toBe('unknown')
    expect(vague.missing).toMatch(/raised more, or on finer scales/)
    expect(vague.cautions[0]).toMatch(/never a jack alone/)
  })
})

describe('builds with data missing', () => {
  it('name it in the half build, and say nothing of an empty one', () => {
    const { judged } = judgedDriveline(halfBuild())
    const unknown = judged.filter(({ finding }) => finding.verdict === 'unknown')
    expect(unknown.length).toBeGreaterThan(0)
    for (const { finding } of unknown) expect(finding.missing).toMatch(/\S/)
    expect(judgedDriveline(emptyBuild('empty')).judged).toEqual([])
    const asked = emptyBuild('asked')
    asked.sheets.driveline = { driven: 'rear' }
    const verdicts = judgedDriveline(asked).judged.map(({ finding }) => finding.verdict)
    expect(new Set(verdicts)).toEqual(new Set(['unknown']))
  })
})

it('a finding becomes a job, and the job closes once a centre bearing makes two pieces of the shaft', () => {
  const found = ruleOf(demoBuild(), 'propshaft-whirl')
  const job = jobFromFinding(found)
  expect(job.title).toMatch(/two pieces with a centre bearing/)
  const planned = applyChanges(demoBuild(), [{ collection: 'jobs', id: job.id, value: job }])
  const edit = closeAnswered(planned, [])
  expect(edit?.changes.some((change) => 'id' in change && change.id === job.id)).toBe(true)
  planned.sheets.driveline!.propshaftLength = { value: 0.8 }
  expect(judgedDriveline(planned).judged.find(({ finding }) => finding.key === found.key)?.finding.verdict).toBe(
    'sound',
  )
})

it('with the axle in the gearbox’s case the mounts hold the torque of the wheels; where nobody says so it is asked', () => {
  const at = (change: Parameters<typeof changed>[0]) => judgedDriveline(changed(change))
  const one = at((sheet) => {
    sheet.engineSet = 'in one with its axle'
    delete sheet.propshaftLength
  })
  expect(one.chain.parts).not.toContain('shaft')
  expect(one.judged.find(({ finding }) => finding.rule === 'mount-load')?.finding.verdict).toBe('no-go')
  const unsaid = at((sheet) => {
    delete sheet.engineSet
  })
  const found = unsaid.judged.find(({ finding }) => finding.rule === 'mount-load')!.finding
  expect(found).toMatchObject({ verdict: 'unknown' })
  expect(found.missing).toMatch(/how the engine stands/)
})
