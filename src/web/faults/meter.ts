/** The meter of this person, kept in the browser: who reads, with what, how far off it may be, how it loads what it reads. */
export interface MeterKept {
  readonly by: string
  readonly instrument: string
  /** Of volts: share of the reading, and V. */
  readonly accuracy: { readonly relative: number; readonly absolute: number }
  /** Ω. */
  readonly inputResistance: number
  /** Ω of both leads, touched together. */
  readonly leadResistance: number
}
/** Common practice, no published source: a hand meter of today. */
const USUAL: MeterKept = {
  by: '',
  instrument: 'Hand multimeter',
  accuracy: { relative: 0.005, absolute: 0.02 },
  inputResistance: 10e6,
  leadResistance: 0.2,
}
const KEY = 'swapwright-meter'

const number = (value: unknown, usual: number): number =>
  typeof value === 'number' && Number.isFinite(value) && value >= 0 ? value : usual
const words = (value: unknown, usual: string): string => (typeof value === 'string' ? value.slice(0, 80) : usual)

export const readMeter = (): MeterKept => {
  try {
    const kept = (JSON.parse(localStorage.getItem(KEY) ?? 'null') ?? {}) as Partial<MeterKept>
    return {
      by: words(kept.by, USUAL.by),
      instrument: words(kept.instrument, USUAL.instrument) || USUAL.instrument,
      accuracy: {
        relative: Math.min(1, number(kept.accuracy?.relative, USUAL.accuracy.relative)),
        absolute: number(kept.accuracy?.absolute, USUAL.accuracy.absolute),
      },
      inputResistance: number(kept.inputResistance, USUAL.inputResistance) || USUAL.inputResistance,
      leadResistance: number(kept.leadResistance, USUAL.leadResistance),
    }
  } catch {
    return USUAL
  }
}

export const keepMeter = (meter: MeterKept): void => {
  try {
    localStorage.setItem(KEY, JSON.stringify(meter))
  } catch {
    // No storage: the usual values serve.
  }
}
