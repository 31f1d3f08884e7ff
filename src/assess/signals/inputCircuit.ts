/**
 * A controller's input as the worst-case circuit that `engineering/signals` reckons with. The earth offset is the least and
 * the most over all solved cases of what the return stands above the controller's sensor earth. Nothing is taken as zero:
 * what is not entered is named.
 */
import { type Interval, within } from '../../engineering/signals/interval.ts'
import type { InputCircuit } from '../../engineering/signals/resistanceSwitch/circuit.ts'
import type { Surroundings } from '../../engineering/signals/resistanceSwitch/levels.ts'
import type { Entity } from '../../model/build.ts'
import type { Measure } from '../../model/measure.ts'
import { spread } from '../circuit.ts'
import { deviceName, endpointOf, own, pinName } from '../make.ts'
import { controllerPins } from '../pins.ts'
import type { Known } from './known.ts'

export type Input = Entity<'inputs'>

/** Ω that still count as a short, and the least that wet insulation shows: common practice, no published source. */
export const AROUND: Omit<Surroundings, 'contact'> = { short: 5, insulation: 1e6 }
export const AROUND_WORDS = 'A short is 5 Ω or less, wet insulation 1 MΩ or more: common practice, no published source.'

export interface Offset {
  readonly interval: Interval
  /** Name of the case in which it is largest either way. */
  readonly worstCase: string
}

const spanOf = ({ value, plusMinus = 0 }: Measure): Interval => ({ low: value - plusMinus, high: value + plusMinus })

/** Pin that a device returns by: as entered, else by its name, else the one that is not on the input's side. */
export const returnPinOf = (
  { build, circuit }: Known,
  device: string,
  stated: string | undefined,
  input: Input | undefined,
): string | undefined => {
  const pins = own(build.collections.devices, device)?.pins ?? {}
  if (stated !== undefined) return stated
  const named = Object.entries(pins).find(
    ([pin, { name }]) => pin === '-' || pin === '31' || /return|sensor earth/i.test(name ?? ''),
  )?.[0]
  if (named !== undefined || input === undefined) return named
  const side = spread(
    circuit,
    [endpointOf(input.device, input.pin)],
    ({ kind }) => kind === 'wire' || kind === 'inside',
  )
  const away = Object.keys(pins).filter((pin) => !side.has(endpointOf(device, pin)))
  return away.length === 1 && Object.keys(pins).length > 1 ? away[0] : undefined
}

export const zeroPinOf = ({ build }: Pick<Known, 'build'>, controller: string): string | undefined => {
  const device = own(build.collections.devices, controller)
  if (!device) return undefined
  const { sensorEarth, earths } = controllerPins(device)
  return sensorEarth[0] ?? earths[0]
}

/** V of a return above the sensor earth, over the solved cases; a string names what is missing. */
export const earthOffsetOf = (known: Known, device: string, pin: string | undefined, input: Input): Offset | string => {
  const { build, cases } = known
  const zero = zeroPinOf(known, input.device)
  if (zero === undefined) return `sensor earth pin of ${deviceName(build, input.device)}`
  if (pin === undefined) return `pin that ${deviceName(build, device)} returns by`
  let [low, high, most, worstCase] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -1, '']
  for (const { case: id, voltages, solved } of cases) {
    const kase = own(build.collections.cases, id)
    // A jump start at over-voltage lasts seconds; reversed, nothing is read.
    if (!solved || !kase || kase.battery === 'reversed' || kase.supply) continue
    const [there, here] = [voltages[endpointOf(device, pin)], voltages[endpointOf(input.device, zero)]]
    if (there == null || here == null) continue
    // Below a microvolt the solver's figures for pins without current are rounding.
    const offset = Math.abs(there - here) < 1e-6 ? 0 : there - here
    low = Math.min(low, offset)
    high = Math.max(high, offset)
    if (Math.abs(offset) > most) [most, worstCase] = [Math.abs(offset), kase.name]
  }
  if (most >= 0) return { interval: { low, high }, worstCase }
  return Object.keys(build.collections.cases).length === 0
    ? 'operating cases, from which the earth offset is solved'
    : `way from ${pinName(build, endpointOf(device, pin))} to the sensor earth: in no solved case does it lead there`
}

/** What a switch or sensor says of its own about the circuit; it goes before what the input says. */
export interface OwnCircuit {
  readonly pullUp?: { readonly resistance: Measure; readonly tolerance?: number | undefined } | undefined
  readonly pullUpTolerance?: number | undefined
  readonly supply?: readonly [Measure, Measure] | undefined
  readonly ratiometric?: boolean | undefined
  readonly leakage?: Measure | undefined
  readonly linearity?: number | undefined
}

export interface BoundCircuit {
  /** Without the earth offset, which may be the only thing missing. */
  readonly circuit: Omit<InputCircuit, 'earthOffset'> | undefined
  readonly offset: Offset | undefined
  readonly missing: readonly string[]
  readonly assumed: readonly string[]
}

export const boundCircuit = (
  known: Known,
  name: string,
  input: Input | undefined,
  made: OwnCircuit,
  returns: { readonly device: string; readonly pin: string | undefined },
): BoundCircuit => {
  const missing: string[] = []
  const assumed: string[] = []
  if (!input)
    return { circuit: undefined, offset: undefined, missing: [`controller input that reads ${name}`], assumed }
  const of = (datum: string): undefined => {
    missing.push(`${datum} of ${input.name}`)
    return undefined
  }
  const pullUp = made.pullUp?.resistance ?? input.pullUp
  const tolerance = made.pullUp ? made.pullUp.tolerance : (made.pullUpTolerance ?? input.pullUpTolerance)
  const pullUpSpan =
    pullUp === undefined
      ? of('pull-up')
      : tolerance !== undefined
        ? within(pullUp.value, tolerance)
        : pullUp.plusMinus !== undefined
          ? spanOf(pullUp)
          : of('tolerance of the pull-up')
  const reference = input.reference ? spanOf(input.reference) : of('reference voltage')
  const bits = input.bits ?? of('number of bits')
  const leakage = made.leakage ?? input.leakage
  const leak = leakage === undefined ? of('leakage') : { low: -leakage.value, high: leakage.value }
  const linearity = made.linearity ?? input.linearity ?? of('non-linearity')
  const supply = made.supply
    ? { low: made.supply[0].value, high: made.supply[1].value }
    : made.ratiometric === true
      ? reference
      : of('supply of the pull-up, or whether it is the converter’s own reference,')
  const offset = earthOffsetOf(known, returns.device, returns.pin, input)
  if (typeof offset === 'string') missing.push(offset)
  return {
    circuit:
      pullUpSpan && reference && bits !== undefined && leak && linearity !== undefined && supply
        ? {
            pullUp: pullUpSpan,
            supply,
            reference: made.ratiometric === true ? 'supply' : reference,
            leakage: leak,
            bits,
            linearity,
          }
        : undefined,
    offset: typeof offset === 'string' ? undefined : offset,
    missing,
    assumed,
  }
}
