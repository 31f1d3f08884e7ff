/** Material constants that heating by short-circuit current rests on, with their sources. SI. */
import type { Source } from '../../calculation.ts'
import type { Metal } from '../sources.ts'

export const iec60949: Source = {
  title: 'IEC 60364-5-54, annex A / IEC 60949: k = √(Qc·(β + 20)/ρ20 · ln((β + θf)/(β + θi)))',
  where: 'reference page quoting the annex; constants 226, 148, 78',
  how: 'read',
}
export const kTable: Source = {
  title: 'IEC 60364-4-43 / 5-54, k of copper and aluminium: 115/76 (PVC), 143/94 (XLPE)',
  where: 'Electrical Installation Guide, figures G52 and G53',
  how: 'read',
}
export const withstandTable: Source = {
  title: 'Electrical Installation Guide, withstand of cables under short-circuit, k²S²',
  where: 'figure G53',
  how: 'read',
}
export const insulationHeat: Source = {
  title:
    'IEC 60853-2, volumetric heat of PVC 1.7 and XLPE 2.4 MJ/(m³·K): the smaller is taken, the wire is then hotter',
  how: 'memory',
}

/** Qc J/(K·m³), β K above which resistance counts, at 0 °C; ρ20 Ω·m. IEC 60949 as quoted by `iec60949`. */
export const SHORT_CIRCUIT: Readonly<
  Record<Metal, { readonly heat: number; readonly beta: number; readonly rho: number }>
> = {
  copper: { heat: 3.45e6, beta: 234.5, rho: 17.241e-9 },
  aluminium: { heat: 2.5e6, beta: 228, rho: 28.264e-9 },
  // 15 % copper by volume (ASTM B566 class 15A [from memory]): heat by the shares, β = 1/α20 − 20 K.
  'copper-clad aluminium': { heat: 0.15 * 3.45e6 + 0.85 * 2.5e6, beta: 1 / 0.00404 - 20, rho: 26.76e-9 },
}
/** J/(K·m³). */
export const INSULATION_HEAT = 1.7e6
export const ZERO_CELSIUS = 273.15
