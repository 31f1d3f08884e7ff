/** Sources, inputs and look-ups that the calculations of cooling share. */
import { quantity, type Source } from '../calculation.ts'
import { DENSITY_FAHRENHEIT, DENSITY_PRINTED, HEAT_GENERATED } from './glycolTables.ts'

export const ashrae: Source = {
  title: 'ASHRAE Fundamentals, density of ethylene glycol solutions, reprinted in a design manual of heating systems',
  where: 'IM-PR 566442, table 5-16, page 113',
  how: 'read',
}
export const melinder: Source = {
  title: 'CoolProp 8.0.0, INCOMP::MEG (Melinder 2010)',
  where: 'PropsSI, C at 3 bar',
  how: 'computed',
}
/** kg/m³ at 20 °C: ethylene glycol and water, for volume to mass. */
const GLYCOL = 1113
const WATER = 998.2
const MOLAR_GLYCOL = 62.07
const MOLAR_WATER = 18.015
const POUND_PER_CUBIC_FOOT = 16.01846337396014

export const glycolInput = quantity('ratio', {
  symbol: 'x',
  min: 0,
  max: 0.6,
  plausible: [0.25, 0.6],
  about: 'ethylene glycol in the coolant by volume, by refractometer or as mixed',
})

const toMass = (byVolume: number): number => (byVolume * GLYCOL) / (byVolume * GLYCOL + (1 - byVolume) * WATER)

/** Share of water among the molecules. */
export const waterMolecules = (byVolume: number): number => {
  const mass = toMass(byVolume)
  const water = (1 - mass) / MOLAR_WATER
  return water / (water + mass / MOLAR_GLYCOL)
}

/** Bilinear; `row` and `column` are positions in steps. The last interval carries on past its end. */
const between = (table: readonly (readonly number[])[], row: number, column: number): number => {
  const i = Math.min(Math.max(Math.floor(row), 0), table.length - 2)
  const j = Math.min(Math.max(Math.floor(column), 0), table[0]!.length - 2)
  const [a, b] = [row - i, column - j]
  const at = (r: number, c: number): number => table[r]![c]!
  return (1 - a) * ((1 - b) * at(i, j) + b * at(i, j + 1)) + a * ((1 - b) * at(i + 1, j) + b * at(i + 1, j + 1))
}

/** 40 °F … 250 °F is 277.6 … 394.3 K. */
export const densityOf = (glycol: number, temperature: number): number =>
  POUND_PER_CUBIC_FOOT *
  between(DENSITY_PRINTED, (temperature * 1.8 - 459.67 - DENSITY_FAHRENHEIT[0]) / 10, glycol * 10)

/** Above 100 °C and below 20 °C by the slope of the last interval. */
export const specificHeatOf = (glycol: number, temperature: number): number =>
  between(HEAT_GENERATED, toMass(glycol) * 10, (temperature - 293.15) / 20)
