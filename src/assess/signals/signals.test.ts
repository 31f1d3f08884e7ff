// Switches, sensors, levels, gauges, outputs and the ledger, on the demo and on builds with one thing changed.
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { worstOf } from '../../engineering/signals/table/bestRows.ts'
import { type Build, emptyBuild } from '../../model/build.ts'
import { readBuild } from '../../model/read.ts'
import { assess } from '../assess.ts'
import { controllerTableOf } from './controllerTableOf.ts'
import { designFor, pullUpFor } from './designOf.ts'
import { gaugeResistors, gaugeSheet } from './gauges.ts'
import { knownOf } from './known.ts'
import { ledgerOf } from './ledger.ts'
import { levelSheet } from './levels.ts'
import { partsFrom } from './partsText.ts'
import { electricalAt, finestPullUp, sensorSheet, thermistorRange } from './sensors.ts'
import { readAgain, switchSheet } from './switches.ts'

const changed = (change: (c: Build['collections']) => void): Build => {
  const build = demoBuild()
  change(build.collections)
  return readBuild(build)
}
const verdictOf = (build: Build, rule: string, subject: string) =>
  assess(build).findings.find((each) => each.rule === rule && each.subject === subject)
const demo = demoBuild()
const judged = assess(demo)
const known = knownOf(demo, judged)
const ohm = (value: number) => ({ value: value as never })

/** The wheel's buttons returned to a stud instead of to a pin that is not there. */
const returned = (to: string): Build =>
  changed((c) => {
    c.wires['W-276']!.to = to
  })

describe('a resistance switch', () => {
  const wheel = demo.collections.resistanceSwitches.wheel!
  it('names the return that leads nowhere, and still shows what collides without any offset', () => {
    const sheet = switchSheet(known, wheel)
    expect(sheet.provisional).toBe(true)
    expect(sheet.missing.join()).toMatch(/way from Steering wheel buttons, pin 2 to the sensor earth/)
    // By hand: pull-up 1 kΩ ± 1 % to 5 V; 1 kΩ + 5 % + 20 Ω beside 10.1 kΩ, against 1.1 kΩ − 5 % beside 9.9 kΩ and 1 MΩ.
    const beside = (...all: number[]) => 1 / all.reduce((sum, each) => sum + 1 / each, 0)
    // 1 µA of leakage either way.
    const volts = (pullUp: number, r: number, leak: number) => (5 * r - leak * pullUp * r) / (pullUp + r)
    const high = Math.max(...[990, 1010].map((pullUp) => volts(pullUp, beside(1070, 10100), -1e-6)))
    const low = Math.min(...[990, 1010].map((pullUp) => volts(pullUp, beside(1045, 9900, 1e6), 1e-6)))
    const step = 2.5 / 4096 // ± 2 steps and the half of one
    expect(sheet.reading!.smallest).toMatchObject({ below: 'Cruise set', above: 'Cruise cancel' })
    expect(sheet.reading!.smallest.gap).toBeCloseTo(low - high - 5 * 2 * step, 9)
  })
  it('takes its earth offset from the solved cases: on a body stud the bands widen', () => {
    const build = returned('stud-front.S')
    const sheet = switchSheet(knownOf(build, assess(build)), build.collections.resistanceSwitches.wheel!)
    expect(sheet.missing).toEqual([])
    const { low, high } = sheet.offset!.interval
    expect(Math.max(-low, high)).toBeGreaterThan(0.01)
    expect(sheet.offset!.worstCase).not.toBe('')
    expect(sheet.reading!.smallest.gap).toBeLessThan(switchSheet(known, wheel).reading!.smallest.gap)
  })
  it('is sound with the proven resistors, which no single exchange betters', () => {
    const sheet = switchSheet(known, wheel)
    const parts = partsFrom('E12 47 Ω … 10 kΩ', 0.01)
    const made = designFor(sheet, { topology: 'branches', parts, endOfLine: true })
    const best = readAgain(sheet, made)
    expect(best.reading!.smallest.gap).toBeCloseTo(made.design.smallestGap, 9)
    for (let i = 0; i < wheel.buttons.length; i += 1)
      for (const part of parts) {
        const buttons = made.record.buttons.map((button, k) =>
          k === i ? { ...button, resistance: ohm(part.nominal) } : button,
        )
        const other = readAgain(sheet, { ...made, record: { ...made.record, buttons } })
        expect(other.reading?.smallest.gap ?? Number.NEGATIVE_INFINITY).toBeLessThanOrEqual(
          made.design.smallestGap + 1e-7,
        )
      }
    const build = changed((c) => {
      c.resistanceSwitches.wheel = made.record
      c.wires['W-276']!.to = 'splice-return.1'
    })
    expect(verdictOf(build, 'resistance-switch', 'resistanceSwitches/wheel')?.verdict).toBe('sound')
  })
  it('finds the best pull-up of a series for the resistors there are', () => {
    const chosen = pullUpFor(switchSheet(known, wheel), partsFrom('E6 100 Ω … 10 kΩ', 0.01))
    expect(Math.max(...chosen.tried.map(({ gap }) => gap ?? Number.NEGATIVE_INFINITY))).toBe(
      chosen.reading.smallest.gap,
    )
  })
  it('says in a sentence what is wrong with equal buttons, and what to measure', () => {
    const build = changed((c) => {
      c.resistanceSwitches.wheel!.buttons[1]!.resistance = c.resistanceSwitches.wheel!.buttons[0]!.resistance
    })
    const finding = verdictOf(build, 'resistance-switch', 'resistanceSwitches/wheel')!
    expect(finding.verdict).toBe('marginal')
    expect(finding.says).toMatch(/Louder and Softer have the same resistance/)
    expect(finding.todo).toMatch(/Measure both again/)
  })
  it('does without nothing: each datum taken away is named', () => {
    for (const [drop, named] of [
      ['contact', /old closed contact/],
      ['ratiometric', /supply of the pull-up/],
    ] as const) {
      const build = changed((c) => {
        delete c.resistanceSwitches.wheel![drop]
        c.resistanceSwitches.wheel!.buttons.splice(4, 1)
      })
      expect(verdictOf(build, 'resistance-switch', 'resistanceSwitches/wheel')).toMatchObject({
        verdict: 'unknown',
        missing: expect.stringMatching(named),
      })
    }
  })
  it('leaves an airbag’s switch alone', () => {
    const build = changed((c) => {
      c.devices['wheel-buttons']!.restricted = 'airbag'
    })
    expect(verdictOf(build, 'resistance-switch', 'resistanceSwitches/wheel')).toBeUndefined()
  })
})

