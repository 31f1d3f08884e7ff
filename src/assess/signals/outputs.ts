/** What hangs on an output: the current it must switch, what runs when it is on, and what its coil does to its clamp. */
import { run } from '../../engineering/calculation.ts'
import { clampEnergy } from '../../engineering/signals/outputs/clampEnergy.ts'
import { coilCurrent } from '../../engineering/signals/outputs/coilCurrent.ts'
import { injectorImpedance } from '../../engineering/signals/outputs/injectorCurrent.ts'
import type { Build, Device, Entity } from '../../model/build.ts'
import { Refusal } from '../../units/problem.ts'
import { spread } from '../circuit.ts'
import { deviceIdOf, deviceName, endpointOf, own } from '../make.ts'
import { relayPins } from '../pins.ts'
import type { Known } from './known.ts'

export type Output = Entity<'outputs'>

/** What moves, burns or sprays when it runs unasked. */
export type Danger = 'starter' | 'fuel pump' | 'injector' | 'ignition coil' | 'motor'

export interface OutputSheet {
  readonly output: Output
  readonly device: Device | undefined
  readonly wired: boolean
  /** A that it switches when on, and where the figure comes from. */
  readonly current: number | undefined
  readonly from: string
  /** What runs when it is on, by name. */
  readonly runs: readonly { readonly danger: Danger; readonly name: string }[]
  readonly impedance: 'low' | 'between' | 'high' | undefined
  /** Ω in series with each injector, as the fuel sheet has it. */
  readonly series: number | undefined
  /** A in an ignition coil at the end of its dwell, and the most it may carry. */
  readonly dwell: { readonly current: number; readonly greatest: number } | undefined
  /** J into the clamp at each switching off, W at its frequency. */
  readonly clamp: { readonly energy: number; readonly power: number | undefined } | undefined
  readonly missing: {
    readonly current: readonly string[]
    readonly dwell: readonly string[]
    readonly clamp: readonly string[]
  }
}

interface Winding {
  readonly ends: readonly [string, string]
  readonly resistance: number | undefined
  readonly current: number | undefined
  readonly inductance: number | undefined
  readonly greatest: number | undefined
}

const windingsOf = (device: Device): Winding[] => {
  if (device.spec.kind === 'relay') {
    const [a, b] = relayPins(device).coil
    return a === undefined || b === undefined
      ? []
      : [
          {
            ends: [endpointOf(device.id, a), endpointOf(device.id, b)],
            resistance: device.spec.coilResistance?.value,
            current: undefined,
            inductance: undefined,
            greatest: undefined,
          },
        ]
  }
  return (device.loads ?? []).map(({ from, to, law, inductance, greatest }) => ({
    ends: [endpointOf(device.id, from), endpointOf(device.id, to)],
    resistance: law?.type === 'resistance' ? law.resistance.value : undefined,
    // A motor is switched on from standstill; a lamp's cold inrush is not counted here.
    current:
      law?.type === 'motor'
        ? law.stallCurrent.value
        : law?.type === 'current'
          ? law.current.value
          : law?.type === 'lamp'
            ? law.ratedPower.value / law.ratedVoltage.value
            : law?.type === 'power'
              ? law.power.value / law.minimumVoltage.value
              : undefined,
    inductance: inductance?.value,
    greatest: greatest?.value,
  }))
}

const setpointOf = (build: Build): number | undefined => {
  const found = Object.values(build.collections.devices).flatMap(({ spec }) =>
    spec.kind === 'alternator' && spec.setpoint ? [spec.setpoint.value as number] : [],
  )
  return found.length === 0 ? undefined : Math.max(...found)
}

const dangerOf = (build: Build, device: Device): Danger | undefined => {
  switch (device.spec.kind) {
    case 'starter':
      return 'starter'
    case 'injector':
      return 'injector'
    case 'coil':
      return 'ignition coil'
    case 'pump':
      return build.sheets.fuel?.pump?.device === device.id ? 'fuel pump' : 'motor'
    case 'motor':
      return 'motor'
    default:
      return undefined
  }
}

/** Devices that run when it is on: the driven one, or through a relay those on its load side, as far as fuses and wires lead. */
const runsOf = ({ build, circuit }: Known, device: Device | undefined): OutputSheet['runs'] => {
  if (!device) return []
  const found = new Map<string, Device>()
  if (device.spec.kind === 'relay') {
    const { make } = relayPins(device)
    if (make !== undefined)
      for (const end of spread(
        circuit,
        [endpointOf(device.id, make)],
        ({ kind }) => kind === 'wire' || kind === 'inside' || kind === 'fuse',
      )) {
        const other = own(build.collections.devices, deviceIdOf(end))
        if (other && !other.restricted) found.set(other.id, other)
      }
    // The main relay feeds everything and starts nothing by itself.
    if ([...found.values()].filter((each) => dangerOf(build, each)).length > 2) return []
  } else found.set(device.id, device)
  return [...found.values()].flatMap((each) => {
    const danger = dangerOf(build, each)
    return danger === undefined ? [] : [{ danger, name: each.name }]
  })
}

