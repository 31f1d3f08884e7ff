import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { chargeAtRest, restedAt } from '../../engineering/electrical/restedVoltage.ts'
import { contextOf } from '../context.ts'
import { leastCharge } from './crankingCharge.ts'
import { energyOf } from './energy.ts'
import { balanceFindings, parkedFindings, reserveFindings } from './energyRules.ts'

const HOUR = 3600

describe('the rested voltage of a battery', () => {
  it('runs through the printed points, and back to the charge it came from', () => {
    for (const [charge, volts] of [
      [1, 12.65],
      [0.75, 12.45],
      [0.5, 12.24],
      [0.25, 12.06],
      [0, 11.89],
    ] as const)
      expect(restedAt(charge)).toBeCloseTo(volts, 12)
    for (let s = 0; s <= 1; s += 0.01) expect(chargeAtRest(restedAt(s))).toBeCloseTo(s, 9)
  })
  it('agrees with 6·(SG + 0.845) within 0.1 V, by the printed specific gravities', () => {
    for (const [charge, gravity] of [
      [1, 1.265],
      [0.75, 1.225],
      [0.5, 1.19],
      [0.25, 1.155],
      [0, 1.12],
    ] as const)
      expect(Math.abs(restedAt(charge) - 6 * (gravity + 0.845))).toBeLessThanOrEqual(0.1)
  })
})

describe('energy by case', () => {
  const rows = energyOf(contextOf(demoBuild()))
  it('is what the alternator gives less what the car takes', () => {
    const idle = rows.find(({ case: id }) => id === 'idle-hot-wet-night')!
    expect(idle.available).toBe(88)
    expect(idle.balance).toBeCloseTo(88 - idle.load, 9)
    // Currents balance: circuits sum to what the sources give, but for loads in series, which count twice.
    const sum = idle.byCircuit.reduce((all, { current }) => all + current, 0)
    expect(Math.abs(sum / idle.load - 1)).toBeLessThan(0.05)
  })
  it('names the circuits, largest first', () => {
    const idle = rows.find(({ case: id }) => id === 'idle-hot-wet-night')!
    expect(idle.byCircuit[0]!.circuit).toBe('Radiator fan')
  })
})

describe('energy balance', () => {
  const shrunk = (idle: number, cruise: number) => {
    const build = demoBuild()
    const { spec } = build.collections.devices.alternator!
    if (spec.kind === 'alternator')
      Object.assign(spec, { hotOutputIdle: { value: idle }, hotOutputCruise: { value: cruise } })
    return balanceFindings(contextOf(build))[0]!
  }
  it('is sound, marginal when short at idle, no-go when short at cruise', () => {
    expect(shrunk(88, 112).verdict).toBe('sound')
    expect(shrunk(40, 112).verdict).toBe('marginal')
    const found = shrunk(40, 45)
    expect(found.verdict).toBe('no-go')
    expect(found.todo).toMatch(/Fit an alternator that gives at least \d+/)
  })
  it('is unknown without the hot output, and names it', () => {
    const build = demoBuild()
    const { spec } = build.collections.devices.alternator!
    if (spec.kind === 'alternator') {
      delete spec.hotOutputIdle
      delete spec.hotOutputCruise
    }
    expect(balanceFindings(contextOf(build))[0]).toMatchObject({
      verdict: 'unknown',
      missing: expect.stringContaining('hot output at idle of Alternator'),
    })
  })
})

describe('battery reserve', () => {
  it('is Peukert’s rated form with the solved current, by hand, and carries ±', () => {
    const context = contextOf(demoBuild())
    const row = energyOf(context).find(({ case: id }) => id === 'alternator-dead')!
    const [found] = reserveFindings(context)
    const byHand = 0.5 * 20 * (63 / (row.battery * 20)) ** 1.4
    expect(context.figures.batteryReserve! / HOUR).toBeCloseTo(byHand, 6)
    expect(found!.says).toMatch(/± .* (h|min), down to 50 % of its charge \(Peukert, rated form\)/)
  })
  it('without a capacity is unknown', () => {
    const build = demoBuild()
    const { spec } = build.collections.devices.battery!
    if (spec.kind === 'battery') delete spec.capacity
    expect(reserveFindings(contextOf(build))[0]).toMatchObject({ verdict: 'unknown' })
  })
})

describe('days parked', () => {
  const parked = (change: (draw: { value: number }) => void) => {
    const build = demoBuild()
    const memory = build.collections.devices.radio!.loads!.find(({ id }) => id === 'memory')!
    if (memory.law?.type === 'current') change(memory.law.current)
    const context = contextOf(build)
    return { found: parkedFindings(context)[0]!, time: context.figures.parkedTime! }
  }
  it('shrink when something draws more', () => {
    const little = parked(() => {})
    const much = parked((draw) => {
      draw.value = 0.15
    })
    expect(little.found.verdict).toBe('sound')
    expect(much.found.verdict).toBe('marginal')
    expect(much.time).toBeLessThan(little.time / 2)
    expect(much.found.todo).toMatch(/Sockets and lights inside/)
  })
  it('hang on the cold: a colder start needs more charge', () => {
    const at = (kelvin: number) => {
      const build = demoBuild()
      build.collections.cases.cranking!.ambient = { value: kelvin }
      const context = contextOf(build)
      return leastCharge(context, context.cases.find(({ case: id }) => id === 'cranking')!)
    }
    const [mild, cold] = [at(288.15), at(263.15)]
    expect(typeof mild).toBe('number')
    expect(cold === 'never' ? 2 : cold!).toBeGreaterThan(mild as number)
  })
})

describe('with the posts of the battery joined by a wire', () => {
  const build = demoBuild()
  const { material, insulation } = build.collections.wires['W-3']!
  build.collections.wires['W-999'] = {
    id: 'W-999',
    from: 'battery.+',
    to: 'battery.-',
    area: { value: 16e-6 },
    length: { value: 0.3 },
    material: material!,
    insulation: insulation!,
  }
  const context = contextOf(build)
  it('nothing is summed', () => {
    expect(energyOf(context)).toEqual([])
  })
  it('each answer is withheld and says why', () => {
    for (const rule of [balanceFindings, reserveFindings, parkedFindings])
      expect(rule(context)).toMatchObject([
        {
          verdict: 'unknown',
          says: expect.stringMatching(/W-999 joins the two posts of Battery/),
          missing: expect.stringContaining('posts of Battery'),
        },
      ])
    expect(context.figures.batteryReserve).toBeUndefined()
    expect(context.figures.parkedTime).toBeUndefined()
  })
})

it('every rule works on the sound and the half-entered build', () => {
  for (const build of [soundBuild(), halfBuild()]) {
    const context = contextOf(build)
    const found = [...balanceFindings(context), ...reserveFindings(context), ...parkedFindings(context)]
    expect(found.length).toBeGreaterThan(0)
    for (const { verdict, missing } of found) {
      expect(verdict).not.toBe('no-go')
      if (verdict === 'unknown') expect(missing).toMatch(/\S/)
    }
  }
})