describe('what there is to choose from', () => {
  it('reads a series with its span and a drawer, and says which entry it cannot read', () => {
    // IEC 60063, E6 from 100 to 1000: 100 150 220 330 470 680 1000.
    expect(partsFrom('E6 100 Ω … 1 kΩ').map(({ nominal }) => Math.round(nominal))).toEqual([
      100, 150, 220, 330, 470, 680, 1000,
    ])
    expect(partsFrom('100 Ω, 2.2 kΩ 5 % ×2', 0.01)).toEqual([
      { nominal: 100, tolerance: 0.01 },
      { nominal: 2200, tolerance: 0.05, stock: 2 },
    ])
    expect(() => partsFrom('100 Ω, thick', 0.01)).toThrow(/thick/)
    expect(() => partsFrom('100 Ω')).toThrow(/no tolerance/)
  })
})

describe('a sensor', () => {
  it('passes through readings in any order', () => {
    const coolant = demo.collections.sensors['coolant-temperature']!
    const sheet = sensorSheet(known, coolant)
    for (const { value, shows } of coolant.readings!) expect(sheet.curve!.valueOf(shows)).toBeCloseTo(value, 6)
    const turned = sensorSheet(known, { ...coolant, readings: [...coolant.readings!].reverse() })
    expect(turned.curve!.valueOf(500)).toBeCloseTo(sheet.curve!.valueOf(500)!, 9)
  })
  it('tells the error of the controller’s table today, and its own table is better', () => {
    const sheet = sensorSheet(known, demo.collections.sensors['coolant-temperature']!)
    const today = verdictOf(demo, 'table-error', 'sensors/coolant-temperature')!
    expect(today).toMatchObject({ verdict: 'marginal', says: expect.stringMatching(/\+1\.4\sK/) })
    const table = controllerTableOf(sheet, { rows: 6 })
    expect(table.largestError).toBeLessThan(1.4)
    // Second opinion: the rows against the curve on another grid.
    const curve = Array.from({ length: 500 }, (_, i) => {
      const x = table.rows[0]!.x + ((table.rows.at(-1)!.x - table.rows[0]!.x) * i) / 499
      return { x, y: sheet.curve!.valueOf(electricalAt(sheet.sensor, sheet.input, x)!)! - 273.15 }
    })
    expect(worstOf(table.rows, curve).largestError).toBeLessThan(table.largestError! * 1.05)
  })
  it('has its coarsest step, own heat and best pull-up told', () => {
    const sheet = sensorSheet(known, demo.collections.sensors['coolant-temperature']!)
    const range = thermistorRange(sheet, 41)
    const coarse = Math.max(...range.map(({ resolution }) => resolution))
    const chosen = finestPullUp(sheet, partsFrom('E12 100 Ω … 100 kΩ', 0.01))!
    expect(chosen.worst).toBeLessThan(coarse)
    // At the pull-up's own resistance the heat is greatest: V²/(4·R·δ), 25 V²/(4 × 2465 Ω × 10 mW/K).
    expect(Math.max(...range.map(({ selfHeating }) => selfHeating!))).toBeCloseTo(25 / (4 * 2465.1 * 0.01), 2)
  })
  it('follows a straight sheet with two rows and no error', () => {
    const table = controllerTableOf(sensorSheet(known, demo.collections.sensors['fuel-pressure']!), { rows: 8 })
    expect(table.rows).toEqual([
      { x: 0.5, y: 0 },
      { x: 4.5, y: 1000 },
    ])
    expect(table.largestError).toBe(0)
  })
  it('refuses readings that do not fall, in words', () => {
    const build = changed((c) => {
      c.sensors['coolant-temperature']!.readings![0]!.shows = 100
    })
    const finding = verdictOf(build, 'sensor-curve', 'sensors/coolant-temperature')!
    expect(finding.verdict).toBe('marginal')
    expect(finding.says).toMatch(/does not fall/)
    expect(finding.todo).toMatch(/Measure both again/)
  })
  it('names the table that is not entered', () => {
    expect(verdictOf(demo, 'table-error', 'sensors/oil-pressure')).toMatchObject({
      verdict: 'unknown',
      missing: 'table that the controller has for Oil pressure',
    })
  })
})

