/**
 * Rules on drivers: `output-current`, `output-boot`, `output-modulation`, `coil-dwell`, `clamp-energy`,
 * `injector-impedance`. Wired and not configured, and the other way round, are told in `../signalRules.ts`.
 */
import { formatQuantity } from '../../units/index.ts'
import type { Finding } from '../finding.ts'
import {
  amps,
  BATTERY_CAUTION,
  type Draft,
  deviceZone,
  FUEL_CAUTION,
  finding,
  list,
  restrictedDevice,
} from '../make.ts'
import type { Known } from './known.ts'
import { type Danger, type OutputSheet, outputSheet } from './outputs.ts'

/** Share of a driver's limit above which it runs hot: common practice, no published source. */
const HOT_SHARE = 0.8

const WHAT_HAPPENS: Record<Danger, string> = {
  starter: 'the starter turns the engine',
  'fuel pump': 'the fuel pump runs, and petrol sprays from any line that is open',
  injector: 'the injector holds open and fills its cylinder',
  'ignition coil': 'the coil is held on, overheats, and sparks when it is let go',
  motor: 'it runs for a moment',
}
/** Dangerous enough that even not knowing is a finding. */
const MUST_BE_KNOWN: ReadonlySet<Danger> = new Set(['starter', 'fuel pump', 'injector', 'ignition coil'])
const HARMS: ReadonlySet<Danger> = new Set(['starter', 'injector', 'ignition coil'])

export const outputFindings = (known: Known): Finding[] =>
  Object.values(known.build.collections.outputs)
    .filter(
      ({ device, drives }) =>
        !restrictedDevice(known.build, device) && (drives === undefined || !restrictedDevice(known.build, drives)),
    )
    .flatMap((output) => findingsOf(known, outputSheet(known, output)))

