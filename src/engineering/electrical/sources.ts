/** Sources and material constants that several conductor calculations rest on. */
import type { Source } from '../calculation.ts'

export const iec60028: Source = {
  title: 'IEC 60028 (1925), International Standard of Resistance for Copper, 1/58 Ω·mm²/m at 20 °C',
  where: 'tnlab.org',
  how: 'read',
}
export const handbook: Source = {
  title: 'Industrial Power Engineering and Applications Handbook',
  where: 'table 30.1',
  how: 'read',
}
export const faa: Source = { title: 'FAA AC 43.13-1B', where: 'page 11-22', how: 'read' }
export const astmB258: Source = {
  title: 'ASTM B258, American Wire Gauge',
  where: 'formula quoted at liquisearch.com',
  how: 'read',
}

/** 15 % copper by volume; the layers alone, side by side, would give 2.579e-8 Ω·m, the standard allows 3.8 % more. */
export const astmB566: Source = {
  title: 'ASTM B566, copper-clad aluminium wire, class 15A: 0.02676 Ω·mm²/m at 20 °C, 0.00404 1/K',
  how: 'memory',
}

/** Kelvin at 20 °C, where the standards state resistance. */
export const T20 = 293.15
export const METALS = {
  copper: { rho: 1 / 58e6, alpha: 0.00393 },
  aluminium: { rho: 2.8264e-8, alpha: 0.00403 },
  'copper-clad aluminium': { rho: 2.676e-8, alpha: 0.00404 },
} as const
export type Metal = keyof typeof METALS
export const METAL_NAMES = ['copper', 'aluminium', 'copper-clad aluminium'] as const satisfies readonly Metal[]

/** Resistance at a temperature (K) over resistance at 20 °C. */
export const warmer = (metal: Metal, temperature: number): number => 1 + METALS[metal].alpha * (temperature - T20)
