/** A change of injectors carried through: coil against driver, series resistors, idle pulse, plug and adapters, dead time. */
import { deadTimeFaults } from '../../engineering/fuel/deadTime.ts'
import { injectorPulse } from '../../engineering/fuel/injectorPulse.ts'
import { injectorCurrent, injectorImpedance } from '../../engineering/signals/outputs/injectorCurrent.ts'
import { combine, type Datum, entered, isKnown, type Known, known, lacking, lackOf, step } from '../chain/chain.ts'
import type { Verdict } from '../finding.ts'
import { kilowatts, list, own } from '../make.ts'
import { sizeName } from '../wireData.ts'
import type { FuelChain } from './chain.ts'
import type { FuelFacts } from './facts.ts'
import { carried, fuseIsShort } from './injectorCircuit.ts'
import { deadTimes, injectorDeadTime, injectorVolts } from './injectorVolts.ts'

export interface FitPoint {
  readonly id: 'driver' | 'resistor' | 'circuit' | 'pump' | 'idle' | 'dead time' | 'plug'
  readonly name: string
  readonly verdict: Verdict
  readonly says: string
  readonly todo: string
  readonly missing: readonly string[]
  readonly working: readonly string[]
}
const ms = (seconds: number): string => `${(seconds * 1e3).toFixed(2)} ms`
const INSPECT = 'Nothing by this arithmetic; have the work inspected.'

