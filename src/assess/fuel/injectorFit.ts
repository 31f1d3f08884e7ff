/** A change of injectors carried through: coil against driver, series resistors, idle pulse, plug and adapters, dead time. */
import { deadTimeFaults, pulseFor } from '../../engineering/fuel/deadTime.ts'
import { injectorCurrent, injectorImpedance } from '../../engineering/signals/outputs/injectorCurrent.ts'
import { combine, type Datum, entered, isKnown, type Known, known, lacking, lackOf, step } from '../chain/chain.ts'
import type { Verdict } from '../finding.ts'
import { kilowatts, own } from '../make.ts'
import type { FuelChain } from './chain.ts'
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
  // The sheet's own figure comes first: it is what a change of injectors is typed into.
  const resistance: Datum = set.resistance
    ? entered(set.resistance, 'resistance of an injector')
    : law?.type === 'resistance'
      ? known(
          law.resistance.value,
          law.resistance.plusMinus ?? 0,
          `Resistance of ${device!.name}, as entered with the device`,
        )
      : lacking('resistance of an injector')
  const series = set.seriesResistance?.value ?? 0
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
    point(
      'driver',
      'Coil against driver',
      [current.total, limit],
      () => {
        const [amps, most, ohms] = [(current.total as Known).value, (limit as Known).value, (resistance as Known).value]
        const kind = injectorImpedance(ohms)
        return amps > most
          ? [
              'no-go',
              `${ohms} Ω${series > 0 ? ` with ${series} Ω in series` : ''} draw ${amps.toFixed(1)} A held on; the output stands ${most} A.`,
              `Fit a resistor of at least ${Math.max(0, (volts as Known).value / most - ohms).toFixed(1)} Ω in series with each, a peak-and-hold driver, or injectors of 12 Ω or more. A resistor slows the opening: measure the dead time again.`,
            ]
          : [
              kind === 'between' ? 'marginal' : 'sound',
              `${ohms} Ω${series > 0 ? ` with ${series} Ω in series` : ''} draw ${amps.toFixed(1)} A held on; the output stands ${most} A.`,
              kind === 'between'
                ? 'Ask the maker of the controller: between 4 and 12 Ω neither usual driver is made for it.'
                : INSPECT,
            ]
      },
      isKnown(current.total) ? current.total.working : [],
    ),
  ]
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
  if (set.resistance && law?.type === 'resistance')
    points.push(
      point('circuit', 'Wires and fuse', [], () => {
        const same = Math.abs(set.resistance!.value + series - law.resistance.value) < 0.05 * law.resistance.value
        return same
          ? [
              'sound',
              `The circuits reckon with ${law.resistance.value} Ω, as here: their findings on wire, fuse and volts stand.`,
              INSPECT,
            ]
          : [
              'marginal',
              `The circuits still reckon with ${law.resistance.value} Ω at ${device!.name}; these injectors have ${set.resistance!.value + series} Ω with what is in series.`,
              'Enter the resistance at each injector in its circuit: wire size, fuse and volts are then judged anew.',
            ]
      }),
    )
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
    const pulse = combine(
      [mass, flow, deadTime],
      (m = 0, q = 1, x = 0) => pulseFor(m, q, x),
      'Pulse = dead time + mass / flow (linear model after SAE J1832, from memory)',
    )
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
                  `The loom has ${loom}, the injector takes ${plug}: ${set.adapter} lies between.`,
                  'An adapter is one more joint on a shaking engine: crimp the right plug when the loom is open.',
                ]
              : [
                  'no-go',
                  `The loom has ${loom}, the injector takes ${plug}, and no adapter is entered.`,
                  `Crimp four ${plug} plugs, or enter the adapter.`,
                ],
      ),
    )
  }
  return points
}
