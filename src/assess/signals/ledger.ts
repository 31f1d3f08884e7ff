/** Every pin of every controller in one list: used or free, what it reads or drives, how, and how well. */
import type { Build } from '../../model/build.ts'
import { errorWords, readingWords } from '../earths/sensorError.ts'
import { type Finding, VERDICTS, type Verdict } from '../finding.ts'
import { amps, deviceIdOf, deviceName, endpointOf, own } from '../make.ts'
import { controllerPins } from '../pins.ts'
import type { Input } from './inputCircuit.ts'
import { type Judged, type Known, knownOf } from './known.ts'
import { type Output, outputSheet } from './outputs.ts'
import { sensorSheet } from './sensors.ts'
import { tableToday } from './tableToday.ts'

export const USES = ['input', 'output', 'supply', 'earth', 'sensor supply', 'wired, no function', 'free'] as const
export type Use = (typeof USES)[number]

export interface LedgerRow {
  /** `ecu.B4`; with a second function on one pin, two rows have it. */
  readonly pin: string
  /** Name of the controller. */
  readonly controller: string
  readonly use: Use
  /** Function, or the pin's own name, or its number. */
  readonly name: string
  /** `inputs/in-map`, where it is a function. */
  readonly subject: string | undefined
  /** Device that it reads or drives. */
  readonly partner: { readonly id: string; readonly name: string } | undefined
  /** Page of what reads through it: `sensors/map`. */
  readonly sheet: string | undefined
  readonly configured: boolean | undefined
  readonly wires: readonly string[]
  /** Pull-up and converter, or driver and current against limit. */
  readonly circuit: string
  /** State while the controller boots. */
  readonly boot: 'off' | 'on' | 'unknown' | undefined
  /** Name of the table it has today. */
  readonly table: string | undefined
  readonly tableSource: string | undefined
  /** Error of that table, or of the reading by raised earths, in the sensor's unit. */
  readonly error: string | undefined
  /** When it was last measured on the car, and what. */
  readonly checked: string | undefined
  readonly verdict: Verdict | undefined
  /** Findings about it, worst first. */
  readonly findings: readonly Finding[]
}

const ohms = (value: number): string =>
  value >= 1000 ? `${Number((value / 1000).toPrecision(4))} kΩ` : `${Number(value.toPrecision(4))} Ω`

const inputCircuit = ({ signal, pullUp, bits, reference }: Input): string =>
  [
    signal,
    pullUp
      ? `pull-up ${ohms(pullUp.value)}`
      : signal === 'resistance'
        ? 'pull-up not entered'
        : signal === 'voltage'
          ? 'no pull-up'
          : '',
    bits === undefined ? '' : `${bits} bits`,
    reference ? `of ${Number(reference.value.toPrecision(4))} V` : '',
  ]
    .filter(Boolean)
    .join(', ')

const outputCircuit = (known: Known, output: Output): string => {
  const { current } = outputSheet(known, output)
  return [
    output.driver,
    output.modulated ? `pulsed${output.frequency ? ` ${Number(output.frequency.value.toPrecision(3))} Hz` : ''}` : '',
    current === undefined
      ? output.limit
        ? `limit ${amps(output.limit.value)}`
        : 'limit not entered'
      : `${amps(current)} of ${output.limit ? amps(output.limit.value) : 'a limit not entered'}`,
    output.clamp ? `clamp ${Number(output.clamp.value.toPrecision(3))} V` : '',
  ]
    .filter(Boolean)
    .join(', ')
}

/** Newest reading or record about any of these. */
const checkedOf = (build: Build, about: readonly string[]): string | undefined => {
  const seen = new Set(about)
  const found = Object.values(build.collections.readings)
    .filter(({ subject, at }) => seen.has(subject) || (at !== undefined && seen.has(at)))
    .sort((a, b) => (b.when ?? '').localeCompare(a.when ?? ''))[0]
  if (!found) return undefined
  return `${found.when === undefined ? 'day not noted' : found.when.slice(0, 10)}${found.provenance ? `, ${found.provenance.method}` : ''}`
}

const worstOf = (findings: readonly Finding[]): Verdict | undefined =>
  VERDICTS.find((verdict) => findings.some((each) => each.verdict === verdict))