describe('two tracks', () => {
  it.each([
    ['sound', () => undefined],
    [
      'no-go',
      (c: Build['collections']) => {
        // Half open the second track shows 0.2 of the supply where its map has 0.25.
        const at = (...shows: number[]) => shows.map((share, i) => ({ value: i / 2, shows: share }))
        c.sensors['pedal-1']!.readings = at(0.15, 0.5, 0.85)
        c.sensors['pedal-2']!.readings = at(0.075, 0.2, 0.425)
      },
    ],
    [
      'unknown',
      (c: Build['collections']) => {
        delete c.sensors['pedal-1']!.twinLimit
      },
    ],
  ] as const)('are %s', (verdict, change) => {
    expect(verdictOf(changed(change), 'track-agreement', 'sensors/pedal-1')?.verdict).toBe(verdict)
  })
})

describe('a level sender and the old gauge', () => {
  it('adds up the cans, and finds the reserve between the first two readings', () => {
    const sheet = levelSheet(known, demo.collections.levelSenders['fuel-level']!)
    expect(sheet.capacity).toBeCloseTo(0.05, 9)
    // 4 l at 172 Ω, 14 l at 131 Ω, straight: 7 l at 172 − 0.3 × 41 Ω.
    expect(sheet.reserveResistance).toBeCloseTo(172 - 0.3 * 41, 6)
  })
  it('cannot show a reserve below where the float stands', () => {
    const build = changed((c) => {
      c.levelSenders['fuel-level']!.reserve = { value: 0.003 as never }
    })
    expect(verdictOf(build, 'level-sender', 'levelSenders/fuel-level')).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/stands still below 4\.00\sl/),
    })
  })
  it('reads litres from tank and float, and says when a section lies outside the tank', () => {
    const box = changed((c) => {
      const { fillTest: _gone, ...rest } = c.levelSenders['fuel-level']!
      c.levelSenders['fuel-level'] = {
        ...rest,
        tank: {
          shape: 'box',
          length: { value: 1 as never },
          width: { value: 0.25 as never },
          height: { value: 0.2 as never },
        },
        curve: [
          [0, 170],
          [0.2, 30],
        ],
      }
    })
    const sheet = levelSheet(knownOf(box, { cases: {} }), box.collections.levelSenders['fuel-level']!)
    expect(sheet.capacity).toBeCloseTo(0.05, 9)
    expect(sheet.volumeAt!(100)).toBeCloseTo(0.025, 4)
    const bad = changed((c) => {
      const { fillTest: _gone, ...rest } = c.levelSenders['fuel-level']!
      c.levelSenders['fuel-level'] = {
        ...rest,
        tank: {
          shape: 'loft',
          height: { value: 0.2 as never },
          sections: [0, 0.1, 0.3].map((height) => ({
            height: { value: height as never },
            area: { value: 0.2 as never },
          })),
        },
        curve: box.collections.levelSenders['fuel-level']!.curve,
      }
    })
    expect(verdictOf(bad, 'level-sender', 'levelSenders/fuel-level')).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/Section 3 at 0\.3 m lies outside the tank/),
    })
  })
  it('is shown by its gauge as the needle stands, and better with the resistors found', () => {
    const sheet = gaugeSheet(known, demo.collections.gauges['fuel-gauge']!)!
    // 90 Ω is the needle's empty; the sender is below it from 28 l of 50 on.
    expect(sheet.points.find(({ level }) => level === 0.5)!.shows).toBe(0)
    const help = gaugeResistors(sheet, 'E24')!
    if ('problems' in help) throw new Error(help.problems[0]!.says)
    expect(help.worst).toBeLessThan(Math.abs(sheet.worst!))
    const record = {
      ...sheet.record,
      network: {
        order: help.order,
        ...(help.series > 0 ? { series: ohm(help.series) } : {}),
        ...(Number.isFinite(help.across) ? { across: ohm(help.across) } : {}),
      },
    }
    // The engineering holds its own points; the sheet goes through the network by itself.
    expect(Math.abs(gaugeSheet(known, record)!.worst!)).toBeCloseTo(help.worst, 2)
  })
})

