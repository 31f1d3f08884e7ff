/**
 * Rule `coil-suppression`: a coil that a controller's output switches off throws its energy at that output. A flywheel
 * diode or resistor in the relay, a diode across the coil, or the output's own clamp takes it.
 */
import type { Device, Entity } from '../../model/build.ts'
import { spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { BATTERY_CAUTION, deviceName, deviceZone, endpointOf, finding, list, own, volts } from '../make.ts'
import { relayPins, twoPins } from '../pins.ts'

type Output = Entity<'outputs'>

/** Kinds with a winding that an output switches; a coil for ignition has its own driver and wants its spike. */
const WOUND: ReadonlySet<Device['spec']['kind']> = new Set(['relay', 'solenoid', 'injector'])
const PRACTICE =
  'A coil’s current flows on when it is switched off: V = L·di/dt, some hundreds of volts with nothing to take it. Suppression of coils at the coil: relay makers’ application notes (TE 13C3264, as quoted by a parts supplier, read); that every output needs it: common practice, no published source.'
const SLOW =
  'A plain diode lets the coil’s current die slowly, so the contact opens several times later and slower [from memory]; a resistor or clamp opens sooner.'

const coilEnds = (device: Device): readonly [string, string] | undefined => {
  if (device.spec.kind === 'relay') {
    const [a, b] = relayPins(device).coil
    return a === undefined || b === undefined ? undefined : [endpointOf(device.id, a), endpointOf(device.id, b)]
  }
  const load = device.loads?.[0]
  return load && [endpointOf(device.id, load.from), endpointOf(device.id, load.to)]
}

/** A diode or resistor device whose ends are joined to the two ends of the coil by wires and splices alone. */
const across = ({ build, circuit }: Context, device: Device): Device | undefined => {
  const ends = coilEnds(device)
  if (!ends) return undefined
  const [first, second] = ends.map((end) => spread(circuit, [end], ({ kind }) => kind === 'wire' || kind === 'inside'))
  return Object.values(build.collections.devices).find((each) => {
    if (each.spec.kind !== 'diode' && each.spec.kind !== 'resistor') return false
    const two = twoPins(each)?.map((pin) => endpointOf(each.id, pin))
    return (
      two !== undefined &&
      ((first!.has(two[0]!) && second!.has(two[1]!)) || (first!.has(two[1]!) && second!.has(two[0]!)))
    )
  })
}

/** `taken`: the relay, a part across the coil or the output’s clamp takes the energy; `bare`: nothing does; `untold`: not entered. */
const stateOf = (context: Context, output: Output, device: Device): 'taken' | 'bare' | 'untold' => {
  if (output.clamp) return 'taken'
  if (device.spec.kind === 'relay' && (device.spec.suppression === 'diode' || device.spec.suppression === 'resistor'))
    return 'taken'
  if (across(context, device)) return 'taken'
  return device.spec.kind === 'relay' && device.spec.suppression === 'none' ? 'bare' : 'untold'
}

export const coilFindings = (context: Context): Finding[] => {
  const { build } = context
  const { outputs, devices } = build.collections
  const findings: Finding[] = []
  const bare = new Map<string, string[]>()
  const untold = new Map<string, string[]>()
  const taken = new Map<string, string[]>()
  for (const output of Object.values(outputs)) {
    const device = output.drives === undefined ? undefined : own(devices, output.drives)
    const controller = own(devices, output.device)
    if (!device || device.restricted || controller?.restricted || output.driver === 'logic') continue
    if (!WOUND.has(device.spec.kind)) continue
    const state = stateOf(context, output, device)
    const into = { taken, bare, untold }[state]
    into.set(output.device, [...(into.get(output.device) ?? []), output.id])
  }
  const of = (ids: readonly string[]): string =>
    list(ids.slice(0, 6).map((id) => deviceName(build, own(outputs, id)?.drives ?? id))) +
    (ids.length > 6 ? ` and ${ids.length - 6} more` : '')
  for (const [controller, ids] of bare)
    findings.push(
      finding({
        rule: 'coil-suppression',
        verdict: 'no-go',
        system: 'electrical',
        subject: `devices/${controller}`,
        part: 'bare',
        about: deviceName(build, controller),
        zone: deviceZone(build, controller),
        says: `Nothing takes the energy of ${of(ids)} when ${deviceName(build, controller)} switches ${ids.length === 1 ? 'it' : 'them'} off; it goes into the output.`,
        todo: `Fit a relay with a resistor or diode inside, or a diode across the coil, cathode to the feed: ${of(ids)}.`,
        working: [PRACTICE, SLOW],
        cautions: [BATTERY_CAUTION],
      }),
    )
  for (const [controller, ids] of untold) {
    const missing = `clamp voltage of ${ids.length === 1 ? 'output' : 'outputs'} ${list(ids.slice(0, 6).map((id) => own(outputs, id)?.name ?? id))}${ids.length > 6 ? ` and ${ids.length - 6} more` : ''}, or what suppresses the coil`
    findings.push(
      finding({
        rule: 'coil-suppression',
        verdict: 'unknown',
        system: 'electrical',
        subject: `devices/${controller}`,
        part: 'untold',
        about: deviceName(build, controller),
        zone: deviceZone(build, controller),
        says: `What takes the energy of ${of(ids)} when ${deviceName(build, controller)} switches ${ids.length === 1 ? 'it' : 'them'} off is not entered.`,
        todo: `Enter the ${missing}.`,
        missing,
        working: [PRACTICE],
      }),
    )
  }
  for (const [controller, ids] of taken) {
    if (bare.has(controller) || untold.has(controller)) continue
    // A diode across a coil lets its current die slowly; the output’s clamp, being across it too, does not help.
    const slow = ids.filter((id) => {
      const device = own(devices, own(outputs, id)?.drives ?? '')
      return (
        device !== undefined &&
        ((device.spec.kind === 'relay' && device.spec.suppression === 'diode') ||
          across(context, device)?.spec.kind === 'diode')
      )
    })
    findings.push(
      finding({
        rule: 'coil-suppression',
        verdict: 'sound',
        system: 'electrical',
        subject: `devices/${controller}`,
        part: 'taken',
        about: deviceName(build, controller),
        zone: deviceZone(build, controller),
        says: `${ids.length === 1 ? 'The coil' : `Each of the ${ids.length} coils`} that ${deviceName(build, controller)} switches has something to take its energy${slow.length === 0 ? '' : `; ${of(slow)}, with a plain diode, ${slow.length === 1 ? 'lets' : 'let'} go slowly`}.`,
        todo: 'Nothing.',
        working: slow.length === 0 ? [PRACTICE] : [PRACTICE, SLOW],
      }),
    )
  }
  return [...findings, ...backwards(context)]
}

/** A relay with a diode inside has a plus side: fed the other way round, the diode is a short. */
const backwards = ({ build, cases }: Context): Finding[] =>
  Object.values(build.collections.devices).flatMap((device): Finding[] => {
    if (device.restricted || device.spec.kind !== 'relay' || device.spec.suppression !== 'diode') return []
    const ends = coilEnds(device)
    if (!ends) return []
    for (const { solved, kase, voltages } of cases) {
      if (!solved || kase.battery !== 'connected') continue
      const [plus, minus] = ends.map((end) => voltages[end])
      if (plus == null || minus == null || minus - plus < 1) continue
      return [
        finding({
          rule: 'coil-suppression',
          verdict: 'no-go',
          system: 'electrical',
          subject: `devices/${device.id}`,
          part: 'polarity',
          about: device.name,
          zone: deviceZone(build, device.id),
          says: `${device.name} has a diode across its coil, and in “${kase.name}” 85 stands ${volts(minus - plus)} above 86: the diode shorts the feed.`,
          todo: `Exchange the wires of 85 and 86 on ${device.name}.`,
          working: ['With a diode inside, 86 is the plus side (DIN 72552; the drawing on the relay decides).'],
          cautions: [BATTERY_CAUTION],
        }),
      ]
    }
    return []
  })
