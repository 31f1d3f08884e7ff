import { describe, expect, it } from 'vitest'
import type { Build, Device, Entity } from '../../model/build.ts'
import { contextOf } from '../context.ts'
import { small, wire } from '../small.testing.ts'
import { acrossPair, canPairs } from './canPair.ts'
import { canFindings } from './canRules.ts'
import { coilFindings } from './coilRules.ts'
import { loadDumpFindings } from './loadDumpRules.ts'
import { distanceFindings, screenFindings } from './screenRules.ts'

const named = (...pins: [string, string?][]) =>
  Object.fromEntries(pins.map(([id, name]) => [id, name === undefined ? {} : { name }]))
const put = (build: Build, devices: Device[], wires: ReturnType<typeof wire>[] = []) => {
  for (const each of devices) build.collections.devices[each.id] = each
  for (const each of wires) build.collections.wires[each.id] = each
}
const ecu: Device = {
  id: 'ecu',
  name: 'Controller',
  pins: named(['E', 'power earth'], ['SE', 'sensor earth'], ['O'], ['I'], ['J']),
  spec: { kind: 'controller' },
}

describe('coil suppression', () => {
  const relay = (suppression: 'none' | 'resistor' | 'diode' | undefined, output: Partial<Entity<'outputs'>> = {}) =>
    small((build) => {
      put(
        build,
        [
          ecu,
          {
            id: 'relay',
            name: 'Fan relay',
            pins: named(['30'], ['87'], ['85'], ['86']),
            spec: {
              kind: 'relay',
              coilResistance: { value: 85 },
              pullIn: { value: 7 },
              ...(suppression === undefined ? {} : { suppression }),
            },
          },
        ],
        [wire('W-10', 'switch.2', 'relay.86'), wire('W-11', 'relay.85', 'ecu.O'), wire('W-12', 'ecu.E', 'stud.S')],
      )
      build.collections.outputs.fan = {
        id: 'fan',
        name: 'Fan relay',
        device: 'ecu',
        pin: 'O',
        driver: 'low side',
        drives: 'relay',
        configured: true,
        ...output,
      }
      build.collections.cases.lit!.outputs = { fan: 1 }
    })
  it('asks for something that takes the energy', () => {
    expect(coilFindings(contextOf(relay('none')))).toMatchObject([{ verdict: 'no-go', subject: 'devices/ecu' }])
    for (const build of [relay('resistor'), relay('diode'), relay('none', { clamp: { value: 45 } })])
      expect(coilFindings(contextOf(build)).map(({ verdict }) => verdict)).toEqual(['sound'])
  })
  it('takes a diode across the coil for it', () => {
    const build = relay('none')
    put(
      build,
      [{ id: 'diode', name: 'Diode', pins: named(['A'], ['K']), spec: { kind: 'diode' } }],
      [wire('W-13', 'diode.A', 'relay.85'), wire('W-14', 'diode.K', 'relay.86')],
    )
    expect(coilFindings(contextOf(build)).map(({ verdict }) => verdict)).toEqual(['sound'])
  })
  it('says that a relay with a plain diode lets go slowly, and one with a resistor does not', () => {
    expect(coilFindings(contextOf(relay('diode')))[0]!.says).toMatch(/Fan relay, with a plain diode, lets go slowly/)
    expect(coilFindings(contextOf(relay('resistor')))[0]!.says).not.toMatch(/slowly/)
  })
  it('is unknown where neither is entered, and names both', () => {
    const [found] = coilFindings(contextOf(relay(undefined)))
    expect(found!.verdict).toBe('unknown')
    expect(found!.missing).toMatch(/clamp voltage of output Fan relay, or what suppresses the coil/)
  })
  it('finds a relay with a diode fed the wrong way round', () => {
    const build = relay('diode')
    put(build, [], [wire('W-10', 'switch.2', 'relay.85'), wire('W-11', 'relay.86', 'ecu.O')])
    const found = coilFindings(contextOf(build)).find(({ verdict }) => verdict === 'no-go')
    expect(found).toMatchObject({ subject: 'devices/relay' })
    expect(found!.todo).toMatch(/Exchange the wires of 85 and 86/)
  })
})