export const injectorFit = (chain: FuelChain): readonly FitPoint[] => {
  const { facts } = chain
  const { build, fuel } = facts
  const set = fuel.injectors
  if (!set) return []
  const { devices, outputs } = build.collections
  const device = own(devices, set.devices[0] ?? '')
  const load = device?.loads?.[0]
  const law = load?.law
  const series = set.seriesResistance?.value ?? 0
  // What a circuit draws holds coil and resistor together.
  // The sheet's own figure comes first: it is what a change of injectors is typed into.
  const resistance: Datum = set.resistance
    ? entered(set.resistance, 'resistance of an injector')
    : law?.type === 'resistance' && series === 0
      ? known(
          law.resistance.value,
          law.resistance.plusMinus ?? 0,
          `Resistance of ${device!.name}, as entered with the device`,
        )
      : lacking('resistance of an injector')
  const volts = injectorVolts(facts)
  const output = Object.values(outputs).find(({ drives }) => drives !== undefined && set.devices.includes(drives))
  const shared = output
    ? set.devices.filter((id) => Object.values(outputs).some((each) => each.id === output.id && each.drives === id))
        .length
    : 1
  const limit = entered(output?.limit, 'current that the controller’s output stands')
  const current = step(injectorCurrent, { voltage: volts, resistance, series, count: Math.max(shared, 1) })
  const point = (
    id: FitPoint['id'],
    name: string,
    needed: readonly Datum[],
    judge: () => readonly [Verdict, string, string],
    lines: readonly string[] = [],
  ): FitPoint => {
    const lack = lackOf(needed)
    if (lack)
      return {
        id,
        name,
        verdict: 'unknown',
        says: `${name}: not known.${lack.problems.map(({ says, todo }) => ` ${says} ${todo}`).join('')}`,
        todo: `Enter ${lack.missing.join(', ') || 'figures within their range'}.`,
        missing: lack.missing,
        working: [],
      }
    const [verdict, says, todo] = judge()
    return { id, name, verdict, says, todo, missing: [], working: lines }
  }
  const points: FitPoint[] = [
    point('driver', 'Coil against driver', [current.total, limit], () => driver(), [
      ...(isKnown(current.total) ? current.total.working : []),
      ...(output?.peak
        ? [
            'Peak-and-hold stage: saturates until its peak is reached, then holds (data sheet LM1949, SNLS349C); peak and hold as entered.',
          ]
        : []),
    ]),
  ]
  function driver(): readonly [Verdict, string, string] {
    const [amps, most, ohms] = [(current.total as Known).value, (limit as Known).value, (resistance as Known).value]
    const each = (current.each as Known).value
    const coil = `${ohms} Ω${series > 0 ? ` with ${series} Ω in series` : ''}`
    if (output?.peak) {
      const peak = output.peak.value
      const holds = output.hold ? `${output.hold.value} A` : 'a current that is not entered'
      if (peak * shared > most)
        return [
          'no-go',
          `The stage lets ${peak} A into each of ${shared} on one output, ${(peak * shared).toFixed(1)} A; the output stands ${most} A.`,
          'Fewer injectors on one output, or a peak set lower.',
        ]
      return each < peak
        ? [
            'marginal',
            `${coil} draw ${each.toFixed(1)} A at most and never reach the stage’s peak of ${peak} A: it does not go over to holding.`,
            'Set the peak lower or take the series resistor out; ask the maker of the stage.',
          ]
        : [
            'sound',
            `${coil} are let to ${peak} A and held at ${holds}; without the stage they would draw ${each.toFixed(1)} A.`,
            INSPECT,
          ]
    }
    // A resistor makes a plain switch enough for any coil; the current decides.
    const kind = series > 0 ? 'high' : injectorImpedance(ohms)
    return amps > most
      ? [
          'no-go',
          `${coil} draw ${amps.toFixed(1)} A held on; the output stands ${most} A.`,
          `Fit a resistor of at least ${Math.max(0, ((volts as Known).value * Math.max(shared, 1)) / most - ohms).toFixed(1)} Ω in series with each, a peak-and-hold driver, or injectors of 12 Ω or more. A resistor slows the opening: measure the dead time again.`,
        ]
      : [
          kind === 'between' ? 'marginal' : 'sound',
          `${coil} draw ${amps.toFixed(1)} A held on; the output stands ${most} A.`,
          kind === 'between'
            ? 'Ask the maker of the controller: between 4 and 12 Ω neither usual driver is made for it.'
            : INSPECT,
        ]
  }
  if (series > 0)
    points.push(
      point(
        'resistor',
        'Heat in the series resistors',
        [current.heat, chain.duty],
        () => {
          const heat = (current.heat as Known).value * Math.min((chain.duty as Known).value, 1)
          return [
            'sound',
            `Each series resistor turns ${heat.toFixed(1)} W into heat at full load, ${(current.heat as Known).value.toFixed(1)} W held on.`,
            `Fit resistors rated for at least ${(2 * (current.heat as Known).value).toFixed(0)} W, on metal, away from the loom (twice the heat: common practice, no published source).`,
          ]
        },
        isKnown(current.heat) ? current.heat.working : [],
      ),
    )
  const changes =
    set.resistance !== undefined || series > 0
      ? wiring(facts, law?.type === 'resistance' ? law.resistance.value : undefined, resistance, series, output?.hold)
      : undefined
  if (changes) points.push(point('circuit', 'Wires and fuse', changes.needed, changes.judge, changes.lines))
  const pump = chain.stations.find(({ id }) => id === 'pump')?.capacity
  const these = chain.stations.find(({ id }) => id === 'injectors')?.capacity
  if (pump && these && isKnown(pump) && isKnown(these))
    points.push(
      point('pump', 'Pump against these injectors', [], () =>
        pump.value < these.value
          ? [
              'marginal',
              `The pump feeds ${kilowatts(pump.value)}, these injectors ${kilowatts(these.value)}: the pump gives out first.`,
              'What the injectors have beyond the pump is of no use until the pump, its volts or its filter are mended.',
            ]
          : [
              'sound',
              `The pump feeds ${kilowatts(pump.value)}, more than the ${kilowatts(these.value)} of these injectors.`,
              INSPECT,
            ],
      ),
    )
  const table = deadTimes(facts)
  const faults = deadTimeFaults(table)
  if (table.length > 0)
    points.push(
      point('dead time', 'Dead time table', faults.length > 0 ? [{ missing: [], problems: faults }] : [], () => [
        'sound',
        `Dead times fall with voltage, ${ms(Math.max(...table.map(([, t]) => t)))} to ${ms(Math.min(...table.map(([, t]) => t)))}.`,
        'Give the controller the table of these injectors, at this pressure.',
      ]),
    )
  if (set.shortestPulse ?? fuel.idleFlow) {
    const flow =
      chain.stations.find(({ id }) => id === 'injectors')?.figures.find(({ id }) => id === 'flow')?.datum ??
      lacking('injector flow')
    const mass = combine(
      [entered(fuel.idleFlow, 'fuel at warm idle'), entered(fuel.idleSpeed, 'idle speed')],
      // Sequential: one pulse of each injector in two turns.
      (flowAtIdle = 0, speed = 1) => flowAtIdle / set.count / (speed / (4 * Math.PI)),
      'Fuel of one pulse = fuel at idle / injectors / pulses a second, one pulse in two turns (sequential)',
    )
    const shortest = entered(set.shortestPulse ?? set.card?.shortPulse?.below, 'shortest pulse that repeats')
    const deadTime = injectorDeadTime(facts)
    const { pulse } = step(injectorPulse, { mass, flow, deadTime })
    points.push(
      point(
        'idle',
        'Idle against the shortest pulse',
        [pulse, shortest],
        () => {
          const [at, least] = [(pulse as Known).value, (shortest as Known).value]
          return at < least
            ? [
                'no-go',
                `Warm idle asks for ${ms(at)}; below ${ms(least)} these injectors do not repeat.`,
                'Fit smaller injectors, or inject once in two turns if the controller still injects twice, and characterise the short pulses.',
              ]
            : [
                at < 1.15 * least ? 'marginal' : 'sound',
                `Warm idle asks for ${ms(at)}, ${ms(at - least)} above the shortest that repeats.`,
                at < 1.15 * least
                  ? 'Look at idle with all consumers off, and at purge: both shorten the pulse.'
                  : INSPECT,
              ]
        },
        isKnown(pulse) && isKnown(mass) ? [...mass.working, ...pulse.working] : [],
      ),
    )
  }
  if (set.connector ?? set.loomConnector) {
    const [plug, loom] = [set.connector, set.loomConnector]
    points.push(
      point(
        'plug',
        'Plug and adapters',
        [
          plug ? known(0) : lacking('plug that the injector takes'),
          loom ? known(0) : lacking('plug that the loom has'),
        ],
        () =>
          plug === loom
            ? ['sound', `The loom’s plug (${loom}) is the injector’s.`, INSPECT]
            : set.adapter
              ? [
                  'marginal',
                  `The loom has “${loom}”, the injector takes “${plug}”: “${set.adapter}” lies between.`,
                  'An adapter is one more joint on a shaking engine: crimp the right plug when the loom is open.',
                ]
              : [
                  'no-go',
                  `The loom has “${loom}”, the injector takes “${plug}”, and no adapter is entered.`,
                  `Crimp plugs “${plug}” to all ${set.count}, or enter the adapter.`,
                ],
      ),
    )
  }
  return points
}

