/**
 * Rule `open-wire-on`: no single open wire leaves the fuel pump or the starter on. Each wire of their circuits is
 * opened by itself in the cases in which they are commanded off, and the network solved again.
 */
import type { NetworkSolution } from '../../engineering/electrical/network/network.ts'
import type { Device } from '../../model/build.ts'
import { spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import {
  BATTERY_CAUTION,
  deviceIdOf,
  deviceName,
  deviceZone,
  endpointOf,
  FUEL_CAUTION,
  finding,
  list,
  own,
  restrictedWire,
  volts,
  wireName,
} from '../make.ts'
import { controllerPins, relayPins, starterPins } from '../pins.ts'
import { type Solved, solveBelieved } from '../solveCases.ts'
import { ignitionOn } from './ignition.ts'
import { pathWords, TURNS } from './keyOffRules.ts'
import { pathTo } from './keyTurnedOff.ts'
import { withOpen } from './resolve.ts'

interface Machine {
  readonly device: Device
  /** Pin that feeds it and pin that it returns by. */
  readonly feed: string
  readonly back: string | undefined
  /** V from which it runs. */
  readonly runsFrom: number
}

const machines = ({ build }: Context): Machine[] =>
  Object.values(build.collections.devices).flatMap((device): Machine[] => {
    if (device.restricted) return []
    if (device.id === build.sheets.fuel?.pump?.device) {
      const load = device.loads?.[0]
      return load ? [{ device, feed: load.from, back: load.to, runsFrom: TURNS }] : []
    }
    if (device.spec.kind !== 'starter' || !device.spec.pullIn) return []
    const { solenoid, case: frame } = starterPins(device)
    return solenoid === undefined ? [] : [{ device, feed: solenoid, back: frame, runsFrom: device.spec.pullIn.value }]
  })

/** Wires at the pins of the machine, of the relays that feed it and of the controllers that drive those. */
const wiresThatMatter = ({ build, circuit }: Context, { device, feed, back }: Machine): string[] => {
  const { devices, outputs } = build.collections
  const pins = new Set([endpointOf(device.id, feed), ...(back === undefined ? [] : [endpointOf(device.id, back)])])
  const near = (endpoint: string) =>
    spread(circuit, [endpoint], ({ kind, a, b }) => {
      if (kind === 'fuse') return true
      if (kind !== 'wire' && kind !== 'inside') return false
      // A stud or the controller is where everything meets: what lies beyond is another circuit.
      return ![a, b].some((end) => {
        const there = own(devices, deviceIdOf(end))?.spec.kind
        return there === 'earth-stud' || there === 'controller' || there === 'battery'
      })
    })
  const relays = new Set<string>()
  for (const node of near(endpointOf(device.id, feed))) {
    const relay = own(devices, deviceIdOf(node))
    if (relay?.spec.kind === 'relay') relays.add(relay.id)
  }
  for (const id of relays) {
    const { common, make, break: rest, coil } = relayPins(devices[id]!)
    for (const pin of [common, make, rest, ...coil]) if (pin !== undefined) pins.add(endpointOf(id, pin))
    for (const output of Object.values(outputs)) {
      if (output.drives !== id) continue
      const controller = own(devices, output.device)
      if (!controller) continue
      const { earths, supply } = controllerPins(controller)
      for (const pin of [...earths, ...(supply === undefined ? [] : [supply]), output.pin])
        pins.add(endpointOf(controller.id, pin))
    }
  }
  const wires = new Set<string>()
  for (const pin of pins) for (const id of circuit.wiresAt.get(pin) ?? []) if (!restrictedWire(build, id)) wires.add(id)
  // What is joined to those pins over a splice belongs to them.
  for (const pin of pins)
    for (const node of near(pin))
      for (const id of circuit.wiresAt.get(node) ?? [])
        if (own(devices, deviceIdOf(node))?.spec.kind === 'splice') wires.add(id)
  return [...wires]
}

const runs = (machine: Machine, solved: Solved, solution: Pick<NetworkSolution, 'voltages'>): number => {
  const at = (pin: string | undefined) =>
    pin === undefined
      ? 0
      : (solution.voltages.get(solved.bound.nodeOf(endpointOf(machine.device.id, pin))) ?? undefined)
  const [a, b] = [at(machine.feed), at(machine.back)]
  return a === undefined || b === undefined ? 0 : a - b
}

/** Cases in which a machine is meant to be off and nothing asks for it. */
const offCases = ({ build, cases }: Context, machine: Machine): Solved[] => {
  // A starter must stay out while the engine runs as well; one such case stands for all.
  const running =
    machine.device.spec.kind === 'starter'
      ? cases.find(({ solved, kase }) => solved && kase.engine !== 'off' && kase.engine !== 'cranking')
      : undefined
  return cases.filter((each) => {
    const { solved, kase, bound } = each
    if (!solved || (kase.engine !== 'off' && each !== running) || kase.battery !== 'connected' || kase.supply)
      return false
    const asked = Object.entries(kase.outputs).some(([id, duty]) => {
      const drives = own(build.collections.outputs, id)?.drives
      if (duty === 0 || drives === undefined) return false
      return drives === machine.device.id || feeds(bound, drives, machine)
    })
    return !asked
  })
}
/** Whether a driven device is the relay of a machine: its contact’s far node lies on the machine’s feed. */
const feeds = (bound: Solved['bound'], relay: string, { device, feed }: Machine): boolean => {
  const target = bound.nodeOf(endpointOf(device.id, feed))
  const seen = new Set([target])
  const queue = [target]
  for (let here = queue.pop(); here !== undefined; here = queue.pop())
    for (const element of bound.network.elements) {
      if (element.a !== here && element.b !== here) continue
      if (element.type === 'relayContact') {
        if (element.id.startsWith(`${relay}#`)) return true
        continue
      }
      if (!element.id.startsWith('wire:')) continue
      const next = element.a === here ? element.b : element.a
      if (!seen.has(next)) {
        seen.add(next)
        queue.push(next)
      }
    }
  return false
}

/**
 * A build may have no case with the key on and the pump not asked for: the moment after the key is turned, or the engine
 * has stalled. Made from one in which it is asked for, with what asks for it off.
 */
const keyOnUnasked = ({ build, cases }: Context, machine: Machine, off: readonly Solved[]): Solved[] => {
  if (machine.device.spec.kind === 'starter' || off.some(({ kase }) => ignitionOn(build, kase) === true)) return []
  for (const { solved, kase, bound } of cases) {
    if (!solved || kase.battery !== 'connected' || kase.supply || kase.engine === 'cranking') continue
    if (ignitionOn(build, kase) !== true) continue
    const asking = Object.keys(kase.outputs).filter((id) => {
      const drives = own(build.collections.outputs, id)?.drives
      return drives !== undefined && (drives === machine.device.id || feeds(bound, drives, machine))
    })
    // Without an output that asks for it, the key itself does: then it is meant to run.
    if (asking.length === 0) continue
    const made = solveBelieved(build, {
      ...kase,
      name: `${kase.name}, stalled, with the pump not asked for`,
      engine: 'off',
      alternator: 'off',
      outputs: Object.fromEntries(Object.entries(kase.outputs).filter(([id]) => !asking.includes(id))),
    })
    return made.solved ? [made] : []
  }
  return []
}

export const openWireFindings = (context: Context): Finding[] => {
  const { build } = context
  return machines(context).flatMap((machine): Finding[] => {
    const off = offCases(context, machine)
    const cases = [...off, ...keyOnUnasked(context, machine, off)]
    if (cases.length === 0) return []
    const { device } = machine
    const name = device.name
    const base = {
      rule: 'open-wire-on',
      system: 'electrical',
      subject: `devices/${device.id}`,
      about: name,
      zone: deviceZone(build, device.id),
      cautions: device.spec.kind === 'pump' ? [BATTERY_CAUTION, FUEL_CAUTION] : [BATTERY_CAUTION],
    } as const
    const already = cases.find(
      (solved) => runs(machine, solved, { voltages: new Map(solved.nodes) }) >= machine.runsFrom,
    )
    if (already) {
      const solution = { voltages: new Map(already.nodes), currents: new Map(already.elements) }
      const path = pathTo(
        already.bound.network.elements,
        solution,
        already.bound.nodeOf(endpointOf(device.id, machine.feed)),
      )
      return [
        finding({
          ...base,
          verdict: 'no-go',
          says: `${name} gets ${volts(runs(machine, already, solution))} in “${already.kase.name}”, where nothing asks for it, by ${pathWords(build, path)}.`,
          todo: `Feed ${name} by a relay that the controller or the key has to hold closed.`,
          working: [
            `Solved over the whole network in “${already.kase.name}”; runs from ${volts(machine.runsFrom)} on.`,
          ],
        }),
      ]
    }
    const wires = wiresThatMatter(context, machine)
    const bad: { wire: string; solved: Solved; voltage: number; way: string }[] = []
    for (const solved of cases)
      for (const wire of wires) {
        // A wire that carries nothing can be opened without anything changing.
        if (Math.abs(solved.elements.get(`wire:${wire}`) ?? 1) < 1e-9 || bad.some((each) => each.wire === wire))
          continue
        const opened = withOpen(build, solved, [`wire:${wire}`])
        const voltage = opened ? runs(machine, solved, opened) : 0
        if (!opened || voltage < machine.runsFrom) continue
        const path = pathTo(
          solved.bound.network.elements,
          opened,
          solved.bound.nodeOf(endpointOf(device.id, machine.feed)),
        )
        bad.push({ wire, solved, voltage, way: pathWords(build, path) })
      }
    if (bad.length === 0) {
      const gaps = [
        ...new Set(
          cases.flatMap(({ missing }) =>
            missing
              .filter(({ subject }) => subject.startsWith('devices/') && touches(context, wires, subject.slice(8)))
              .map(({ subject, datum }) => `${datum} of ${deviceName(build, subject.slice(8))}`),
          ),
        ),
      ]
      return gaps.length === 0
        ? [
            finding({
              ...base,
              verdict: 'sound',
              says: `No single open wire of its circuit leaves ${name} on: ${wires.length} looked at in ${cases.length} ${cases.length === 1 ? 'case' : 'cases'}.`,
              todo: 'Nothing.',
            }),
          ]
        : [
            finding({
              ...base,
              verdict: 'unknown',
              says: `Whether an open wire can leave ${name} on cannot be told: ${list(gaps.slice(0, 4))} ${gaps.length === 1 ? 'is' : 'are'} not entered.`,
              todo: `Enter ${list(gaps.slice(0, 4))}.`,
              missing: gaps.join(', '),
            }),
          ]
    }
    const { wire, solved, voltage, way } = bad[0]!
    return [
      finding({
        ...base,
        verdict: 'no-go',
        says: `With ${wireName(build, wire)} open, ${name} gets ${volts(voltage)} in “${solved.kase.name}” by ${way}${
          bad.length === 1
            ? ''
            : `; the same with ${bad
                .slice(1, 5)
                .map((each) => each.wire)
                .join(', ')} open`
        }: one broken wire leaves it on.`,
        todo: `Feed and earth the coil that switches ${name} so that its current has no way but through what commands it; look at ${way.split(' → ').slice(0, 4).join(', ')}.`,
        working: [
          `${wires.length} wires opened one at a time in ${cases.map(({ kase }) => `“${kase.name}”`).join(', ')}; on from ${volts(machine.runsFrom)}.`,
          ...bad.slice(0, 6).map((each) => `${each.wire} open: ${volts(each.voltage)} by ${each.way}`),
        ],
      }),
    ]
  })
}

const touches = ({ build }: Context, wires: readonly string[], device: string): boolean =>
  wires.some((id) => {
    const wire = own(build.collections.wires, id)
    return wire !== undefined && (deviceIdOf(wire.from) === device || deviceIdOf(wire.to) === device)
  })
