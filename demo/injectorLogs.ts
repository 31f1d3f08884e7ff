/**
 * Two invented logs of one engine, with known and with unknown injectors, made from a car that the analysis knows nothing
 * of: its own breathing (two humps of intake tuning), exhaust delay, sensor lag, quantisation, wall film. Every figure of
 * the truth stands in `Truth`. The unknown set is not a data sheet's.
 */
export interface Truth {
  /** kg/s at 300 kPa. */
  readonly slope: number
  /** s at these volts, a curve of its own: a + b/U². */
  readonly deadTime: (volts: number) => number
  /** Time that a short pulse opens more (or less) than the line says, s. */
  readonly added: (open: number) => number
}

export interface Drive {
  readonly seed: number
  readonly set: Truth
  /** Loads switched at each stop of the drive, so that volts step while the air does not. */
  readonly switchLoads?: boolean
  /** Lambda noise, one standard deviation as a share; 0.008 unless said. */
  readonly noise?: number
  /** Everything that garages have: wall film, lag, delay, drift, fuel cut, spikes, slow channels, rounding. */
  readonly messy?: boolean
  /** Other breathing: a changed exhaust or camshaft, which the analysis must not be given silently. */
  readonly otherEngine?: boolean
  /** Samples a second. */
  readonly rate?: number
  /** s at each stop. */
  readonly hold?: number
}

export const KNOWN_SET: Truth = {
  slope: 3.05e-3,
  deadTime: (volts) => 0.35e-3 + 0.0952 / volts ** 2,
  added: () => 0,
}
export const UNKNOWN_SET: Truth = {
  slope: 5.12e-3,
  deadTime: (volts) => 0.28e-3 + 0.118 / volts ** 2,
  added: () => 0,
}

/** Speed in rad/s, manifold pressure in Pa: stops of the drive, from idle to boost. */
export const STOPS: readonly (readonly [number, number])[] = [
  [95, 34e3],
  [150, 38e3],
  [210, 45e3],
  [262, 55e3],
  [262, 78e3],
  [314, 62e3],
  [314, 96e3],
  [366, 74e3],
  [366, 118e3],
  [419, 88e3],
  [419, 141e3],
  [471, 104e3],
  [471, 156e3],
  [200, 70e3],
  [235, 90e3],
  [524, 122e3],
]

const AIR_PER_FUEL = 14.3
const SWEPT = 0.575e-3

/** kg of air a cylinder and cycle. */
export const airPerCycle = (speed: number, pressure: number, temperature: number, otherEngine = false): number => {
  const hump = (at: number, width: number): number => Math.exp(-(((speed - at) / width) ** 2))
  const filling =
    0.66 + 0.17 * hump(otherEngine ? 300 : 390, 150) + 0.05 * hump(otherEngine ? 450 : 205, 70) - 2.6e3 / pressure
  return (filling * pressure * SWEPT) / (287.05 * temperature)
}

/** Columns of a drive, in SI and at full precision: time, speed, pressure, pulse, lambda, volts, charge temperature, pressure across. */
export interface Columns {
  readonly step: number
  readonly speed: Float64Array
  readonly pressure: Float64Array
  readonly pulse: Float64Array
  readonly lambda: Float64Array
  readonly voltage: Float64Array
  readonly temperature: Float64Array
  readonly across: Float64Array
}

