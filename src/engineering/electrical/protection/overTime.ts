/** How hot a conductor gets until its slowest good fuse has opened. */
import { type FuseType, OPENS_FROM, slowestTime } from '../fuseGates.ts'
import { METALS } from '../sources.ts'
import { adiabaticTemperature } from './adiabatic.ts'
import type { JudgedWire } from './clauses.ts'
import { temperatureAfter } from './transient.ts'

/** Of rating; above it no heat is counted as lost (IEC 60949: a few seconds at most), below it the transient decides. */
export const ADIABATIC_FROM = 3.5
/** A fault that nothing ends is looked at over a day: every wire of a car is then steady. */
const FOR_GOOD = 86400

const known = new Map<string, number>()

const heated = (wire: JudgedWire, current: number, time: number, adiabatic: boolean): number => {
  const key = `${wire.metal} ${wire.area} ${wire.resistance} ${wire.conductorDiameter} ${wire.outerDiameter} ${wire.ambient} ${wire.start.toFixed(1)} ${current} ${time} ${adiabatic}`
  const before = known.get(key)
  if (before !== undefined) return before
  let value: number
  if (adiabatic) {
    // The closed form rests on ρ/A; the standard's largest resistance is some per cent more, and heats by as much more.
    const more = (wire.resistance * wire.area) / METALS[wire.metal].rho
    value = adiabaticTemperature(wire.metal, wire.area, wire.start, current ** 2 * time * Math.max(more, 1))
  } else value = temperatureAfter(wire, current, time, wire.ambient, wire.start)
  // A loom has few kinds of wire and fuse: remembered, as a pure function may be.
  if (known.size > 20000) known.clear()
  known.set(key, value)
  return value
}

/**
 * K of the conductor at `inWire` A when the fuse, with `throughFuse` A in it, opens at its slowest; below 135 % it never
 * opens and the temperature is that of a day.
 */
export const whenOpened = (
  wire: JudgedWire,
  type: FuseType,
  rating: number,
  throughFuse: number,
  inWire = throughFuse,
): { readonly multiple: number; readonly time: number | undefined; readonly temperature: number } => {
  const multiple = throughFuse / rating
  // 1.35 × a rating is not always 135 % of it in binary.
  const time = slowestTime(type, Math.abs(multiple - OPENS_FROM) < 1e-9 ? OPENS_FROM : multiple)
  const adiabatic = time !== undefined && multiple > ADIABATIC_FROM + 1e-9
  return { multiple, time, temperature: heated(wire, inWire, time ?? FOR_GOOD, adiabatic) }
}