const findingsOf = (known: Known, sheet: OutputSheet): Finding[] => {
  const { output, device, current, from, runs, missing } = sheet
  const base = {
    system: 'signals',
    subject: `outputs/${output.id}`,
    about: output.name,
    zone: deviceZone(known.build, output.drives ?? output.device),
    cautions: [BATTERY_CAUTION],
  } as const
  const told: Finding[] = []
  const tell = (draft: Omit<Draft, keyof typeof base> & { readonly cautions?: readonly string[] }): void => {
    told.push(finding({ ...base, ...draft }))
  }

  // Current.
  const lacks = [
    ...missing.current,
    ...(output.limit || current === undefined ? [] : [`current limit of ${output.name}`]),
  ]
  // One that is switched off in the controller or has no wire switches nothing; that is told elsewhere.
  const idle = !output.configured || !sheet.wired
  if (!idle && lacks.length > 0)
    tell({
      rule: 'output-current',
      verdict: 'unknown',
      says: `Whether ${output.name} can switch its load cannot be told without the ${list(lacks)}.`,
      todo: `Enter the ${list(lacks)}.`,
      missing: list(lacks),
    })
  else if (!idle && current !== undefined && output.limit) {
    const limit = output.limit.value
    tell({
      rule: 'output-current',
      verdict: current > limit ? 'no-go' : current > HOT_SHARE * limit ? 'marginal' : 'sound',
      says: `${output.name} switches ${amps(current)}; its driver takes ${amps(limit)}.`,
      todo:
        current > limit
          ? `Put a relay between ${output.name} and ${device?.name ?? 'its load'}, or move it to a stronger output.`
          : current > HOT_SHARE * limit
            ? 'Read in the controller’s sheet how much it takes when hot, and how many outputs may be on at once.'
            : 'Nothing.',
      working: [
        `I = ${amps(current)}, ${from}; marginal from 80 % of the limit: common practice, no published source.`,
      ],
    })
  }

  // State while the controller boots.
  const worst =
    runs.find(({ danger }) => HARMS.has(danger)) ?? runs.find(({ danger }) => danger === 'fuel pump') ?? runs[0]
  if (worst && output.atBoot === 'on')
    tell({
      rule: 'output-boot',
      verdict: HARMS.has(worst.danger) ? 'no-go' : 'marginal',
      says: `${output.name} is on while the controller boots: ${worst.name}, ${WHAT_HAPPENS[worst.danger]}, at every key-on.`,
      todo: `Move ${output.name} to an output that is off at boot, or invert its relay; until then leave the fuse of ${worst.name} out at first power.`,
      cautions: worst.danger === 'fuel pump' || worst.danger === 'injector' ? [FUEL_CAUTION] : [BATTERY_CAUTION],
    })
  else if (worst && MUST_BE_KNOWN.has(worst.danger) && output.atBoot !== 'off')
    tell({
      rule: 'output-boot',
      verdict: 'unknown',
      says: `Whether ${output.name} is on while the controller boots is not entered; if it is, ${WHAT_HAPPENS[worst.danger]}.`,
      todo: `Read it in the controller’s sheet, or measure at the plug with ${worst.name} unplugged; then enter it.`,
      missing: `state of ${output.name} while the controller boots`,
      cautions: worst.danger === 'fuel pump' || worst.danger === 'injector' ? [FUEL_CAUTION] : [BATTERY_CAUTION],
    })

  // Modulation.
  const between = Object.values(known.build.collections.cases).find((kase) => {
    const duty = kase.outputs[output.id]
    return duty !== undefined && duty > 0 && duty < 1
  })
  if (output.modulated && device?.spec.kind === 'relay')
    tell({
      rule: 'output-modulation',
      verdict: 'marginal',
      says: `${output.name} is pulsed and drives the coil of ${device.name}: its contact chatters and burns.`,
      todo: `Switch pulse-width modulation off for ${output.name}, or drive the load by a solid-state switch made for it.`,
    })
  // Injectors and coils are pulsed by their nature.
  else if (
    between &&
    !output.modulated &&
    output.driver !== 'half bridge' &&
    device?.spec.kind !== 'injector' &&
    device?.spec.kind !== 'coil'
  )
    tell({
      rule: 'output-modulation',
      verdict: 'marginal',
      says: `${output.name} is at ${(between.outputs[output.id]! * 100).toFixed(0)} % in “${between.name}”, and it is not entered as able to pulse.`,
      todo: `Enter that ${output.name} is modulated, or make it 0 or 100 % in that case.`,
    })

  // Injectors that want more than a plain switch; what holds by itself is none.
  if (
    sheet.impedance !== undefined &&
    sheet.impedance !== 'high' &&
    !((sheet.series ?? 0) > 0) &&
    output.hold === undefined
  )
    tell({
      rule: 'injector-impedance',
      verdict: 'marginal',
      says:
        sheet.impedance === 'low'
          ? `${device?.name} is a low-impedance injector on a plain output, without a resistor in series.`
          : `${device?.name} lies between low and high impedance; whether a plain output suits it is its maker’s to say.`,
      todo: 'Fit a series resistor and enter it on the fuel sheet, or drive it by a peak-and-hold stage; then measure the dead time again.',
      cautions: [FUEL_CAUTION],
    })

  // Dwell of an ignition coil.
  if (sheet.dwell) {
    const { current: reached, greatest } = sheet.dwell
    tell({
      rule: 'coil-dwell',
      verdict: reached > greatest ? 'no-go' : 'sound',
      says: `At its longest dwell ${output.name} lets ${amps(reached)} into ${device?.name}, which may carry ${amps(greatest)}.`,
      todo:
        reached > greatest
          ? `Shorten the dwell of ${output.name} at charging voltage in the controller’s dwell table.`
          : 'Nothing.',
      working: ['i = V/R·(1 − e^(−t·R/L)) at the alternator’s set-point, coil cold.'],
    })
  } else if (missing.dwell.length > 0)
    tell({
      rule: 'coil-dwell',
      verdict: 'unknown',
      says: `Whether the dwell of ${output.name} suits its coil cannot be told without the ${list(missing.dwell)}.`,
      todo: `Enter the ${list(missing.dwell)}.`,
      missing: list(missing.dwell),
    })

  // Clamp.
  if (sheet.clamp && output.clampEnergy) {
    const { energy, power } = sheet.clamp
    const most = output.clampEnergy.value
    const joules = (value: number) => formatQuantity('energy', value, { digits: 2 })
    tell({
      rule: 'clamp-energy',
      verdict: energy > most ? 'no-go' : 'sound',
      says: `Each time it switches off, ${output.name} takes ${joules(energy)} into its clamp, which stands ${joules(most)}${power === undefined ? '' : `; ${formatQuantity('power', power, { digits: 2 })} all the time`}.`,
      todo: energy > most ? `Put a flywheel diode across ${device?.name ?? 'the load'}.` : 'Nothing.',
      working: ['E = Vc·L/R·(I − (Vc − V)/R·ln(1 + R·I/(Vc − V)))'],
    })
  } else if (missing.clamp.length > 0)
    tell({
      rule: 'clamp-energy',
      verdict: 'unknown',
      says: `What ${output.name} throws into its clamp cannot be told without the ${list(missing.clamp)}.`,
      todo: `Enter the ${list(missing.clamp)}, or put a flywheel diode across ${device?.name ?? 'the load'}.`,
      missing: list(missing.clamp),
    })
  return told
}
