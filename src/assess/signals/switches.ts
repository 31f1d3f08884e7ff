/** Several buttons on one wire, as entered, in the circuit that the car gives them. */
import type { Interval } from '../../engineering/signals/interval.ts'
import { within } from '../../engineering/signals/interval.ts'
import { type Ageing, ageing } from '../../engineering/signals/resistanceSwitch/ageing.ts'
import {
  type ControllerRow,
  controllerRows,
  readSwitch,
  type SwitchReading,
} from '../../engineering/signals/resistanceSwitch/bands.ts'
import type { InputCircuit } from '../../engineering/signals/resistanceSwitch/circuit.ts'
import type { Part } from '../../engineering/signals/resistanceSwitch/design.ts'
import type { Surroundings, Switch } from '../../engineering/signals/resistanceSwitch/levels.ts'
import { type ResistorPower, resistorPowers } from '../../engineering/signals/resistanceSwitch/power.ts'
import type { Entity } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { own } from '../make.ts'
import { AROUND, AROUND_WORDS, boundCircuit, type Input, type Offset, returnPinOf } from './inputCircuit.ts'
import type { Known } from './known.ts'

export type SwitchRecord = Entity<'resistanceSwitches'>

export interface SwitchSheet {
  readonly record: SwitchRecord
  readonly input: Input | undefined
  readonly offset: Offset | undefined
  readonly circuit: InputCircuit | undefined
  readonly made: Switch | undefined
  readonly around: Surroundings | undefined
  readonly reading: SwitchReading | undefined
  readonly rows: readonly ControllerRow[]
  readonly powers: readonly ResistorPower[]
  readonly ageing: Ageing | undefined
  /** The bands stand for an earth without offset, since the real one is not known. */
  readonly provisional: boolean
  readonly missing: readonly string[]
  readonly assumed: readonly string[]
  readonly problems: readonly Problem[]
}

const resistorSpan = (
  { resistance, tolerance }: NonNullable<SwitchRecord['idle']>,
  name: string,
  missing: string[],
): Interval | undefined => {
  if (tolerance !== undefined) return within(resistance.value, tolerance)
  if (resistance.plusMinus !== undefined)
    return { low: resistance.value - resistance.plusMinus, high: resistance.value + resistance.plusMinus }
  missing.push(`tolerance of the resistor of ${name}`)
  return undefined
}

export const switchSheet = (known: Known, record: SwitchRecord): SwitchSheet => {
  const input = record.input === undefined ? undefined : own(known.build.collections.inputs, record.input)
  const bound = boundCircuit(known, record.name, input, record, {
    device: record.device,
    pin: returnPinOf(known, record.device, record.returnPin, input),
  })
  const missing = [...bound.missing]
  const buttons = record.buttons.map((button) => ({
    name: button.name,
    resistor: resistorSpan(button, button.name, missing),
  }))
  const idle = record.idle && resistorSpan(record.idle, 'no button', missing)
  if (!record.contact) missing.push(`most that an old closed contact of ${record.name} shows`)
  const whole = buttons.every((button): button is { name: string; resistor: Interval } => button.resistor !== undefined)
  const made: Switch | undefined =
    whole && (record.idle === undefined || idle !== undefined)
      ? { topology: record.topology, buttons, ...(idle ? { idle } : {}) }
      : undefined
  const around = record.contact && { ...AROUND, contact: record.contact.value }
  const provisional = bound.offset === undefined
  const circuit = bound.circuit && {
    ...bound.circuit,
    earthOffset: bound.offset?.interval ?? { low: 0, high: 0 },
  }
  return readAgain({
    record,
    input,
    offset: bound.offset,
    circuit,
    made,
    around,
    provisional,
    missing,
    assumed: [...bound.assumed, AROUND_WORDS],
  })
}

type Bound = Omit<SwitchSheet, 'reading' | 'rows' | 'powers' | 'ageing' | 'problems'>

/** What age takes from it, in words. */
export const ageingWords = ({ gapNew, until, first }: Ageing, ohms: (value: number) => string): string =>
  until === 0
    ? `${first.below} and ${first.above} read alike even with new contacts.`
    : `With new contacts the narrowest gap is ${(gapNew * 1000).toFixed(0)} mV; ${first.below} and ${first.above} read alike once a worn contact shows ${ohms(Number(until.toPrecision(2)))}.`

/** The bands of a switch in its circuit; `designed` puts other resistors, and where it was chosen another pull-up, into it. */
export const readAgain = (
  sheet: Bound,
  designed?: { readonly record: SwitchRecord; readonly design: { readonly pullUp: Part } },
): SwitchSheet => {
  const record = designed?.record ?? sheet.record
  const exact = ({ resistance, tolerance = 0 }: NonNullable<SwitchRecord['idle']>) =>
    within(resistance.value, tolerance)
  const base: Bound = designed
    ? {
        ...sheet,
        record,
        made: {
          topology: record.topology,
          buttons: record.buttons.map((button) => ({ name: button.name, resistor: exact(button) })),
          ...(record.idle ? { idle: exact(record.idle) } : {}),
        },
        circuit: sheet.circuit && {
          ...sheet.circuit,
          pullUp: within(designed.design.pullUp.nominal, designed.design.pullUp.tolerance),
        },
      }
    : sheet
  const { circuit, made, around } = base
  const none = { ...base, reading: undefined, rows: [], powers: [], ageing: undefined, problems: [] }
  if (!circuit || !made || !around) return none
  try {
    const reading = readSwitch(circuit, made, around)
    return {
      ...base,
      reading,
      rows: controllerRows(circuit, reading),
      powers: resistorPowers(circuit, made),
      ageing: ageing(circuit, made, around),
      problems: [],
    }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { ...none, problems: error.problems }
  }
}
