/**
 * Which sensor lies: stuck, noisy, dropping out, moving when a load is switched, or disagreeing while everything is cold.
 * Thresholds are common practice without a published source; each remark tells the figure it rests on.
 */
import { formatQuantity, type Kind } from '../units/index.ts'
import { eachChunk, orNan, withParquet } from './duck.ts'
import { type GridRun, grid } from './grid.ts'
import { student95 } from './interval.ts'
import { readStored, type StoredChannel } from './parquetFile.ts'
import { type BoundRole, ROLES, type Role } from './roles.ts'

export interface ExpectedStep {
  readonly role: Role
  /** SI of the difference, load on less load off. */
  readonly step: number
  readonly earth: string | null
}

export interface SanityOptions {
  readonly log: string
  /** What the solved circuits expect of each sensor when the fan is switched on. */
  readonly expected?: readonly ExpectedStep[]
}

export type Trouble = 'stuck' | 'noisy' | 'drops out' | 'moves with a load' | 'disagrees cold'

export interface SanityRemark {
  readonly channel: string
  readonly role: Role | null
  readonly trouble: Trouble
  /** `suspect`: look at the sensor. `told`: a fact that may be as it should. */
  readonly weight: 'suspect' | 'told'
  readonly sentence: string
  readonly todo: string
  /** Where to look in the log, s. */
  readonly at: number | null
}

export interface SanityResult {
  readonly answer: 'told' | 'cannot-tell'
  readonly sentence: string
  readonly remarks: readonly SanityRemark[]
  /** Checks that the log does not allow, and what to drive or bind for them. */
  readonly unchecked: readonly string[]
  readonly channels: number
}

const STEP = 0.1
const STUCK_TIME = 60
const COLD_DOUBT = 3
const PRESSURE_DOUBT = 2.5e3
const DIFFERENCE: Partial<Record<Kind, Kind>> = {
  pressureAbsolute: 'pressureDifference',
  pressureGauge: 'pressureDifference',
  temperature: 'temperatureDifference',
}
const LOAD_NAMES = /fan|pump|lamp|light|heat|blower|compressor clutch|a\/?c\b|relay|screen/i
const MOVED_BY_LOADS: readonly Role[] = [
  'batteryVoltage',
  'injectorVoltage',
  'fanState',
  'engineSpeed',
  'injectorPulseWidth',
  'injectorDuty',
  'fuelTrim',
  'ignitionAngle',
  'targetLambda',
  'throttle',
  'pedal',
]

const say = (role: Role, size: number): string => {
  const kind = DIFFERENCE[ROLES[role].kind] ?? ROLES[role].kind
  return formatQuantity(kind, size, {
    digits: 2,
    ...(kind === 'pressureDifference' ? { unit: 'kPa' } : kind === 'temperatureDifference' ? { unit: 'K' } : {}),
  })
}

