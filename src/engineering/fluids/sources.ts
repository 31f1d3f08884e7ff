/** Sources that several fluid calculations rest on. */
import type { Source } from '../calculation.ts'

export const STANDARD_GRAVITY = 9.80665

export const darcyWeisbach: Source = {
  title: 'Darcy–Weisbach; Colebrook for turbulent flow, 64/Re for laminar',
  where: 'White, Fluid Mechanics, chapter 6',
  how: 'memory',
}
export const cengel: Source = {
  title: 'Çengel & Cimbala, Fluid Mechanics, water in a 2 in stainless pipe: 1700 lbf/ft², 9.17 ft/s, Re 126 400',
  where: 'chapter 8, example on pressure drop in a horizontal pipe',
  how: 'memory',
}
export const white: Source = {
  title: 'White, Fluid Mechanics, example 6.7: oil in cast iron, f 0.0225, head loss 117 m',
  where: 'chapter 6',
  how: 'memory',
}
/** Generated with the Python library `fluids` 1.3.1: friction_factor(Method="Colebrook"), dP_from_K, size_control_valve_l. */
export const fluidsLibrary: Source = {
  title: 'Python library “fluids”, version 1.3.1',
  where: 'friction_factor(Method="Colebrook"), dP_from_K, size_control_valve_l',
  how: 'computed',
}
export const waterDensity: Source = {
  title: 'Flow coefficient Kv: m³/h of water that lose 1 bar; control valve example 1, Kv 165 at 360 m³/h and 4.6 bar',
  where: 'IEC 60534-2-1',
  how: 'memory',
}