/** The circuit with these coils in it: nothing to solve where the circuits reckon with them already. */
const wiring = (
  facts: FuelFacts,
  drawn: number | undefined,
  resistance: Datum,
  series: number,
  hold: { readonly value: number } | undefined,
): {
  readonly needed: readonly Datum[]
  readonly judge: () => readonly [Verdict, string, string]
  readonly lines: readonly string[]
} => {
  const { build, fuel, full } = facts
  const devices = fuel.injectors?.devices ?? []
  if (!isKnown(resistance)) return { needed: [resistance], judge: () => ['unknown', '', ''], lines: [] }
  const plain = resistance.value + series
  const before = injectorVolts(facts)
  // A stage that holds draws as a greater resistance would.
  const ohms = hold && isKnown(before) ? Math.max(plain, before.value / hold.value) : plain
  if (drawn !== undefined && Math.abs(ohms - drawn) < 0.05 * drawn)
    return {
      needed: [],
      judge: () => [
        'sound',
        `The circuits reckon with ${drawn} Ω, as here: their findings on wire, fuse and volts stand.`,
        INSPECT,
      ],
      lines: [],
    }
  const found = carried(build, full, devices, ohms)
  if (!found)
    return {
      needed: [lacking('the solved injector circuit in the full-load case')],
      judge: () => ['unknown', '', ''],
      lines: [],
    }
  const { wire, fuse, volts, unjudged } = found
  const wireShort = wire !== undefined && wire.current > wire.allowed
  const fuseShort = fuseIsShort(found)
  const judge = (): readonly [Verdict, string, string] => [
    wireShort || (fuse && fuse.current > fuse.rating) ? 'no-go' : 'marginal',
    [
      `With ${ohms.toFixed(1)} Ω at each, all held on, ${volts.toFixed(2)} V reach the injectors${isKnown(before) ? ` (${before.value.toFixed(2)} V as the circuits stand)` : ''}.`,
      ...(fuse
        ? [
            `${fuse.name}, then carries ${fuse.current.toFixed(1)} A of its ${fuse.rating} A${fuseShort ? ': too much for long in a warm place' : ''}.`,
          ]
        : []),
      ...(wire
        ? [
            `${wire.name} carries ${wire.current.toFixed(1)} A of the ${wire.allowed.toFixed(1)} A it may in its place${wireShort ? ': too thin' : ''}.`,
          ]
        : []),
      ...(unjudged.length > 0 ? [`Not judged for want of figures: ${unjudged.join(', ')}.`] : []),
    ].join(' '),
    [
      ...(wireShort
        ? [
            wire.wanted
              ? `Lay ${sizeName(wire.wanted)} at ${wire.name}.`
              : 'No listed size carries it: fewer injectors on one wire.',
          ]
        : []),
      ...(fuse && fuseShort
        ? [
            fuse.wanted === undefined
              ? 'Split the injectors over two fuses.'
              : `Fit a fuse of ${fuse.wanted} A${fuse.behind.length === 0 ? '' : `; ${list(fuse.behind)} would not hold 110 % of it: ${fuse.behindSize === undefined ? 'split' : `lay ${sizeName(fuse.behindSize)}, or split`} the injectors over two fuses`}.`,
          ]
        : []),
      `Once fitted, enter ${ohms.toFixed(1)} Ω at each injector in its circuit: all findings are then judged anew.`,
    ].join(' '),
  ]
  return {
    needed: [],
    judge,
    lines: [
      `Full-load case solved again with ${ohms.toFixed(2)} Ω at each of ${devices.length} injectors, outputs held on.`,
      'A wire may carry 80 % of what heat balance or published rating allow in its hottest place; a fuse 75 % of its rating (common practice, no published source).',
    ],
  }
}
