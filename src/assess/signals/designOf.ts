/** Resistors for a switch of the build: the proven best from what there is, read again in the same circuit, as a new record. */
import { type Design, designSwitch, type Part } from '../../engineering/signals/resistanceSwitch/design.ts'
import { bestPullUp, type PullUpChoice } from '../../engineering/signals/resistanceSwitch/pullUp.ts'
import { refuse } from '../../units/problem.ts'
import { list } from '../make.ts'
import type { SwitchRecord, SwitchSheet } from './switches.ts'

export interface DesignWish {
  readonly topology: SwitchRecord['topology']
  readonly parts: readonly Part[]
  /** Left out: the pull-up that there is, inside the controller. */
  readonly pullUps?: readonly Part[] | undefined
  readonly endOfLine: boolean
}

export interface Designed {
  readonly design: Design
  /** The record with these resistors, to be stored. */
  readonly record: SwitchRecord
}

const ohm = (value: number) => ({ value: value as never, unit: 'Ω' })

const whole = (sheet: SwitchSheet) => {
  const { circuit, around, missing } = sheet
  // The resistors are what is being chosen; all else must be known.
  const needed = missing.filter(
    (datum) => !datum.startsWith('tolerance of the resistor') && !datum.startsWith('way from'),
  )
  if (circuit && around) return { circuit, around }
  throw refuse(
    'missing-input',
    `Resistors cannot be chosen for ${sheet.record.name} without the ${list(needed)}.`,
    `Enter the ${list(needed)}.`,
  )
}

/** Throws `Refusal`: `missing-input` naming what is not entered, `no-design`, `out-of-range`. */
export const designFor = (sheet: SwitchSheet, wish: DesignWish): Designed => {
  const { circuit, around } = whole(sheet)
  const { pullUp, ...rest } = circuit
  const nominal = (pullUp.low + pullUp.high) / 2
  const design = designSwitch({
    topology: wish.topology,
    buttons: sheet.record.buttons.length,
    parts: wish.parts,
    pullUps: wish.pullUps ?? [{ nominal, tolerance: (pullUp.high - pullUp.low) / 2 / nominal }],
    endOfLine: wish.endOfLine,
    circuit: rest,
    around,
  })
  const { idle: _old, pullUp: before, ...kept } = sheet.record
  const outside = wish.pullUps ? { resistance: ohm(design.pullUp.nominal), tolerance: design.pullUp.tolerance } : before
  return {
    design,
    record: {
      ...kept,
      topology: wish.topology,
      buttons: sheet.record.buttons.map(({ name }, i) => ({
        name,
        resistance: ohm(design.resistors[i]!.nominal),
        tolerance: design.resistors[i]!.tolerance,
      })),
      ...(design.idle ? { idle: { resistance: ohm(design.idle.nominal), tolerance: design.idle.tolerance } } : {}),
      ...(outside ? { pullUp: outside } : {}),
    },
  }
}

/** Best pull-up for the resistors that there are. Throws `Refusal` as `bestPullUp`. */
export const pullUpFor = (sheet: SwitchSheet, candidates: readonly Part[]): PullUpChoice => {
  const { circuit, around } = whole(sheet)
  if (!sheet.made)
    throw refuse(
      'missing-input',
      `The pull-up cannot be chosen without the ${list(sheet.missing)}.`,
      `Enter the ${list(sheet.missing)}.`,
    )
  return bestPullUp(circuit, sheet.made, around, candidates)
}
