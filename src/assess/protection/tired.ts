/** A battery at its weakest: no charge left, cold and old. */

/** V a cell: no charge left, BCI 11.89 V of six cells (read). Six cells of about 2.1 V are told from three or twelve. */
const FLAT = 11.89 / 6
const CELL = 2.1
/** Ω: twice by cold (from memory), half as much again by age (common practice, no published source). */
const TIRED = 3

export const cellsOf = (rested: number): number => Math.round(rested / CELL)

export const tired = (rested: number, internalResistance: number) => ({
  emf: Math.min(rested, cellsOf(rested) * FLAT),
  internalResistance: internalResistance * TIRED,
})