/** V across a winding in the solved cases that switch the output on, highest; undefined where none does. */
const voltsAcross = ({ build, cases }: Known, output: Output, { ends }: Winding) => {
  let best: { volts: number; name: string } | undefined
  for (const { case: id, voltages, solved } of cases) {
    const kase = own(build.collections.cases, id)
    if (!solved || !kase || kase.battery === 'reversed' || kase.supply || !((kase.outputs[output.id] ?? 0) > 0))
      continue
    const [a, b] = [voltages[ends[0]], voltages[ends[1]]]
    if (a == null || b == null) continue
    if (!best || Math.abs(a - b) > best.volts) best = { volts: Math.abs(a - b), name: kase.name }
  }
  return best
}

export const outputSheet = (known: Known, output: Output): OutputSheet => {
  const { build, circuit } = known
  const device = output.drives === undefined ? undefined : own(build.collections.devices, output.drives)
  const windings = device ? windingsOf(device) : []
  const side = spread(
    circuit,
    [endpointOf(output.device, output.pin)],
    ({ kind }) => kind === 'wire' || kind === 'inside',
  )
  const hung = windings.find(({ ends }) => side.has(ends[0]) || side.has(ends[1]))
  const missing = { current: [] as string[], dwell: [] as string[], clamp: [] as string[] }
  const setpoint = setpointOf(build)
  const solved = hung && voltsAcross(known, output, hung)
  const volts = solved?.volts ?? setpoint
  let current: number | undefined
  let from = ''
  if (hung) {
    const name = device ? deviceName(build, device.id) : output.name
    if (hung.current !== undefined) {
      current = hung.current
      from = `of ${name}, a motor at standstill`
    } else if (hung.resistance === undefined) missing.current.push(`resistance of ${name}`)
    else if (volts === undefined) missing.current.push('set-point of the alternator, or a case that switches it on')
    else {
      current = volts / hung.resistance
      from = solved
        ? `${volts.toFixed(1)} V solved across ${name} in “${solved.name}” over ${hung.resistance} Ω`
        : `set-point of ${volts.toFixed(1)} V over the ${hung.resistance} Ω of ${name}, for no case switches it on`
    }
    // A gauge or module is signalled to, not fed.
  } else if (output.driver !== 'logic' && device?.spec.kind !== 'gauge' && device?.spec.kind !== 'module')
    missing.current.push(
      device ? `load of ${device.name} on ${endpointOf(output.device, output.pin)}` : `what ${output.name} drives`,
    )

  const fuel = build.sheets.fuel?.injectors
  const coil = device?.spec.kind === 'coil' ? windings[0] : undefined
  let dwell: OutputSheet['dwell']
  if (coil && device) {
    const lacks = [
      ...(output.dwell ? [] : [`longest dwell of ${output.name}`]),
      ...(coil.inductance === undefined ? [`inductance of ${device.name}`] : []),
      ...(coil.resistance === undefined ? [`resistance of ${device.name}`] : []),
      ...(coil.greatest === undefined ? [`greatest current of ${device.name}`] : []),
      ...(setpoint === undefined ? ['set-point of the alternator'] : []),
    ]
    missing.dwell.push(...lacks)
    if (lacks.length === 0) {
      const answer = tried(() =>
        run(coilCurrent, {
          voltage: setpoint!,
          resistance: coil.resistance!,
          inductance: coil.inductance!,
          time: output.dwell!.value,
        }),
      )
      if (answer) dwell = { current: answer.outputs.current, greatest: coil.greatest! }
    }
  }

  let clamp: OutputSheet['clamp']
  // A relay's or injector's clamp is not asked for its inductance; a valve that is pulsed feeds its clamp all the time.
  const pulsed = output.modulated === true && output.driver === 'low side' && device?.spec.kind === 'solenoid'
  if (hung && (pulsed || hung.inductance !== undefined)) {
    const lacks = [
      ...(output.clamp ? [] : [`clamp of ${output.name}`]),
      ...(output.clampEnergy ? [] : [`energy that the clamp of ${output.name} takes`]),
      ...(hung.inductance === undefined ? [`inductance of ${device?.name}`] : []),
      ...(pulsed && !output.frequency ? [`frequency of ${output.name}`] : []),
    ]
    missing.clamp.push(...lacks)
    if (lacks.length === 0 && current !== undefined && volts !== undefined && hung.resistance !== undefined) {
      const amperes = current
      const answer = tried(() =>
        run(clampEnergy, {
          supply: volts,
          clamp: output.clamp!.value,
          inductance: hung.inductance!,
          resistance: hung.resistance!,
          current: amperes,
          frequency: output.frequency?.value ?? 0,
        }),
      )
      if (answer) clamp = { energy: answer.outputs.energy, power: output.frequency ? answer.outputs.power : undefined }
    }
  }
  return {
    output,
    device,
    wired: (circuit.wiresAt.get(endpointOf(output.device, output.pin))?.length ?? 0) > 0,
    current,
    from,
    runs: runsOf(known, device),
    impedance:
      device?.spec.kind === 'injector' && hung?.resistance !== undefined
        ? injectorImpedance(hung.resistance)
        : undefined,
    series: fuel?.seriesResistance?.value,
    dwell,
    clamp,
    missing,
  }
}

/** Figures outside what a calculation holds for leave the answer open. */
const tried = <T>(work: () => T): T | undefined => {
  try {
    return work()
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return undefined
  }
}