export async function sensorSanity(
  parquet: string,
  roles: readonly BoundRole[],
  options: SanityOptions,
): Promise<SanityResult> {
  const { channels, timed, troubles } = await channelTroubles(parquet, roles)
  const remarks: SanityRemark[] = [...troubles]
  const unchecked: string[] = []
  const of = (role: Role): BoundRole | undefined => roles.find((bound) => bound.role === role)
  if (!timed)
    unchecked.push('The log has no time: whether a sensor hangs, moves with a load or disagrees cold cannot be seen.')
  else {
    const bound = roles.filter(({ channel }) => channels.some(({ name, states }) => name === channel && !states))
    const runs = bound.length > 0 ? await grid(parquet, bound, STEP) : []
    remarks.push(...hanging(runs, bound))
    const loads = channels.filter(
      ({ name, states }) => of('fanState')?.channel === name || (states && LOAD_NAMES.test(name)),
    )
    if (loads.length === 0)
      unchecked.push(
        'No channel tells when an electrical load was switched: log the fan’s output and switch it a few times at idle.',
      )
    for (const load of loads) {
      const edges = await edgesOf(parquet, load)
      if (edges.length < 3) {
        unchecked.push(
          `${load.name} was switched ${edges.length} times; three are needed. Switch it on and off at a steady idle.`,
        )
        continue
      }
      remarks.push(
        ...moving(runs, bound, load.name, edges, of('fanState')?.channel === load.name ? (options.expected ?? []) : []),
      )
    }
    const cold = coldSoak(runs, bound)
    remarks.push(...cold.remarks)
    if (cold.unchecked) unchecked.push(cold.unchecked)
  }
  const suspects = remarks.filter(({ weight }) => weight === 'suspect')
  const names = [...new Set(suspects.map(({ channel }) => channel))]
  return {
    answer: channels.length === 0 ? 'cannot-tell' : 'told',
    sentence:
      channels.length === 0
        ? 'Cannot tell: the log has no channel.'
        : names.length === 0
          ? `No sensor is caught lying in ${channels.length} channels${unchecked.length > 0 ? `; ${unchecked.length} ${unchecked.length === 1 ? 'check was' : 'checks were'} not possible with this log` : ''}.`
          : `${names.length === 1 ? 'One channel is' : `${names.length} channels are`} suspect: ${names.slice(0, 6).join(', ')}${names.length > 6 ? ' and others' : ''}. ${suspects[0]!.sentence}`,
    remarks,
    unchecked,
    channels: channels.length,
  }
}

/** What the values alone tell of each channel, in one pass of the store a channel. */
async function channelTroubles(
  parquet: string,
  roles: readonly BoundRole[],
): Promise<{ channels: readonly StoredChannel[]; timed: boolean; troubles: SanityRemark[] }> {
  return withParquet(parquet, async (connection, source) => {
    const stored = await readStored(connection, source)
    if (!stored) return { channels: [], timed: false, troubles: [] }
    const troubles: SanityRemark[] = []
    for (const channel of stored.channels) {
      if (channel.states) continue
      const role = roles.find((bound) => bound.channel === channel.name)?.role ?? null
      const column = channel.column
      const [all] = (
        await connection.runAndReadAll(
          `select count(${column})::double, count(*)::double, ${orNan(`min(${column})`)}, ${orNan(`max(${column})`)}, ${orNan(`approx_quantile(${column}, 0.02)`)}, ${orNan(`approx_quantile(${column}, 0.98)`)} from read_parquet(${source})`,
        )
      ).getRows() as unknown as [number, number, number, number, number, number][]
      const [filled, rows, low, high, q02, q98] = all!
      if (filled < 50) continue
      if (low === high) {
        troubles.push({
          channel: channel.name,
          role,
          trouble: 'stuck',
          weight:
            role !== null && !['fanState', 'targetLambda', 'ambientTemperature', 'barometricPressure'].includes(role)
              ? 'suspect'
              : 'told',
          sentence: `${channel.name} reads ${low} ${channel.unit} throughout.`.replace(/ +/g, ' '),
          todo: 'Unplug the sensor with the ignition on: a reading that stays is not from the sensor.',
          at: null,
        })
        continue
      }
      const span = q98 - q02
      if (!(span > 0)) continue
      const [bends] = (
        await connection.runAndReadAll(
          `select ${orNan('approx_quantile(abs(v - 2 * a + b), 0.5)')} from (select ${column} as v, lag(${column}) over (partition by session order by t) as a, lag(${column}, 2) over (partition by session order by t) as b from read_parquet(${source}) where ${column} is not null)`,
        )
      ).getRows()[0]! as unknown as [number]
      // Median of |second difference| is 0.6745 √6 σ of white noise.
      const sigma = bends / (0.6745 * Math.sqrt(6))
      const bound = roles.find((each) => each.channel === channel.name)
      const usual = bound ? (ROLES[bound.role].range[1] - ROLES[bound.role].range[0]) / Math.abs(bound.factor) : 0
      const jump = Math.max(span, 15 * sigma, 0.02 * usual)
      const walk = (
        await connection.runAndReadAll(
          `with s as (select t, ${column} as v, lag(${column}) over (partition by session order by t) as a, lead(${column}) over (partition by session order by t) as c from read_parquet(${source}) where ${column} is not null)
           select count(*) filter (where abs(v - a) > ${jump} and abs(v - c) > ${jump} and abs(a - c) < ${jump / 3})::double,
                  ${orNan(`min(t) filter (where abs(v - a) > ${jump} and abs(v - c) > ${jump} and abs(a - c) < ${jump / 3})`)} from s`,
        )
      ).getRows()[0]! as unknown as [number, number]
      const [drops, first] = walk
      if (drops > 0)
        troubles.push({
          channel: channel.name,
          role,
          trouble: 'drops out',
          weight: drops >= 2 ? 'suspect' : 'told',
          sentence: `${channel.name} jumps away and back within one sample ${drops === 1 ? 'once' : `${drops} times`}, by more than all it otherwise moves.`,
          todo: 'Shake the plug and the loom near it while watching the reading at a standstill: a contact or a chafed wire comes and goes.',
          at: Number.isFinite(first) ? first : null,
        })
      if (sigma > 0.005 * usual && sigma > 0.08 * span && filled > 200)
        troubles.push({
          channel: channel.name,
          role,
          trouble: 'noisy',
          weight: role === null ? 'told' : 'suspect',
          sentence:
            `${channel.name} trembles by ${sigma.toPrecision(2)} ${channel.unit} from sample to sample, ${Math.round((100 * sigma) / span)} % of all it moves.`.replace(
              / +/g,
              ' ',
            ),
          todo: 'Look at its screen and its earth, at the distance from ignition leads, and at what runs beside it in the loom.',
          at: null,
        })
      if (filled < 0.5 * rows && rows - filled > 200 && role !== null) {
        // A slow channel fills every n-th row evenly; one that drops out leaves long holes.
        const [hole] = (
          await connection.runAndReadAll(
            `select ${orNan('max(d)')}, ${orNan('approx_quantile(d, 0.5)')} from (select t - lag(t) over (partition by session order by t) as d from read_parquet(${source}) where ${column} is not null)`,
          )
        ).getRows() as unknown as [number, number][]
        if (hole && hole[0] > 20 * hole[1] && hole[0] > 5)
          troubles.push({
            channel: channel.name,
            role,
            trouble: 'drops out',
            weight: 'suspect',
            sentence: `${channel.name} has no value for ${hole[0].toFixed(0)} s at a stretch, though it is written every ${hole[1].toPrecision(2)} s.`,
            todo: 'Look at its supply and its plug, and whether the bus it comes over was up.',
            at: null,
          })
      }
    }
    return { channels: stored.channels, timed: stored.timed, troubles }
  })
}

