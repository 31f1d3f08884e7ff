/**
 * Rules on what a wire picks up: `screened-sensor` (an inductive crank sensor twisted and screened, the screen earthed at
 * one end) and `ignition-distance` (sensor wires in one run with the wires of the coils).
 */
import type { Build, Wire } from '../../model/build.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import {
  BATTERY_CAUTION,
  deviceIdOf,
  deviceName,
  deviceZone,
  endpointOf,
  finding,
  list,
  own,
  pinName,
  restrictedWire,
} from '../make.ts'
import { controllerPins } from '../pins.ts'

const SCREEN_PRACTICE =
  'Inductive sensors give millivolts while cranking: twisted pair against magnetic fields, screen earthed at one end, so that it carries no earth current. Common practice, no published source.'

const wiresOf = ({ build, circuit }: Context, device: string): Wire[] =>
  Object.keys(own(build.collections.devices, device)?.pins ?? {}).flatMap((pin) =>
    (circuit.wiresAt.get(endpointOf(device, pin)) ?? []).flatMap((id) => own(build.collections.wires, id) ?? []),
  )

/** One cable: its wires’ screens are one screen. */
const earthsOfScreen = (wires: readonly Wire[]): string[] | undefined => {
  const stated = wires.flatMap(({ screenEarths }) => (screenEarths ? [screenEarths] : []))
  return stated.length === 0 ? undefined : [...new Set(stated.flat())]
}

/** Sensors that make their own signal: read by frequency, with no supply pin. */
const inductive = ({ build }: Context): { device: string; controller: string }[] =>
  Object.values(build.collections.inputs).flatMap(({ signal, source, device, configured }) => {
    const sensor = source === undefined ? undefined : own(build.collections.devices, source)
    if (signal !== 'frequency' || !configured || !sensor || sensor.restricted) return []
    const fed = Object.entries(sensor.pins).some(([pin, { name }]) => pin === '+' || /supply/i.test(name ?? ''))
    return fed ? [] : [{ device: sensor.id, controller: device }]
  })

export const screenFindings = (context: Context): Finding[] => {
  const { build } = context
  const findings: Finding[] = []
  const done = new Set<string>()
  const draft = (device: string) =>
    ({
      rule: 'screened-sensor',
      system: 'signals',
      subject: `devices/${device}`,
      about: deviceName(build, device),
      zone: deviceZone(build, device),
      working: [SCREEN_PRACTICE],
    }) as const
  for (const { device, controller } of inductive(context)) {
    const wires = wiresOf(context, device)
    if (wires.length === 0) continue
    for (const { id } of wires) done.add(id)
    const name = deviceName(build, device)
    const bare = wires.filter(({ screened }) => !screened).map(({ id }) => id)
    const loose = wires.filter(({ twistedWith }) => !wires.some(({ id }) => id === twistedWith)).map(({ id }) => id)
    const earths = earthsOfScreen(wires)
    const pin = controllerPins(own(build.collections.devices, controller)!).sensorEarth[0]
    const home = pin === undefined ? 'the controller’s sensor earth' : pinName(build, endpointOf(controller, pin))
    if (bare.length > 0 || loose.length > 0) {
      const lacks = [
        ...(loose.length > 0
          ? [`${list(loose)} ${loose.length === 1 ? 'is' : 'are'} not twisted with its return`]
          : []),
        ...(bare.length > 0 ? [`${list(bare)} ${bare.length === 1 ? 'is' : 'are'} not screened`] : []),
      ]
      findings.push(
        finding({
          ...draft(device),
          verdict: 'marginal',
          says: `${name} makes its own small signal, and ${list(lacks)}; ignition and starter may be counted as teeth.`,
          todo: `Run ${name} on a twisted, screened pair, the screen to ${home} and nowhere else.`,
          cautions: [BATTERY_CAUTION],
        }),
      )
      continue
    }
    findings.push(...screenOf(build, draft(device), name, wires, earths, home, controller))
  }
  for (const wire of Object.values(build.collections.wires)) {
    if (!wire.screened || done.has(wire.id) || restrictedWire(build, wire.id)) continue
    const mate = wire.twistedWith === undefined ? undefined : own(build.collections.wires, wire.twistedWith)
    for (const each of [wire, mate]) if (each) done.add(each.id)
    const earths = earthsOfScreen(mate ? [wire, mate] : [wire])
    if (!earths || earths.length < 2) continue
    const base = { ...draft(deviceIdOf(wire.from)), subject: `wires/${wire.id}`, about: `Screen of ${wire.id}` }
    findings.push(...screenOf(build, base, `The screen of ${wire.id}`, [wire], earths, 'one end', undefined))
  }
  return findings
}