describe('the screened pair of a crank sensor', () => {
  const pair = (more: Parameters<typeof wire>[4], mate: Parameters<typeof wire>[4] = more) =>
    small((build) => {
      put(
        build,
        [ecu, { id: 'crank', name: 'Crank sensor', pins: named(['S'], ['-', 'return']), spec: { kind: 'sensor' } }],
        [
          wire('W-20', 'crank.S', 'ecu.I', 1e-6, { ...more, twistedWith: 'W-21' }),
          wire('W-21', 'crank.-', 'ecu.J', 1e-6, { ...mate, twistedWith: 'W-20' }),
        ],
      )
      build.collections.inputs.crank = {
        id: 'crank',
        name: 'Crank',
        device: 'ecu',
        pin: 'I',
        signal: 'frequency',
        source: 'crank',
        configured: true,
      }
    })
  const judged = (build: Build) => screenFindings(contextOf(build))[0]!
  it('is sound with its screen at the controller’s sensor earth alone', () => {
    expect(judged(pair({ screened: true, screenEarths: ['ecu.SE'] })).verdict).toBe('sound')
  })
  it('is marginal with the screen earthed at both ends, at a stud, or nowhere', () => {
    const both = judged(pair({ screened: true, screenEarths: ['ecu.SE', 'stud.S'] }))
    expect(both).toMatchObject({
      verdict: 'marginal',
      todo: 'Free the screen of W-20 and W-21 at Stud, and insulate its end.',
    })
    expect(judged(pair({ screened: true, screenEarths: ['stud.S'] })).says).toMatch(/earthed at Stud/)
    expect(judged(pair({ screened: true, screenEarths: [] })).says).toMatch(/earthed nowhere/)
  })
  it('is marginal unscreened, and unknown where the screen’s earth is not entered', () => {
    expect(judged(pair({})).says).toMatch(/W-20 and W-21 are not screened/)
    expect(judged(pair({ screened: true }))).toMatchObject({ verdict: 'unknown' })
  })
  it('does not ask it of a sensor that is fed', () => {
    const build = pair({})
    build.collections.devices.crank!.pins = named(['S'], ['-', 'return'], ['+', 'supply 5 V'])
    expect(screenFindings(contextOf(build))).toEqual([])
  })
})

describe('distance from ignition', () => {
  const shared = (path: string[], screened = false) =>
    small((build) => {
      put(
        build,
        [
          ecu,
          {
            id: 'coil',
            name: 'Coil',
            pins: named(['15'], ['1']),
            spec: { kind: 'coil' },
            loads: [{ id: 'primary', from: '15', to: '1' }],
          },
          { id: 'cam', name: 'Cam sensor', pins: named(['+'], ['S'], ['-']), spec: { kind: 'sensor' } },
        ],
        [
          wire('W-30', 'switch.2', 'coil.15', 2.5e-6, { path: ['R-1'] }),
          wire('W-31', 'cam.S', 'ecu.I', 1e-6, { path, screened }),
        ],
      )
      build.collections.inputs.cam = {
        id: 'cam',
        name: 'Cam',
        device: 'ecu',
        pin: 'I',
        signal: 'frequency',
        source: 'cam',
        configured: true,
      }
    })
  it('finds an unscreened speed signal in the run of a coil’s feed, and names both', () => {
    const [found] = distanceFindings(contextOf(shared(['R-1', 'R-2'])))
    expect(found).toMatchObject({ verdict: 'marginal', subject: 'runs/R-1' })
    expect(found!.says).toMatch(/Cam sensor \(W-31\).*W-30/)
  })
  it('is content with another run or a screen', () => {
    expect(distanceFindings(contextOf(shared(['R-2'])))).toEqual([])
    expect(distanceFindings(contextOf(shared(['R-1'], true)))).toEqual([])
  })
})