/** Rows in the order of controllers and their pins. */
export const ledgerOf = (build: Build, assessment: Judged): LedgerRow[] => {
  const known = knownOf(build, assessment)
  const { inputs, outputs, sensors, resistanceSwitches, levelSenders, devices } = build.collections
  const bySubject = new Map<string, Finding[]>()
  for (const finding of assessment.findings) {
    const list = bySubject.get(finding.subject)
    if (list) list.push(finding)
    else bySubject.set(finding.subject, [finding])
  }
  const about = (...subjects: readonly (string | undefined)[]): Finding[] =>
    subjects
      .flatMap((subject) => (subject === undefined ? [] : (bySubject.get(subject) ?? [])))
      .sort((a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict))
  const wiresAt = (pin: string) => known.circuit.wiresAt.get(pin) ?? []
  const partnerOf = (id: string | undefined) => (id === undefined ? undefined : { id, name: deviceName(build, id) })
  const shared = (pin: string) => ({ pin, controller: deviceName(build, deviceIdOf(pin)), wires: wiresAt(pin) })

  const inputRow = (input: Input): LedgerRow => {
    const pin = endpointOf(input.device, input.pin)
    const sensor = Object.values(sensors).find((each) => each.input === input.id)
    const other =
      Object.values(resistanceSwitches).find((each) => each.input === input.id) ??
      Object.values(levelSenders).find((each) => each.input === input.id)
    const sheet = sensor
      ? `sensors/${sensor.id}`
      : other
        ? `${Object.hasOwn(resistanceSwitches, other.id) ? 'resistanceSwitches' : 'levelSenders'}/${other.id}`
        : undefined
    const today = sensor && tableToday(known, sensorSheet(known, sensor))
    const calibration =
      input.calibration === undefined ? undefined : own(build.collections.calibrations, input.calibration)
    const findings = about(`inputs/${input.id}`, sheet)
    return {
      ...shared(pin),
      use: 'input',
      name: input.name,
      subject: `inputs/${input.id}`,
      partner: partnerOf(input.source),
      sheet,
      configured: input.configured,
      circuit: inputCircuit(input),
      boot: undefined,
      table: calibration?.name,
      tableSource: calibration?.source,
      error:
        today && sensor
          ? today.worst === 0
            ? 'none'
            : `${errorWords(sensor, today.worst)} at ${readingWords(sensor, today.at)}`
          : undefined,
      checked: checkedOf(build, [pin, `inputs/${input.id}`, ...(sheet === undefined ? [] : [sheet])]),
      verdict: worstOf(findings),
      findings,
    }
  }
  const outputRow = (output: Output): LedgerRow => {
    const pin = endpointOf(output.device, output.pin)
    const findings = about(`outputs/${output.id}`)
    return {
      ...shared(pin),
      use: 'output',
      name: output.name,
      subject: `outputs/${output.id}`,
      partner: partnerOf(output.drives),
      sheet: undefined,
      configured: output.configured,
      circuit: outputCircuit(known, output),
      boot: output.atBoot ?? 'unknown',
      table: undefined,
      tableSource: undefined,
      error: undefined,
      checked: checkedOf(build, [pin, `outputs/${output.id}`]),
      verdict: worstOf(findings),
      findings,
    }
  }
  const plainRow = (pin: string, use: Use, name: string): LedgerRow => ({
    ...shared(pin),
    use,
    name,
    subject: undefined,
    partner: undefined,
    sheet: undefined,
    configured: undefined,
    circuit: '',
    boot: undefined,
    table: undefined,
    tableSource: undefined,
    error: undefined,
    checked: checkedOf(build, [pin]),
    verdict: undefined,
    findings: [],
  })

  const rows: LedgerRow[] = []
  const told = new Set<string>()
  for (const controller of Object.values(devices)) {
    if (controller.spec.kind !== 'controller' || controller.restricted) continue
    const { earths, sensorEarth } = controllerPins(controller)
    const feeds = new Set((controller.supplies ?? []).map(({ pin }) => pin))
    const returns = new Set(sensorEarth)
    const earthPins = new Set(earths)
    for (const [id, { name = '' }] of Object.entries(controller.pins)) {
      const pin = endpointOf(controller.id, id)
      const here = [
        ...Object.values(inputs)
          .filter((each) => each.device === controller.id && each.pin === id)
          .map(inputRow),
        ...Object.values(outputs)
          .filter((each) => each.device === controller.id && each.pin === id)
          .map(outputRow),
      ]
      for (const row of here) told.add(row.subject ?? '')
      if (here.length > 0) {
        rows.push(...here)
        continue
      }
      rows.push(
        feeds.has(id)
          ? plainRow(pin, 'sensor supply', name || id)
          : returns.has(id)
            ? plainRow(pin, 'earth', name || id)
            : earthPins.has(id)
              ? plainRow(pin, 'earth', name || id)
              : /supply/i.test(name)
                ? plainRow(pin, 'supply', name)
                : wiresAt(pin).length > 0
                  ? plainRow(pin, 'wired, no function', name || id)
                  : plainRow(pin, 'free', name || id),
      )
    }
  }
  // A function on a pin or controller that is not there still has its row.
  for (const input of Object.values(inputs)) if (!told.has(`inputs/${input.id}`)) rows.push(inputRow(input))
  for (const output of Object.values(outputs)) if (!told.has(`outputs/${output.id}`)) rows.push(outputRow(output))
  return rows.filter(({ pin }) => own(devices, deviceIdOf(pin))?.restricted === undefined)
}
