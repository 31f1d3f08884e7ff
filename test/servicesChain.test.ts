/** Oil, exhaust and cabin services from sheet to finding: what wins, what condemns, and what stays unknown. */
import { describe, expect, it } from 'vitest'
import { demoBuild } from '../demo/index.ts'
import { isKnown } from '../src/assess/chain/chain.ts'
import { judgedServices } from '../src/assess/services/servicesRules.ts'
import { PSI, RPM } from '../src/engineering/exactUnits.ts'
import { type Build, emptyBuild } from '../src/model/build.ts'

type Sheets = Build['sheets']
const judged = (change: (sheets: Sheets, build: Build) => void) => {
  const build = structuredClone(demoBuild())
  change(build.sheets, build)
  const { judged: all, chain } = judgedServices(build)
  return {
    chain,
    of: (rule: string) => all.map(({ finding }) => finding).filter((finding) => finding.rule === rule),
    verdict: (rule: string) => all.find(({ finding }) => finding.rule === rule)?.finding.verdict,
  }
}
const same = (): void => undefined

describe('oil pressure', () => {
  it('the maker’s least wins: short of it is a no-go, short of the rule of thumb only doubtful', () => {
    expect(judged(same).verdict('oil-pressure')).toBe('sound')
    const low = ({ oil }: Sheets): void => {
      oil!.pressures![1] = [{ value: 2000 * RPM }, { value: 0.9e5 }]
    }
    expect(judged(low).verdict('oil-pressure')).toBe('no-go')
    const thumb = judged((sheets) => {
      low(sheets)
      delete sheets.oil!.leastPressures
    })
    expect(thumb.verdict('oil-pressure')).toBe('marginal')
    const need = thumb.chain.pressure.points[1]!.need
    // 10 psi for every 1000 rpm.
    expect(isKnown(need) && need.value).toBeCloseTo(20 * PSI, 6)
    expect(thumb.of('oil-pressure')[0]!.says).toMatch(/rule of thumb proves nothing/)
  })
  it('tells a pressure that falls as the engine goes faster, but not where the relief valve is open', () => {
    const falling = ({ oil }: Sheets): void => {
      oil!.pressures![3] = [{ value: 5600 * RPM }, { value: 3.8e5, plusMinus: 0.1e5 }]
    }
    const found = judged(falling)
    expect(found.of('oil-pressure')[0]!.says).toMatch(/falls from 4\.30 ± 0\.20 bar at 4000 rpm to 3\.80/)
    expect(found.verdict('oil-pressure')).toBe('marginal')
    const open = judged((sheets) => {
      falling(sheets)
      sheets.oil!.relief = { value: 4.3e5 }
    })
    expect(open.verdict('oil-pressure')).toBe('sound')
  })
  it('a reading of hot idle stands at the idle, and nowhere else', () => {
    const reading = {
      id: 'M-901',
      subject: 'hot idle oil pressure',
      quantity: 'pressureGauge',
      value: 0.6e5,
      when: '2026-05-01T10:00:00.000Z',
    } as Build['collections']['readings'][string]
    const idle = judged((_sheets, build) => {
      build.collections.readings['M-901'] = reading
    })
    expect(idle.verdict('oil-pressure')).toBe('no-go')
    expect(idle.chain.pressure.points[0]).toMatchObject({ idle: true, pressure: { value: 0.6e5 } })
    const without = judged(({ oil, cabin, fuel }, build) => {
      build.collections.readings['M-901'] = reading
      oil!.pressures!.shift()
      delete oil!.hotIdlePressure
      delete cabin!.idleSpeed
      delete fuel!.idleSpeed
    })
    expect(without.verdict('oil-pressure')).toBe('sound')
    expect(without.chain.pressure.points.map(({ idle: at }) => at)).toEqual([false, false, false])
  })
  it('names the speed that nobody read', () => {
    const [finding] = judged(({ oil }) => {
      oil!.pressures!.pop()
    }).of('oil-pressure-range')
    expect(finding).toMatchObject({ verdict: 'unknown', missing: 'hot oil pressure at 5600 rpm' })
  })
})

describe('the turbocharger’s oil', () => {
  it('too narrow a restrictor starves it', () => {
    expect(judged(same).verdict('turbo-oil-feed')).toBe('sound')
    const { of } = judged(({ oil }) => {
      oil!.turboRestrictor = { value: 0.001 }
    })
    expect(of('turbo-oil-feed')[0]).toMatchObject({ verdict: 'no-go', todo: expect.stringMatching(/wider restrictor/) })
  })
  it('a drain must fall, end above the oil, and be no narrower than the outlet', () => {
    const drain = (change: Partial<NonNullable<Sheets['oil']>>) =>
      judged(({ oil }) => {
        Object.assign(oil!, { turboDrainAbove: { value: 0.03 } }, change)
      }).of('turbo-oil-drain')[0]!
    expect(drain({}).verdict).toBe('sound')
    expect(drain({ turboDrainFall: { value: -0.02 } }).verdict).toBe('no-go')
    expect(drain({ turboOutletBore: { value: 0.018 } }).says).toMatch(
      /16 mm the drain is narrower than the outlet’s 18/,
    )
    expect(drain({ turboDrainBore: { value: 0.008 }, turboOutletBore: { value: 0.008 } }).verdict).toBe('no-go')
  })
})