/** A reading that stands perfectly still for a minute while the engine does not, and moves at other times. */
function hanging(runs: readonly GridRun[], bound: readonly BoundRole[]): SanityRemark[] {
  const speedAt = bound.findIndex(({ role }) => role === 'engineSpeed')
  if (speedAt < 0) return []
  const quick: readonly Role[] = [
    'manifoldPressure',
    'throttle',
    'lambda',
    'airFlow',
    'injectorPulseWidth',
    'batteryVoltage',
    'fuelPressure',
    'fuelPressureDifference',
    'oilPressure',
    'compressorPressure',
    'chargeTemperatureBefore',
  ]
  return bound.flatMap(({ role, channel }, at): SanityRemark[] => {
    if (!quick.includes(role)) return []
    for (const { series, start, step } of runs) {
      const [values, speed] = [series[at]!, series[speedAt]!]
      let from = 0
      for (let i = 1; i <= values.length; i++) {
        if (i < values.length && values[i] === values[from]) continue
        const time = (i - from) * step
        if (time >= STUCK_TIME) {
          const stretch = speed.subarray(from, i)
          const [low, high] = [stretch.reduce((a, b) => Math.min(a, b)), stretch.reduce((a, b) => Math.max(a, b))]
          if (low > 50 && high > 1.3 * low)
            return [
              {
                channel,
                role,
                trouble: 'stuck',
                weight: 'suspect',
                sentence: `${channel} stands perfectly still for ${time.toFixed(0)} s while the engine goes from ${Math.round((low * 30) / Math.PI)} to ${Math.round((high * 30) / Math.PI)} rpm.`,
                todo: 'Look at its plug and, for a pressure, at its hose: blocked or off.',
                at: start + from * step,
              },
            ]
        }
        from = i
      }
    }
    return []
  })
}

