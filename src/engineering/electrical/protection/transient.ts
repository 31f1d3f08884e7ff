/**
 * Temperature of a wire that starts at one temperature and carries a steady current for a time: the strands, shells of
 * insulation round them, and the heat balance's loss at the surface.
 *   I     current                         A    0 … 2e4
 *   t     duration                        s    0 … 1e5
 *   S     cross-section of metal          m²   1e-8 … 1e-3
 *   M     metal                           one of copper, aluminium, copper-clad aluminium
 *   R'20  resistance per length, 20 °C    Ω/m  1e-5 … 1
 *   d     diameter over the strands       m    1e-4 … 0.03
 *   D     diameter over the insulation    m    1e-4 … 0.04
 *   Ta    temperature of the air around   K    220 … 600
 *   Ti    temperature at the start        K    220 … 600
 *   Tf    conductor temperature           K
 * Errors: `out-of-range`, `inconsistent-inputs`, `no-answer` beyond 1 400 K.
 * Sources: radial heat conduction; IEC 60949 for the metal [read], IEC 60853-2 for the insulation [from memory]; loss by
 *   Churchill & Chu and radiation. Limits as for the steady balance (± 20 % in current); thermal mass of the plastic
 *   taken low, so the wire comes out a little too hot.
 */
import { calculation, quantity, result } from '../../calculation.ts'
import { churchillChu, INSULATION_CONDUCTIVITY, surfaceHeat } from '../heatBalance.ts'
import { METALS, type Metal, T20 } from '../sources.ts'
import { thickWall, WIRE_LIMITS, wallIsThere, wireInputs } from '../wireInputs.ts'
import { MOLTEN } from './adiabatic.ts'
import { INSULATION_HEAT, iec60949, insulationHeat, kTable, SHORT_CIRCUIT } from './material.ts'

export interface HeatedWire {
  readonly metal: Metal
  /** m² of metal. */
  readonly area: number
  /** Ω/m at 20 °C. */
  readonly resistance: number
  /** m. */
  readonly conductorDiameter: number
  readonly outerDiameter: number
}

const SHELLS = 4
/** Steps grow from the time constant of the innermost shell's scale to a tenth of the duration. */
const FIRST = 1 / 4000
const GROWTH = 1.35
/** K/s. A wire that moves no faster is within a thousandth of a kelvin of its rest: time constants are minutes. */
const RESTS = 1e-9

/** `growth` of the steps: nearer to 1 is finer and slower. K of the conductor after `time` s at `current` A in air of `ambient` K; Infinity once copper would have melted. */
export const temperatureAfter = (
  wire: HeatedWire,
  current: number,
  time: number,
  ambient: number,
  start: number,
  growth = GROWTH,
): number => {
  const shells = wire.outerDiameter / wire.conductorDiameter > 1.001 ? SHELLS : 0
  const n = shells + 1
  const ratio = shells === 0 ? 1 : (wire.outerDiameter / wire.conductorDiameter) ** (1 / shells)
  // A shell's node lies at the geometric mean of its two radii: half of its resistance on either side.
  const half = Math.log(ratio) / 2 / (2 * Math.PI * INSULATION_CONDUCTIVITY)
  const capacity = [wire.area * SHORT_CIRCUIT[wire.metal].heat]
  for (let i = 1; i < n; i += 1) {
    const [inner, outer] = [wire.conductorDiameter * ratio ** (i - 1), wire.conductorDiameter * ratio ** i]
    capacity.push((Math.PI / 4) * (outer ** 2 - inner ** 2) * INSULATION_HEAT)
  }
  /** Conductance from node i to node i + 1. */
  const link = Array.from({ length: n - 1 }, (_, i) => 1 / (i === 0 ? half : 2 * half))
  const heatAt20 = current ** 2 * wire.resistance
  const { alpha } = METALS[wire.metal]

  // The whole wire starts as it was in service: strands at `start`, the surface where that much loss puts it.
  let temperatures = steadyProfile(wire, start, ambient, n, half)
  const factors = new Float64Array(n)
  /** Conductance from the outermost node to the air, W/(m·K), and the surface it goes by. */
  let surface = temperatures[n - 1]!
  const outward = (outermost: number): number => {
    const film = filmOf(wire.outerDiameter, surface, ambient)
    if (n === 1) {
      surface = outermost
      return filmOf(wire.outerDiameter, surface, ambient)
    }
    // The half shell is a small part of the way to the air: the film of the last surface places the next one.
    surface = ambient + (outermost - ambient) / (1 + film * half)
    return 1 / (1 / film + half)
  }
  /** Implicit Euler: the metal's heating is linear in its temperature, so only the film is lagged. */
  const step = (from: Float64Array, dt: number, out: number, next: Float64Array): Float64Array => {
    let before = 0
    for (let i = 0; i < n; i += 1) {
      const storage = capacity[i]! / dt
      let diagonal = storage + (i > 0 ? link[i - 1]! : 0) + (i < n - 1 ? link[i]! : out)
      let right = storage * from[i]! + (i < n - 1 ? 0 : out * ambient)
      if (i === 0) {
        diagonal -= heatAt20 * alpha
        right += heatAt20 * (1 - alpha * T20)
      } else {
        const factor = link[i - 1]! / before
        diagonal -= factor * link[i - 1]!
        right += factor * next[i - 1]!
      }
      next[i] = right
      factors[i] = diagonal
      before = diagonal
    }
    next[n - 1]! /= factors[n - 1]!
    for (let i = n - 2; i >= 0; i -= 1) next[i] = (next[i]! + link[i]! * next[i + 1]!) / factors[i]!
    return next
  }
  const [whole, middle, halves] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)]
  let elapsed = 0
  let dt = Math.min(time * FIRST, 0.05)
  while (elapsed < time * (1 - 1e-12)) {
    // A step in which the metal's own feedback would outrun its heat capacity cannot be solved: halve it.
    dt = Math.min(dt, time - elapsed, (0.2 * capacity[0]!) / (heatAt20 * alpha || 1e-30))
    const begin = outward(temperatures[n - 1]!)
    step(temperatures, dt, begin, whole)
    const out = (begin + outward(whole[n - 1]!)) / 2
    step(temperatures, dt, out, whole)
    step(step(temperatures, dt / 2, out, middle), dt / 2, out, halves)
    // Extrapolated: second order in time, still steady at large steps.
    const before = temperatures
    temperatures = halves.map((value, i) => 2 * value - whole[i]!)
    if (!(temperatures[0]! < MOLTEN)) return Number.POSITIVE_INFINITY
    elapsed += dt
    if (temperatures.every((value, i) => Math.abs(value - before[i]!) <= RESTS * dt)) break
    dt *= growth
  }
  return temperatures[0]!
}

