/** The two forms of a falling-resistance (NTC) sensor's curve, and their inverses. Ω and K. */
export interface Curve {
  /** K at a resistance in Ω. */
  temperatureOf(resistance: number): number
  /** Ω at a temperature in K. */
  resistanceOf(temperature: number): number
}

export interface SteinhartHart {
  readonly a: number
  readonly b: number
  readonly c: number
}

/**
 * 1/T = A + B·ln R + C·(ln R)³, R in Ω, T in K.
 * Source: Steinhart & Hart, Deep-Sea Research 15 (1968) 497. The inverse is Cardano's, with a halving search where C is
 * negative and his formula has three branches.
 */
export function steinhartHartCurve({ a, b, c }: SteinhartHart): Curve {
  const temperatureOf = (resistance: number): number => {
    const l = Math.log(resistance)
    return 1 / (a + b * l + c * l ** 3)
  }
  const logAt = (temperature: number): number => {
    const y = 1 / temperature - a
    if (c === 0) return y / b
    if (c > 0 && b > 0) {
      const x = -y / c
      const root = Math.sqrt((b / (3 * c)) ** 3 + (x * x) / 4)
      return Math.cbrt(root - x / 2) - Math.cbrt(root + x / 2)
    }
    // Rising only between ± this; the sensor lives there or the fit was refused.
    const limit = c < 0 ? Math.sqrt(-b / (3 * c)) : 60
    let [low, high] = c < 0 ? [-limit, limit] : [Math.sqrt(-b / (3 * c)), limit]
    if (b * low + c * low ** 3 > y || b * high + c * high ** 3 < y) return Number.NaN
    for (let turn = 0; turn < 80; turn += 1) {
      const mid = (low + high) / 2
      if (b * mid + c * mid ** 3 < y) low = mid
      else high = mid
    }
    return (low + high) / 2
  }
  return { temperatureOf, resistanceOf: (temperature) => Math.exp(logAt(temperature)) }
}

/** 1/T = 1/T0 + ln(R/R0)/B. Source: the usual B form, as on every thermistor data sheet. */
export const betaCurve = (beta: number, resistance0: number, temperature0: number): Curve => ({
  temperatureOf: (resistance) => 1 / (1 / temperature0 + Math.log(resistance / resistance0) / beta),
  resistanceOf: (temperature) => resistance0 * Math.exp(beta * (1 / temperature - 1 / temperature0)),
})

/** Exactly through three readings. `undefined` when two of them coincide. */
export function steinhartHartThrough(
  points: readonly [number, number, number],
  temperatures: readonly [number, number, number],
): SteinhartHart | undefined {
  const [l1, l2, l3] = points.map(Math.log) as [number, number, number]
  const [y1, y2, y3] = temperatures.map((temperature) => 1 / temperature) as [number, number, number]
  const g2 = (y2 - y1) / (l2 - l1)
  const g3 = (y3 - y1) / (l3 - l1)
  const c = (g3 - g2) / (l3 - l2) / (l1 + l2 + l3)
  const b = g2 - c * (l1 * l1 + l1 * l2 + l2 * l2)
  const a = y1 - (b + l1 * l1 * c) * l1
  return [a, b, c].every(Number.isFinite) ? { a, b, c } : undefined
}