describe('breather and exhaust', () => {
  it('an open breather may be unlawful; a narrow one presses the seals', () => {
    const { verdict, of } = judged(({ oil }) => {
      oil!.breather = 'open'
      oil!.breatherBore = { value: 0.006 }
    })
    expect(of('breather-end')[0]!.says).toMatch(/may be unlawful/)
    expect(verdict('crankcase-breather')).toBe('marginal')
  })
  it('measured far over what the parts account for is a thing in the way; its cost in power stays unknown', () => {
    const { verdict, of } = judged(({ exhaust }) => {
      exhaust!.backPressure = { value: 1.2e5, plusMinus: 5e3 }
    })
    expect(verdict('exhaust-blocked')).toBe('marginal')
    expect(of('exhaust-back-pressure')[0]).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/costs in power is not known/),
    })
  })
  it('fuel that must become hotter than it stands is a no-go, wires only doubtful, and nearer than a code allows is told', () => {
    const near = (what: 'fuel' | 'wires') =>
      judged(({ exhaust }) => {
        const item = exhaust!.near![1]!
        Object.assign(item, { what, distance: { value: 0.03 }, shielded: false, surface: { value: 900 } })
      }).of('heat-near-exhaust')[1]!
    expect(near('fuel')).toMatchObject({
      verdict: 'no-go',
      system: 'fuel',
      says: expect.stringMatching(/code asks for 50 mm/),
    })
    expect(near('wires').verdict).toBe('marginal')
    expect(judged(same).of('heat-near-exhaust')[1]!.says).toMatch(/a qualified person must inspect it/)
  })
  it('a run of the loom takes the least class of its wires', () => {
    const { chain } = judged(({ exhaust }, build) => {
      const [wire] = Object.values(build.collections.wires).filter(({ path, insulation }) => path && insulation)
      exhaust!.near = [{ name: 'Loom', distance: { value: 0.1 }, run: wire!.path![0]! }]
    })
    const [item] = chain.near
    expect(item && isKnown(item.limit) && item.limit.value).toBeGreaterThan(350)
    expect(item && isKnown(item.mean)).toBe(false)
  })
})

describe('cabin', () => {
  it('a blanked heater that is the engine’s bypass is a no-go', () => {
    const state = (word: 'connections blanked' | 'matrix bridged', bypass?: boolean) =>
      judged(({ cabin }) => {
        cabin!.heater!.state = word
        if (bypass === undefined) delete cabin!.heater!.bypass
        else cabin!.heater!.bypass = bypass
      }).verdict('heater-bypass')
    expect([
      state('connections blanked', true),
      state('connections blanked', false),
      state('connections blanked'),
    ]).toEqual(['no-go', 'sound', 'unknown'])
    expect(state('matrix bridged', true)).toBe('sound')
  })
  it('an idle that cannot carry the pump is told, and an electric one asks nothing', () => {
    const steering = (change: (cabin: NonNullable<Sheets['cabin']>) => void) =>
      judged(({ cabin }) => change(cabin!)).verdict('steering-at-idle')
    expect(steering(() => undefined)).toBe('sound')
    expect(steering((cabin) => (cabin.idleTorque = { value: 12 }))).toBe('marginal')
    expect(steering((cabin) => (cabin.steering = { kind: 'electric' }))).toBeUndefined()
  })
  it('heat to the cabin is what the air takes up', () => {
    const { heater } = judged(same).chain
    const [heat, out, into] = [heater.heat, heater.airOut, heater.airIn].map((datum) =>
      isKnown(datum) ? datum.value : 0,
    )
    // 0.075 m³/s of air at −10 °C, 1.34 kg/m³ by the law of gases at 1013 hPa; the demo’s altitude takes a little off.
    expect(heat! / ((out! - into!) * 0.075 * 1008)).toBeGreaterThan(1.25)
    expect(heat! / ((out! - into!) * 0.075 * 1008)).toBeLessThan(1.35)
  })
})

it('an empty build asks nothing, and a reading stands in place of what was reckoned', () => {
  expect(judgedServices(emptyBuild('empty')).judged).toEqual([])
  const { chain } = judged((_sheets, build) => {
    build.collections.readings['M-900'] = {
      id: 'M-900',
      subject: 'exhaust-back-pressure',
      quantity: 'pressureGauge',
      value: 3.3e4,
      when: '2026-05-01T10:00:00.000Z',
    } as Build['collections']['readings'][string]
  })
  expect(isKnown(chain.back.pressure) && chain.back.pressure.value).toBe(3.3e4)
})