/** W/(m·K) from surface to air; at equal temperatures the limit of a small difference. */
const filmOf = (diameter: number, surface: number, ambient: number): number => {
  const hot = Math.abs(surface - ambient) < 0.5 ? ambient + 0.5 : surface
  const { convection, radiation } = surfaceHeat(diameter, hot, ambient)
  return (convection + radiation) / (hot - ambient)
}

const steadyProfile = (wire: HeatedWire, start: number, ambient: number, n: number, half: number): Float64Array => {
  if (n === 1) return Float64Array.of(start)
  let surface = start
  for (let round = 0; round < 12; round += 1) {
    const film = filmOf(wire.outerDiameter, surface, ambient)
    surface = ambient + (start - ambient) / (1 + film * half * 2 * (n - 1))
  }
  return Float64Array.from({ length: n }, (_, i) =>
    i === 0 ? start : start - ((start - surface) * (2 * i - 1)) / (2 * (n - 1)),
  )
}

/** Ω·m: the k of the tables rests on ρ/A, not on a standard’s largest resistance. */
const RHO = SHORT_CIRCUIT.copper.rho
const celsius = (value: number) => value + 273.15

export const transientHeating = calculation({
  id: 'transient-heating',
  title: 'Temperature of a wire after an overload of some seconds or minutes',
  inputs: {
    current: quantity('current', { symbol: 'I', min: 0, max: 2e4, plausible: [0, 1000], about: 'overload current' }),
    time: quantity('time', { symbol: 't', min: 0, max: 1e5, plausible: [0.01, 1800], about: 'how long it lasts' }),
    area: quantity('area', {
      symbol: 'S',
      min: 1e-8,
      max: 1e-3,
      plausible: [2e-7, 1.2e-4],
      about: 'cross-section of metal',
    }),
    ...wireInputs,
    start: quantity('temperature', {
      symbol: 'Ti',
      min: 220,
      max: 600,
      plausible: [253, 423],
      about: 'conductor temperature before',
    }),
  },
  outputs: { end: result('temperature', { symbol: 'Tf', about: 'conductor temperature at the end' }) },
  formula:
    "Qc({metal}) × {area} × dT/dt = {current}² × {resistance} × (1 + α20({metal}) × (T − 293.15 K)) − P', P' conducted through shells of insulation from {conductorDiameter} to {outerDiameter} (0.19 W/(m·K), 1.7 MJ/(m³·K)) and lost to air of {ambient}; from T = {start} for {time}: {end}",
  sources: [iec60949, insulationHeat, churchillChu],
  cautions: ['One wire alone in still air. In a bundle it gets hotter.'],
  limits: [...WIRE_LIMITS, 'The insulation’s thermal mass is taken low: a little too hot rather than too cool.'],
  conditions: [wallIsThere],
  checks: [
    {
      inputs: {
        ...thickWall('2.5 mm²', 343.15),
        resistance: RHO / 2.5e-6,
        current: 115 * 2.5 * Math.sqrt(100),
        time: 0.01,
        area: 2.5e-6,
        start: 343.15,
      },
      output: 'end',
      expected: celsius(160),
      tolerance: { abs: 3 },
      because: 'k is printed to whole numbers, up to 2 K; short enough to lose less than 1 %',
      source: kTable,
      evidence: 'published',
    },
    {
      inputs: {
        ...thickWall('25 mm²', 343.15),
        resistance: RHO / 25e-6,
        current: 115 * 25 * Math.sqrt(10),
        time: 0.1,
        area: 25e-6,
        start: 343.15,
      },
      output: 'end',
      expected: celsius(160),
      tolerance: { abs: 3 },
      because: 'k is printed to whole numbers, up to 2 K; short enough to lose less than 1 %',
      source: kTable,
      evidence: 'published',
    },
    {
      inputs: { ...thickWall('1.5 mm²', 303.15), current: 0, time: 1e5, area: 1.5e-6, start: 373.15 },
      output: 'end',
      expected: 303.15,
      tolerance: { abs: 0.01 },
      because: 'no current for a day: as cool as the air',
      source: churchillChu,
      evidence: 'law',
    },
  ],
  compute: ({ current, time, area, metal, resistance, conductorDiameter, outerDiameter, ambient, start }) => {
    const end = temperatureAfter(
      { metal, area, resistance, conductorDiameter, outerDiameter },
      current,
      time,
      ambient,
      start,
    )
    return { end: Number.isFinite(end) ? end : Number.NaN }
  },
})