describe('an output', () => {
  it.each([
    [
      'output-current',
      'outputs/out-lambda',
      'no-go',
      (c: Build['collections']): void => {
        c.outputs['out-lambda']!.limit = { value: 2 as never }
      },
    ],
    [
      'output-current',
      'outputs/out-lambda',
      'marginal',
      (c: Build['collections']): void => {
        c.outputs['out-lambda']!.limit = { value: 4.2 as never }
      },
    ],
    [
      'output-boot',
      'outputs/out-pump',
      'marginal',
      (c: Build['collections']): void => {
        c.outputs['out-pump']!.atBoot = 'on'
      },
    ],
    [
      'output-boot',
      'outputs/out-fan',
      'marginal',
      (c: Build['collections']): void => {
        c.outputs['out-fan']!.atBoot = 'on'
      },
    ],
    [
      'output-boot',
      'outputs/out-injector-1',
      'no-go',
      (c: Build['collections']): void => {
        c.outputs['out-injector-1']!.atBoot = 'on'
      },
    ],
    ['output-boot', 'outputs/out-coil-1', 'unknown', () => undefined],
    [
      'output-modulation',
      'outputs/out-fan',
      'marginal',
      (c: Build['collections']): void => {
        c.outputs['out-fan']!.modulated = true
      },
    ],
    [
      'coil-dwell',
      'outputs/out-coil-1',
      'no-go',
      (c: Build['collections']): void => {
        c.outputs['out-coil-1']!.dwell = { value: 0.008 as never }
      },
    ],
    [
      'clamp-energy',
      'outputs/out-boost',
      'no-go',
      (c: Build['collections']): void => {
        c.outputs['out-boost']!.clampEnergy = { value: 1e-3 as never }
      },
    ],
    [
      'injector-impedance',
      'outputs/out-injector-1',
      'marginal',
      (c: Build['collections']): void => {
        c.devices['injector-1']!.loads![0]!.law = { type: 'resistance', resistance: ohm(2.4) }
      },
    ],
  ] as const)('%s at %s is %s', (rule, subject, verdict, change) => {
    const finding = verdictOf(
      changed((c) => {
        change(c)
      }),
      rule,
      subject,
    )!
    expect(finding.verdict).toBe(verdict)
    expect(finding.todo).toMatch(/\S{3}/)
  })
  it('takes the current from the solved case: a valve’s volts over its ohms', () => {
    const row = ledgerOf(demo, judged).find(({ pin }) => pin === 'ecu.A13')!
    const amperes = Number(/([\d.]+) A of 2 A/.exec(row.circuit)![1])
    // 24 Ω between some 12.3 and 14.2 V.
    expect(amperes).toBeGreaterThan(12 / 24)
    expect(amperes).toBeLessThan(14.4 / 24)
  })
})

