/** The meter of this person, kept in the browser: how far its readings may be off, and how it loads what it reads. */
export interface MeterKept {
  readonly accuracy: { readonly relative: number; readonly absolute: number }
  /** Ω. */
  readonly inputResistance: number
  readonly leadResistance: number
}
export const METER_NAME = 'Hand multimeter'
/** Common practice, no published source: a hand meter of today. */
const USUAL: MeterKept = { accuracy: { relative: 0.005, absolute: 0.02 }, inputResistance: 10e6, leadResistance: 0.2 }
const KEY = 'swapwright-meter'

export const readMeter = (): MeterKept => {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? 'null') as Partial<MeterKept> | null
    return kept && typeof kept.leadResistance === 'number' && kept.leadResistance >= 0
      ? { ...USUAL, leadResistance: kept.leadResistance }
      : USUAL
  } catch {
    return USUAL
  }
}
/** Ω of both leads, touched together. */
export const keepLeadResistance = (ohms: number): void => {
  try {
    localStorage.setItem(KEY, JSON.stringify({ leadResistance: ohms }))
  } catch {
    // No storage: the usual value serves.
  }
}
