/**
 * Where a wire's heat balances: the pure part of `conductor-temperature`, quick enough for every wire of a loom on every
 * edit. Not a calculation by itself.
 */
import { acrossInsulation, surfaceHeat } from './heatBalance.ts'
import { type Metal, warmer } from './sources.ts'

/** K. No insulation of a car's loom survives it; beyond, the balance is of no use to anybody. */
export const HOTTEST = 700

export interface WireInAir {
  readonly metal: Metal
  /** Ω/m at 20 °C. */
  readonly resistance: number
  /** m. */
  readonly conductorDiameter: number
  readonly outerDiameter: number
}

/**
 * Conductor and surface temperature, K, of one wire that carries `current` (A) in still air at `ambient` (K), to a
 * millionth of a kelvin; undefined where it finds no balance below 700 K: runaway, or a ruined wire.
 */
export const steadyTemperature = (
  { metal, resistance, conductorDiameter, outerDiameter }: WireInAir,
  current: number,
  ambient: number,
): { readonly temperature: number; readonly surface: number } | undefined => {
  if (current === 0) return { temperature: ambient, surface: ambient }
  const square = current * current
  // Solved for the surface: its heat is then known outright, and one unknown is left.
  const heat = (surface: number): number => {
    const { convection, radiation } = surfaceHeat(outerDiameter, surface, ambient)
    return convection + radiation
  }
  const inside = (surface: number, given: number): number =>
    surface + acrossInsulation(given, conductorDiameter, outerDiameter)
  const surplus = (surface: number): number => {
    const given = heat(surface)
    return given - square * resistance * warmer(metal, inside(surface, given))
  }
  let [low, high] = [ambient, HOTTEST]
  if (surplus(HOTTEST) < 0) return undefined
  // Secant from a guess of 15 W/(m²·K), held between the ends, which close in with every step.
  let before = ambient
  let surplusBefore = -square * resistance * warmer(metal, ambient)
  let surface = Math.min(ambient - surplusBefore / (Math.PI * outerDiameter * 15), (ambient + HOTTEST) / 2)
  for (let step = 0; step < 80; step += 1) {
    const here = surplus(surface)
    if (here < 0) low = surface
    else high = surface
    const slope = (here - surplusBefore) / (surface - before)
    before = surface
    surplusBefore = here
    const next = surface - here / slope
    surface = next > low && next < high ? next : (low + high) / 2
    if (Math.abs(surface - before) < 1e-7) break
  }
  const temperature = inside(surface, heat(surface))
  return temperature <= HOTTEST ? { temperature, surface } : undefined
}
