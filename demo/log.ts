/**
 * A logger’s file of the demo: nearly eight minutes at 10 Hz, idle, cruise and four steady climbs in boost. The charge cooler’s
 * effectiveness in it is that of reading M-1, so that an analysis has something true to find.
 */
export const LOG_EFFECTIVENESS = 0.52
const RATE = 10
const SECONDS = 460

export const demoLogCsv = (): string => {
  const random = generator(19720608)
  /** Sum of twelve uniforms less six: near enough normal, and the same on every machine. */
  const noise = (deviation: number) => {
    let sum = -6
    for (let i = 0; i < 12; i++) sum += random()
    return sum * deviation
  }
  const lines = [
    'Logger export, Tarnwick 8',
    'Recorded 18.05.2025 17:31, 10 Hz',
    '',
    'Time,Engine speed,Manifold pressure,Charge temp before cooler,Charge temp after cooler,Cooler water in,Water temp,Throttle,Battery',
    's,1/min,kPa,°C,°C,°C,°C,%,V',
  ]
  let speed = 850
  let manifold = 36
  let before = 45
  let water = 84
  let loop = 34
  let sensed = 42
  for (let tick = 0; tick < SECONDS * RATE; tick++) {
    const time = tick / RATE
    const pull = time >= 20 && (time - 20) % 110 < 60
    const throttle = time < 20 ? 4 : pull ? 62 : 18
    const goal = time < 20 ? 850 : pull ? 4200 : 2400
    speed += ((goal - speed) / RATE) * (pull ? 0.28 : 0.6)
    const boosted = pull ? Math.min(165, 100 + (speed - 1800) * 0.06) : time < 20 ? 36 : 58
    manifold += ((boosted - manifold) / RATE) * 1.8
    // Compressor of efficiency 0.68 on 32 °C intake air; below atmospheric pressure it adds nothing.
    const rise = (305.15 * (Math.max(1, manifold / 100) ** 0.2857 - 1)) / 0.68
    before += ((32 + rise - before) / RATE) * 1.1
    loop += ((pull ? 42 : 35) - loop) / RATE / 15
    const after = before - LOG_EFFECTIVENESS * (before - loop)
    sensed += ((after - sensed) / RATE) * 1.5
    water += ((pull ? 95 : 87) - water) / RATE / 25
    const volts = 14.05 - (pull ? 0.18 : 0) - (time < 20 ? 0.25 : 0)
    lines.push(
      [
        time.toFixed(1),
        Math.max(0, speed + noise(9)).toFixed(0),
        (manifold + noise(0.5)).toFixed(1),
        (before + noise(0.2)).toFixed(1),
        (sensed + noise(0.2)).toFixed(1),
        (loop + noise(0.1)).toFixed(1),
        (water + noise(0.1)).toFixed(1),
        Math.min(100, Math.max(0, throttle + noise(0.15))).toFixed(1),
        (volts + noise(0.02)).toFixed(2),
      ].join(','),
    )
  }
  return `${lines.join('\n')}\n`
}

/** Linear congruential generator with the multiplier of Numerical Recipes (from memory); 0 … 1. */
const generator = (seed: number) => {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}
