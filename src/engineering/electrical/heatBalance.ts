/**
 * Heat given off by one horizontal wire in still air: natural convection and radiation from its surface, conduction
 * through its insulation. Not a calculation by itself; conductorTemperature.ts and conductorCurrent.ts stand on it.
 * Sources: Churchill & Chu (1975), horizontal cylinder, and Sutherland's law for air [both from memory]; emissivity 0.9
 * and insulation 0.19 W/(m·K) are usual figures for plastics [from memory].
 */
import type { Source } from '../calculation.ts'

export const churchillChu: Source = {
  title: 'Churchill & Chu (1975), natural convection from a horizontal cylinder; in Incropera & DeWitt, chapter 9',
  how: 'memory',
}
export const EMISSIVITY = 0.9
export const INSULATION_CONDUCTIVITY = 0.19
const STEFAN_BOLTZMANN = 5.670374419e-8
const GRAVITY = 9.80665
const AIR_GAS_CONSTANT = 287.05
const SEA_LEVEL = 101325
const PRANDTL = 0.71
/** 10^(−12/T) as a power of e. */
const TWELVE_DECADES = -12 * Math.LN10
const CHURCHILL = (1 + (0.559 / PRANDTL) ** (9 / 16)) ** (8 / 27)

/** Kinematic viscosity (m²/s) and conductivity (W/(m·K)) of dry air at sea level; `temperature` K, 200 … 700. */
export function air(temperature: number): { readonly viscosity: number; readonly conductivity: number } {
  // Roots and products: powers with broken exponents cost several times as much, and a loom asks thousands of times.
  const power = temperature * Math.sqrt(temperature)
  const dynamic = (1.458e-6 * power) / (temperature + 110.4)
  const conductivity = (2.64638e-3 * power) / (temperature + 245.4 * Math.exp(TWELVE_DECADES / temperature))
  return { viscosity: (dynamic * AIR_GAS_CONSTANT * temperature) / SEA_LEVEL, conductivity }
}

/** Heat per length, W/m, from a surface of diameter `diameter` (m) at `surface` K into still air at `ambient` K. */
export function surfaceHeat(
  diameter: number,
  surface: number,
  ambient: number,
  emissivity = EMISSIVITY,
): { readonly convection: number; readonly radiation: number } {
  const film = (surface + ambient) / 2
  const { viscosity, conductivity } = air(film)
  const rise = surface - ambient
  const rayleigh =
    (GRAVITY * Math.abs(rise) * diameter * diameter * diameter * PRANDTL) / (film * viscosity * viscosity)
  const root = 0.6 + (0.387 * Math.cbrt(Math.sqrt(rayleigh))) / CHURCHILL
  const nusselt = root * root
  return {
    convection: Math.PI * nusselt * conductivity * rise,
    // T⁴ − Ta⁴ as a product: nothing is lost where the two are near.
    radiation:
      Math.PI *
      diameter *
      emissivity *
      STEFAN_BOLTZMANN *
      (surface * surface + ambient * ambient) *
      (surface + ambient) *
      rise,
  }
}

/** Root of a rising function between two ends that enclose it. Bisection: 60 halvings are below rounding and never fail. */
export function rootBetween(low: number, high: number, rising: (x: number) => number): number {
  let [a, b] = [low, high]
  for (let step = 0; step < 60; step += 1) {
    const middle = (a + b) / 2
    if (rising(middle) < 0) a = middle
    else b = middle
  }
  return (a + b) / 2
}

/** Temperature difference across the insulation, K, at `heat` W/m. */
export const acrossInsulation = (heat: number, conductorDiameter: number, outerDiameter: number): number =>
  (heat * Math.log(outerDiameter / conductorDiameter)) / (2 * Math.PI * INSULATION_CONDUCTIVITY)