interface Edge {
  readonly session: number
  readonly t: number
  readonly on: boolean
}

async function edgesOf(parquet: string, load: StoredChannel): Promise<Edge[]> {
  return withParquet(parquet, async (connection, source) => {
    const on = load.states
      ? `case when lower(trim(${load.column})) in ('on', '1', 'true', 'yes', 'active', 'ein', 'an', 'aan', 'marche') then 1 else 0 end`
      : `case when ${load.column} > 0.3 * (select max(${load.column}) from read_parquet(${source})) then 1 else 0 end`
    const edges: Edge[] = []
    await eachChunk(
      connection,
      `with s as (select session, t, ${on} as v from read_parquet(${source}) where ${load.column} is not null and t is not null),
       e as (select session, t, v, lag(v) over (partition by session order by t) as a from s)
       select session::double, t::double, v::double from e where a is not null and v <> a order by session, t limit 2000`,
      (columns, rows) => {
        for (let i = 0; i < rows; i++)
          edges.push({ session: columns[0]![i]!, t: columns[1]![i]!, on: columns[2]![i] === 1 })
      },
    )
    return edges
  })
}

/** Steps of each sensor within a second of the switch: heat and air are slower, a shared earth is not. */
function moving(
  runs: readonly GridRun[],
  bound: readonly BoundRole[],
  load: string,
  edges: readonly Edge[],
  expected: readonly ExpectedStep[],
): SanityRemark[] {
  const speedAt = bound.findIndex(({ role }) => role === 'engineSpeed')
  const throttleAt = bound.findIndex(({ role }) => role === 'throttle')
  return bound.flatMap(({ role, channel }, at): SanityRemark[] => {
    if (MOVED_BY_LOADS.includes(role) || channel === load) return []
    const steps: number[] = []
    for (const { session, t, on } of edges) {
      const run = runs.find((each) => each.session === session)
      if (!run) continue
      const cell = Math.round((t - run.start) / run.step)
      const reach = Math.max(3, Math.round(0.8 / run.step))
      const mean = (values: Float64Array, from: number, to: number): number => {
        const part = values.subarray(Math.max(0, from), Math.max(0, to)).filter((value) => !Number.isNaN(value))
        return part.length < 2 ? Number.NaN : part.reduce((sum, each) => sum + each, 0) / part.length
      }
      const change = (values: Float64Array): [number, number] => [
        mean(values, cell - reach, cell - 1),
        mean(values, cell + 2, cell + 2 + reach),
      ]
      const calm = (index: number, share: number): boolean => {
        if (index < 0) return true
        const [before, after] = change(run.series[index]!)
        return !(Math.abs(after - before) > share * Math.max(Math.abs(before), 0.02))
      }
      if (!calm(speedAt, 0.04) || !calm(throttleAt, 0.15)) continue
      const [before, after] = change(run.series[at]!)
      if (Number.isFinite(after - before)) steps.push(on ? after - before : before - after)
    }
    if (steps.length < 3) return []
    const mean = steps.reduce((sum, each) => sum + each, 0) / steps.length
    const deviation = Math.sqrt(steps.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (steps.length - 1))
    const half = student95(steps.length - 1) * (deviation / Math.sqrt(steps.length))
    const model = expected.find((each) => each.role === role)
    const differs =
      model !== undefined &&
      Math.abs(mean - model.step) > Math.max(half, 0.25 * Math.abs(model.step)) &&
      Math.abs(mean - model.step) > half
    const noticed = Math.abs(mean) > half && Math.abs(mean) > 1e-9
    if (!noticed && !differs) return []
    const [low, high] = ROLES[role].range
    // Less than a thousandth of its range is nothing that anybody tunes by.
    if (Math.abs(mean) < 5e-4 * (high - low) && !differs) return []
    const compare =
      model === undefined
        ? 'the circuits entered say nothing of it'
        : `the model expects ${say(role, model.step)}${model.earth && Math.abs(model.step) > 0 ? ` from the shared earth ${model.earth}` : ''}${differs ? ', which does not agree' : ''}`
    return [
      {
        channel,
        role,
        trouble: 'moves with a load',
        weight: 'suspect',
        sentence: `${ROLES[role].title[0]!.toUpperCase()}${ROLES[role].title.slice(1)} steps by ${say(role, mean)} ± ${say(role, half)} when ${load} is switched on (${steps.length} times, 95 %); ${compare}.`,
        todo: 'Return the sensor to the controller’s sensor earth, and measure millivolts between that pin and the sensor while the load runs.',
        at: edges[0]?.t ?? null,
      },
    ]
  })
}