/** Controller – dash by a twisted pair of 2 m, a logger off a splice in the middle of it by `stub` metres. */
const can = (stub: number, terminated: readonly string[]) =>
  small((build) => {
    const unit = (id: string): Device => ({
      id,
      name: id,
      pins: named(['H', 'CAN-H'], ['L', 'CAN-L']),
      spec: { kind: 'module' },
      ...(terminated.includes(id)
        ? { loads: [{ id: 'end', from: 'H', to: 'L', law: { type: 'resistance', resistance: { value: 120 } } }] }
        : {}),
    })
    const splice = (id: string): Device => ({
      id,
      name: id,
      pins: named(['1'], ['2'], ['3']),
      spec: { kind: 'splice' },
    })
    const metres = (value: number, twistedWith: string) => ({ length: { value }, twistedWith })
    put(
      build,
      [unit('engine'), unit('dash'), unit('logger'), splice('JH'), splice('JL')],
      [
        wire('H-1', 'engine.H', 'JH.1', 0.5e-6, metres(1, 'L-1')),
        wire('L-1', 'engine.L', 'JL.1', 0.5e-6, metres(1, 'H-1')),
        wire('H-2', 'JH.2', 'dash.H', 0.5e-6, metres(1, 'L-2')),
        wire('L-2', 'JL.2', 'dash.L', 0.5e-6, metres(1, 'H-2')),
        wire('H-3', 'JH.3', 'logger.H', 0.5e-6, metres(stub, 'L-3')),
        wire('L-3', 'JL.3', 'logger.L', 0.5e-6, metres(stub, 'H-3')),
      ],
    )
  })

describe('a CAN pair', () => {
  it('reads 60 Ω unpowered with 120 Ω at both ends: two side by side, and the wire’s own milliohms', () => {
    const context = contextOf(can(0.2, ['engine', 'dash']))
    expect(acrossPair(context, canPairs(context)[0]!)).toBeCloseTo(60, 0)
    expect(canFindings(context).map(({ rule, verdict }) => [rule, verdict])).toEqual([['can-ends', 'sound']])
  })
  it('with one end reads 120 Ω, with three 40 Ω: no-go', () => {
    expect(canFindings(contextOf(can(0.2, ['engine'])))[0]).toMatchObject({ rule: 'can-ends', verdict: 'no-go' })
    expect(canFindings(contextOf(can(0.2, ['engine'])))[0]!.says).toMatch(/reads 120 Ω/)
    expect(canFindings(contextOf(can(0.2, ['engine', 'dash', 'logger'])))[0]!.says).toMatch(/reads 40 Ω/)
  })
  it('with no termination entered is unknown', () => {
    expect(canFindings(contextOf(can(0.2, [])))[0]).toMatchObject({ rule: 'can-ends', verdict: 'unknown' })
  })
  it('may have a stub of 0.3 m, not of 0.8 m', () => {
    const [, found] = canFindings(contextOf(can(0.8, ['engine', 'dash'])))
    expect(found).toMatchObject({ rule: 'can-stub', verdict: 'marginal' })
    expect(found!.says).toMatch(/logger hangs 0\.80 m off the line/)
  })
  it('is twisted', () => {
    const build = can(0.2, ['engine', 'dash'])
    delete build.collections.wires['H-1']!.twistedWith
    expect(canFindings(contextOf(build)).map(({ rule }) => rule)).toContain('can-twist')
  })
})

describe('load dump', () => {
  const charged = (clamp?: number, survives?: number) =>
    small((build) =>
      put(build, [
        { ...ecu, ...(survives === undefined ? {} : { loadDump: { value: survives } }) },
        {
          id: 'alternator',
          name: 'Alternator',
          pins: named(['B+']),
          spec: { kind: 'alternator', ...(clamp === undefined ? {} : { loadDumpClamp: { value: clamp } }) },
        },
      ]),
    )
  const verdict = (...given: [number?, number?]) => loadDumpFindings(contextOf(charged(...given)))[0]!.verdict
  it('holds the controller’s own limit to the alternator’s peak, or to the 101 V of ISO 16750-2 without suppression', () => {
    expect(verdict(35, 40)).toBe('sound')
    expect(verdict(45, 40)).toBe('no-go')
    expect(verdict(undefined, 101)).toBe('sound')
    expect(verdict(undefined, 40)).toBe('unknown')
    expect(verdict(35)).toBe('unknown')
  })
  it('names what is missing', () => {
    expect(loadDumpFindings(contextOf(charged()))[0]!.missing).toBe(
      'load dump that Controller survives and peak that Alternator’s own suppression leaves',
    )
  })
})