export const simulateDrive = (drive: Drive): Columns => {
  const { set, messy = false, noise = 0.008, rate = 20, hold = 24, switchLoads = true } = drive
  const normal = deviates(drive.seed)
  const step = 1 / rate
  const stops = messy ? shuffled(STOPS, drive.seed) : STOPS
  const count = Math.round(stops.length * hold * rate)
  const make = (): Float64Array => new Float64Array(count)
  const out = {
    step,
    speed: make(),
    pressure: make(),
    pulse: make(),
    lambda: make(),
    voltage: make(),
    temperature: make(),
    across: make(),
  }
  let [speed, pressure] = [stops[0]![0], stops[0]![1]]
  let [film, sensed] = [0, 1]
  let trim = 1
  const mixture: number[] = []
  for (let i = 0; i < count; i++) {
    const time = i * step
    const stop = Math.floor(time / hold)
    const within = time - stop * hold
    const [goalSpeed, goalPressure] = stops[stop]!
    const quick = messy ? step / 0.45 : 1
    speed += (goalSpeed - speed) * quick
    pressure += (goalPressure - pressure) * quick
    // Half of each stop with lamps, heated screen and fan on: in quarters, so that volts and time do not go together.
    const loaded = switchLoads && Math.floor((4 * within) / hold) % 2 === 1
    const volts = 14.1 - (loaded ? 1.75 : 0) - (speed < 120 ? 0.5 : 0) + 0.015 * normal()
    const temperature = 306 + (pressure > 1e5 ? 9 : 0) + (messy ? 4 * Math.sin(time / 90) : 0)
    const across = 3e5 * (messy ? 1 + 0.012 * Math.sin(time / 140) : 1)
    const air = airPerCycle(speed, pressure, temperature, drive.otherEngine)
    const aim = pressure > 1.05e5 ? 0.86 : 1
    // What the controller asks for: its own idea of the injectors is some per cent out, and it trims at part load.
    const cut = messy && within > hold - 1.2 && stop % 5 === 2
    const wanted = (air / (AIR_PER_FUEL * aim)) * (1 + 0.03 * Math.sin(speed / 70)) * (messy && aim === 1 ? trim : 1)
    const pulse = cut ? 0 : set.deadTime(volts) + wanted / (set.slope * Math.sqrt(across / 3e5)) / 1.0
    const open = pulse - set.deadTime(volts)
    const fuel = cut ? 0 : set.slope * Math.sqrt(across / 3e5) * (open + set.added(open))
    // Wall film: a fifth goes to the wall and comes off it with 0.35 s.
    const kept = messy ? 0.2 * fuel + film * (1 - step / 0.35) : 0
    const reaches = messy ? 0.8 * fuel + film * (step / 0.35) : fuel
    film = kept
    mixture.push(Math.min(2, air / (AIR_PER_FUEL * Math.max(1e-9, reaches))))
    const late = messy ? 0.12 + (0.22 * 300 * 70e3) / (speed * pressure) : 0
    const past = mixture[Math.max(0, i - Math.round(late * rate))]!
    sensed = messy ? sensed + (past - sensed) * Math.min(1, step / 0.09) : past
    let lambda = sensed * (1 + noise * normal())
    if (messy && normal() > 3) lambda *= 1.25
    if (messy && aim === 1 && !cut) trim += (lambda - 1) * step * 0.25
    lambda = messy ? Math.min(1.5, Math.max(0.65, lambda)) : lambda
    out.speed[i] = speed + 0.25 * normal()
    out.pressure[i] = pressure + 150 * normal()
    out.pulse[i] = pulse
    out.lambda[i] = lambda
    out.voltage[i] = volts + 0.02 * normal()
    out.temperature[i] = temperature
    out.across[i] = across
  }
  return out
}

/** As a logger writes it: rounded, the charge temperature and the fuel pressure only once a second. */
export const injectorLogCsv = (drive: Drive): string => {
  const columns = simulateDrive(drive)
  const each = Math.round(1 / columns.step)
  const lines = [
    'Time,Engine speed,Manifold pressure,Injector pulse width,Lambda,Battery,Charge temp after cooler,Fuel differential pressure',
    's,1/min,kPa,ms,,V,°C,kPa',
  ]
  for (let i = 0; i < columns.speed.length; i++) {
    const slow = i % each === 0
    lines.push(
      [
        (i * columns.step).toFixed(3),
        ((columns.speed[i]! * 30) / Math.PI).toFixed(0),
        (columns.pressure[i]! / 1e3).toFixed(1),
        (columns.pulse[i]! * 1e3).toFixed(3),
        columns.lambda[i]!.toFixed(3),
        columns.voltage[i]!.toFixed(2),
        slow ? (columns.temperature[i]! - 273.15).toFixed(1) : '',
        slow ? (columns.across[i]! / 1e3).toFixed(1) : '',
      ].join(','),
    )
  }
  return `${lines.join('\n')}\n`
}

const shuffled = <T>(items: readonly T[], seed: number): T[] => {
  const next = uniforms(seed + 77)
  const out = [...items]
  for (let i = out.length - 1; i > 0; i--) {
    const j = Math.floor(next() * (i + 1))
    ;[out[i], out[j]] = [out[j]!, out[i]!]
  }
  return out
}

/** xorshift of 32 bits, Marsaglia, Journal of Statistical Software 8 (2003) (from memory). */
const uniforms = (seed: number): (() => number) => {
  let state = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) | 1
  const next = (): number => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return ((state >>> 0) + 0.5) / 2 ** 32
  }
  for (let i = 0; i < 20; i++) next()
  return next
}
/** Normal deviates by the polar method. */
const deviates = (seed: number): (() => number) => {
  const next = uniforms(seed)
  let spare: number | undefined
  return () => {
    if (spare !== undefined) {
      const kept = spare
      spare = undefined
      return kept
    }
    for (;;) {
      const [x, y] = [2 * next() - 1, 2 * next() - 1]
      const square = x * x + y * y
      if (square >= 1 || square === 0) continue
      const size = Math.sqrt((-2 * Math.log(square)) / square)
      spare = y * size
      return x * size
    }
  }
}