/** Before the first start of the day every temperature is that of the air, and every pressure too. */
function coldSoak(
  runs: readonly GridRun[],
  bound: readonly BoundRole[],
): { remarks: SanityRemark[]; unchecked?: string } {
  const speedAt = bound.findIndex(({ role }) => role === 'engineSpeed')
  const temperatures = bound.flatMap(({ role }, at) => (ROLES[role].kind === 'temperature' ? [at] : []))
  const pressures = bound.flatMap(({ role }, at) =>
    ['manifoldPressure', 'barometricPressure', 'compressorPressure'].includes(role) ? [at] : [],
  )
  const ask =
    'Cold agreement of the sensors could not be looked at: start the log with the ignition on and the engine off after a night’s rest.'
  if (speedAt < 0 || (temperatures.length < 3 && pressures.length < 2)) return { remarks: [], unchecked: ask }
  for (const { series, start, step } of runs) {
    const speed = series[speedAt]!
    let still = 0
    while (still < speed.length && speed[still]! < 5) still++
    if (still * step < 1) continue
    const cells = Math.min(still, Math.round(5 / step))
    const read = (at: number): number => {
      const values = series[at]!.subarray(0, cells)
        .filter((value) => !Number.isNaN(value))
        .sort()
      return values[values.length >> 1] ?? Number.NaN
    }
    const disagree = (group: readonly number[], doubt: number): SanityRemark[] | undefined => {
      const values = group.map((at) => ({ at, value: read(at) })).filter(({ value }) => Number.isFinite(value))
      const sorted = values.map(({ value }) => value).sort((a, b) => a - b)
      const middle =
        sorted.length % 2 === 1
          ? sorted[sorted.length >> 1]!
          : (sorted[sorted.length / 2 - 1]! + sorted[sorted.length / 2]!) / 2
      const agree = values.filter(({ value }) => Math.abs(value - middle) <= doubt)
      if (values.length < 2 || agree.length < Math.max(2, values.length / 2)) return undefined
      return values
        .filter(({ value }) => Math.abs(value - middle) > doubt)
        .map(({ at, value }) => {
          const { role, channel } = bound[at]!
          return {
            channel,
            role,
            trouble: 'disagrees cold',
            weight: 'suspect',
            sentence: `${channel} stands ${say(role, value - middle)} off the middle of ${values.length} sensors with the engine at rest.`,
            todo: 'Measure the sensor at its plug against its table; a warm engine bay is the other explanation.',
            at: start,
          }
        })
    }
    const warm = disagree(temperatures, COLD_DOUBT)
    const air = pressures.length >= 2 ? disagree(pressures, PRESSURE_DOUBT) : []
    return {
      remarks: [...(warm ?? []), ...(air ?? [])],
      ...(warm === undefined && temperatures.length >= 3
        ? {
            unchecked:
              'The temperatures differ at the start as they do on a warm engine; cold agreement needs a night’s rest.',
          }
        : {}),
    }
  }
  return { remarks: [], unchecked: ask }
}