const screenOf = (
  build: Build,
  base: Pick<Parameters<typeof finding>[0], 'rule' | 'system' | 'subject' | 'about' | 'zone' | 'working'>,
  name: string,
  wires: readonly Wire[],
  earths: readonly string[] | undefined,
  home: string,
  controller: string | undefined,
): Finding[] => {
  const cable = list(wires.map(({ id }) => id))
  if (earths === undefined)
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `Where the screen of ${cable} is earthed is not entered; at both ends it carries earth current, at none it does nothing.`,
        todo: `Look where the screen of ${cable} is joined, and enter it.`,
        missing: `points at which the screen of ${cable} is earthed`,
      }),
    ]
  if (earths.length === 0)
    return [
      finding({
        ...base,
        verdict: 'marginal',
        says: `The screen of ${cable} is earthed nowhere and keeps nothing out.`,
        todo: `Join the screen of ${cable} to ${home}, at that end only.`,
        cautions: [BATTERY_CAUTION],
      }),
    ]
  if (earths.length > 1)
    return [
      finding({
        ...base,
        verdict: 'marginal',
        says: `The screen of ${cable} is earthed at ${list(earths.map((each) => pinName(build, each)))}; between them it carries earth current, most when a strap has gone.`,
        todo: `Free the screen of ${cable} at ${pinName(build, earths.find((each) => deviceIdOf(each) !== controller) ?? earths[1]!)}, and insulate its end.`,
        cautions: [BATTERY_CAUTION],
      }),
    ]
  if (
    controller !== undefined &&
    deviceIdOf(earths[0]!) !== controller &&
    own(build.collections.devices, deviceIdOf(earths[0]!))?.spec.kind === 'earth-stud'
  )
    return [
      finding({
        ...base,
        verdict: 'marginal',
        says: `The screen of ${cable} is earthed at ${deviceName(build, deviceIdOf(earths[0]!))}, which other currents raise against the controller.`,
        todo: `Take the screen of ${cable} to ${home} and off ${deviceName(build, deviceIdOf(earths[0]!))}.`,
        cautions: [BATTERY_CAUTION],
      }),
    ]
  return [
    finding({
      ...base,
      verdict: 'sound',
      says: `${name}: twisted, screened, the screen earthed at ${pinName(build, earths[0]!)} alone.`,
      todo: 'Nothing.',
    }),
  ]
}

/** Signals that count edges or millivolts; a slow voltage is averaged by the controller. */
const QUICK = new Set(['frequency', 'lambda cell', 'digital bus'])

export const distanceFindings = (context: Context): Finding[] => {
  const { build, circuit } = context
  const { devices, inputs, runs, wires } = build.collections
  const coils = Object.values(devices).filter(({ spec, restricted }) => spec.kind === 'coil' && !restricted)
  const coilWires = new Set<string>()
  for (const coil of coils)
    for (const load of coil.loads ?? [])
      for (const pin of [load.from, load.to])
        for (const id of circuit.wiresAt.get(endpointOf(coil.id, pin)) ?? []) {
          coilWires.add(id)
          // The feed behind a splice switches the same current.
          for (const end of [own(wires, id)!.from, own(wires, id)!.to]) {
            const splice = deviceIdOf(end)
            if (own(devices, splice)?.spec.kind !== 'splice') continue
            for (const other of Object.keys(devices[splice]!.pins))
              for (const next of circuit.wiresAt.get(endpointOf(splice, other)) ?? []) coilWires.add(next)
          }
        }
  const ignition = new Map<string, string[]>()
  for (const id of coilWires)
    for (const run of own(wires, id)?.path ?? []) ignition.set(run, [...(ignition.get(run) ?? []), id])
  const near = new Map<string, Set<string>>()
  const sensors = new Set<string>()
  for (const { signal, source, device, pin, configured } of Object.values(inputs)) {
    if (!configured || !QUICK.has(signal) || source === undefined) continue
    for (const id of circuit.wiresAt.get(endpointOf(device, pin)) ?? []) {
      const wire = own(wires, id)
      if (!wire || wire.screened || restrictedWire(build, id)) continue
      for (const run of wire.path ?? []) {
        if (!ignition.has(run)) continue
        near.set(run, (near.get(run) ?? new Set()).add(id))
        sensors.add(`${deviceName(build, source)} (${id})`)
      }
    }
  }
  const [first] = near.keys()
  if (first === undefined) return []
  const names = [...near.keys()].map((id) => own(runs, id)?.name ?? id)
  const first8 = [...new Set([...near.keys()].flatMap((run) => ignition.get(run) ?? []))].slice(0, 8)
  return [
    finding({
      rule: 'ignition-distance',
      verdict: 'marginal',
      system: 'signals',
      subject: `runs/${first}`,
      about: `Run ${names[0]}`,
      zone: own(runs, first)?.zone,
      says: `${list([...sensors])}, unscreened, ${sensors.size === 1 ? 'shares' : 'share'} ${list(names)} with the wires of the ignition coils (${list(first8)}).`,
      todo: `Screen ${sensors.size === 1 ? 'it' : 'them'}, or take ${sensors.size === 1 ? 'it' : 'them'} along another way, a hand’s breadth or more from the coil wires, crossing at right angles.`,
      working: [
        'Wires whose current is switched within microseconds induce into what lies beside them; edges are then counted that are none.',
        'A hand’s breadth, about 100 mm: common practice, no published source.',
      ],
    }),
  ]
}
