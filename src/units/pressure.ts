/**
 * What a typed pressure is measured from, and what a field may take.
 *
 * A bare unit is of the kind the field asks for: its label says which. A word that says otherwise (gauge, psig,
 * abs, psia, vacuum, …) is refused, unless an ambient pressure is stated; then it is converted. A difference takes
 * neither word: it has no zero that could be converted. A vacuum reading is a gauge pressure below ambient.
 */
import { absoluteToGauge, gaugeToAbsolute } from './bridge.ts'
import type { PressureReference } from './find.ts'
import { KINDS, type Kind, type Of } from './kinds.ts'
import { refuse } from './problem.ts'

const NAMES: Readonly<Record<PressureReference, string>> = {
  absolute: 'an absolute pressure',
  gauge: 'a gauge pressure',
  vacuum: 'a vacuum, which is a gauge pressure below ambient',
  difference: 'a pressure difference',
}

export const referPressure = (
  kind: Kind,
  value: number,
  reference: PressureReference | undefined,
  ambient: Of<'pressureAbsolute'> | undefined,
  text: string,
): number => {
  if (reference === undefined) return value
  if (reference === 'vacuum' && value < 0)
    throw refuse('unreadable-quantity', `"${text}" is a vacuum below zero.`, 'Give a vacuum without its minus sign.')
  const signed = reference === 'vacuum' ? -value : value
  const gauge = reference === 'gauge' || reference === 'vacuum'
  if (kind === 'pressureGauge' && gauge) return signed
  if (kind === 'pressureAbsolute' && reference === 'absolute') return signed
  if (kind === 'pressureDifference' && reference === 'difference') return signed
  const convertible = kind !== 'pressureDifference' && reference !== 'difference'
  if (convertible && ambient !== undefined)
    return kind === 'pressureAbsolute' ? gaugeToAbsolute(signed, ambient) : absoluteToGauge(signed, ambient)
  throw refuse(
    'wrong-pressure-reference',
    `"${text}" is ${NAMES[reference]}; here ${KINDS[kind].title} is asked for.`,
    convertible
      ? `State the ambient pressure so that it can be converted, or give the ${KINDS[kind].title}.`
      : `Give the ${KINDS[kind].title}.`,
  )
}