describe('the ledger', () => {
  it('has every pin of the controller once, and each function where it is', () => {
    const rows = ledgerOf(demo, judged)
    expect(rows.map(({ pin }) => pin)).toEqual(
      Object.keys(demo.collections.devices.ecu!.pins).map((pin) => `ecu.${pin}`),
    )
    const using = (use: string) => rows.filter((row) => row.use === use)
    expect(using('input')).toHaveLength(Object.keys(demo.collections.inputs).length)
    expect(using('output')).toHaveLength(Object.keys(demo.collections.outputs).length)
    expect(using('free').map(({ pin }) => pin)).toEqual(['ecu.A21', 'ecu.A22', 'ecu.B15', 'ecu.B21', 'ecu.B22'])
  })
  it('keeps a function whose pin is not there', () => {
    const build = changed((c) => {
      c.inputs['in-map']!.pin = 'B40'
    })
    expect(ledgerOf(build, assess(build)).map(({ pin }) => pin)).toContain('ecu.B40')
  })
  it('says when a pin was measured on the car', () => {
    const build = changed((c) => {
      c.readings['V-1'] = {
        id: 'V-1',
        subject: 'inputs/in-map',
        at: 'ecu.B4',
        quantity: 'voltage',
        value: 1.9,
        when: '2025-06-01T10:00:00Z',
      }
    })
    expect(ledgerOf(build, assess(build)).find(({ pin }) => pin === 'ecu.B4')!.checked).toBe('2025-06-01')
  })
  it('works on the sound, the half and the empty build, without a figure that is none', () => {
    for (const build of [soundBuild(), halfBuild(), emptyBuild('Empty')]) {
      const text = JSON.stringify(ledgerOf(build, assess(build)))
      expect(text).not.toMatch(/NaN|undefined/)
    }
    expect(ledgerOf(emptyBuild('Empty'), assess(emptyBuild('Empty')))).toEqual([])
  })
})

describe('road speed', () => {
  const speedometer = (change: (build: Build) => void = () => {}) => {
    const build = structuredClone(demo)
    change(build)
    return verdictOf(build, 'road-speed', 'gauges/speedometer')!
  }
  const inside = (change: (build: Build) => void = () => {}) => {
    const build = structuredClone(demo)
    change(build)
    return verdictOf(build, 'road-speed', 'inputs/in-speed')!
  }
  it('is teeth, final drive and tyre against the dial, by hand', () => {
    // 7/17 × 3.9 × 1000/(2π·0.312) = 819.2 turns a kilometre on a dial for 800.
    expect((7 / 17) * 3.9 * (1000 / (2 * Math.PI * 0.312))).toBeCloseTo(819.2, 1)
    expect(speedometer()).toMatchObject({
      verdict: 'sound',
      says: expect.stringMatching(/reads 1\.024 ± 0\.01\d of the true speed, 82 km\/h at 80\./),
    })
  })
  it('may never read low: another final drive, larger tyres, a dial for more turns', () => {
    for (const change of [
      (build: Build) => {
        build.sheets.vehicle!.finalDrive = 3.5
      },
      (build: Build) => {
        build.sheets.vehicle!.tyreRadius = { value: 0.34 as never }
      },
      (build: Build) => {
        build.collections.gauges.speedometer!.constant = 1000
      },
    ])
      expect(speedometer(change)).toMatchObject({ verdict: 'marginal', says: expect.stringMatching(/reads low/) })
  })
  it('is doubted where only the ± of the tyre brings it below', () => {
    const found = speedometer((build) => {
      build.collections.gauges.speedometer!.constant = 815
    })
    expect(found).toMatchObject({ verdict: 'marginal', says: expect.stringMatching(/with the ± it may show less/) })
  })
  it('may read high by a tenth and 4 km/h: 1.13 at 120 km/h, no more', () => {
    // UN R39: 120 true may show 136; 1.1333 of it.
    const at = (ratio: number) =>
      speedometer((build) => {
        build.collections.gauges.speedometer!.constant = 819.24 / ratio
      })
    expect(at(1.13).verdict).toBe('sound')
    expect(at(1.137)).toMatchObject({ verdict: 'marginal', says: expect.stringMatching(/136 km\/h at 120: more than/) })
  })
  it('counts at a wheel without the final drive', () => {
    const found = speedometer((build) => {
      delete build.sheets.vehicle!.finalDrive
      // 510.1 turns of the wheel a kilometre.
      Object.assign(build.collections.gauges.speedometer!, {
        counted: { shaft: 'driven wheel', counts: 2, turns: 1 },
        constant: 1000,
      })
    })
    expect(found).toMatchObject({ verdict: 'sound', says: expect.stringMatching(/1\.020/) })
  })
  it('names what is missing, at the dial and at the controller', () => {
    expect(
      speedometer((build) => {
        delete build.sheets.vehicle!.finalDrive
        delete build.collections.gauges.speedometer!.constant
      }),
    ).toMatchObject({
      verdict: 'unknown',
      missing: expect.stringMatching(/ratio of the final drive.*on the dial/),
    })
    expect(
      inside((build) => {
        delete build.collections.inputs['in-speed']!.counted
      }),
    ).toMatchObject({ verdict: 'unknown', missing: expect.stringMatching(/teeth or turns that drive Road speed/) })
  })
  it('tells the pulses that the controller should have', () => {
    // 8 × 3.9 × 510.1 = 15 916.
    expect(inside().verdict).toBe('sound')
    expect(
      inside((build) => {
        build.collections.inputs['in-speed']!.pulses = 8000
      }),
    ).toMatchObject({ verdict: 'marginal', todo: expect.stringMatching(/^Set 1591[56] pulses a kilometre\./) })
  })
})

describe('an old rev counter', () => {
  const told = (change: (c: Build['collections']) => void) =>
    verdictOf(changed(change), 'rev-counter', 'gauges/rev-counter')!
  it('is sound with the pulses it was made for, high enough', () => {
    expect(verdictOf(demo, 'rev-counter', 'gauges/rev-counter')).toMatchObject({
      verdict: 'sound',
      says: expect.stringMatching(/gets the 2 pulses a revolution/),
    })
  })
  // A four-cylinder counter on an eight-cylinder's pulses reads double (coolcats.net, 4-to-8 cylinder tachometer).
  it('reads double with twice the pulses, and says to which figure the output is to be set', () => {
    const found = told((c) => {
      c.outputs['out-tachometer']!.pulses = 4
    })
    expect(found.verdict).toBe('marginal')
    expect(found.says).toMatch(/shows 2 times the engine’s speed/)
    expect(found.todo).toMatch(/Set Tachometer to 2 pulses/)
  })
  it('wants a relay’s kick where it was triggered by a coil, and an amplifier where the clamp forbids that', () => {
    const at = (volts: number) =>
      told((c) => {
        c.gauges['rev-counter']!.threshold = { value: volts as never }
      })
    expect(at(30).todo).toMatch(/coil of a small relay/)
    expect(at(100).todo).toMatch(/pulse amplifier/)
  })
  it('names what is not known', () => {
    expect(
      told((c) => {
        delete c.gauges['rev-counter']!.threshold
        delete c.outputs['out-tachometer']!.pulses
      }),
    ).toMatchObject({
      verdict: 'unknown',
      missing: expect.stringMatching(/pulses a revolution that Tachometer gives.*height of pulse/),
    })
  })
})
