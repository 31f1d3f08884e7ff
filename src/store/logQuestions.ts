/** The questions of a build's logs: each answers in a sentence, and what it tells is filed with where it comes from. */
import { existsSync } from 'node:fs'
import { sensorSteps } from '../assess/signals/loadStep.ts'
import { type Comparison, compareCooling } from '../logs/compareCooling.ts'
import { type CompressorResult, compressorEfficiency } from '../logs/compressor.ts'
import { chargeCooling } from '../logs/cooling.ts'
import { type HeadroomOptions, type HeadroomResult, injectorHeadroom } from '../logs/headroom.ts'
import { type BenchOptions, benchRows, characteriseBench } from '../logs/injectors/benchTest.ts'
import { characteriseInjectors, type InjectorOptions } from '../logs/injectors/characterise.ts'
import type { InjectorResult } from '../logs/injectors/result.ts'
import { type AskedLog, withLooseLog } from '../logs/loose.ts'
import { judge, type Role } from '../logs/roles.ts'
import { type ExpectedStep, type SanityResult, sensorSanity } from '../logs/sanity.ts'
import type { Build, Change, Entity } from '../model/build.ts'
import type { InjectorCard } from '../model/injectorCard.ts'
import { boundRoles, logOf, logTable } from './logs.ts'
import { withClosings } from './settle.ts'
import type { Store } from './store.ts'

export const filedLog = (store: Store, id: string | undefined): AskedLog => {
  const log = logOf(store, id)
  return { name: log.id, parquet: logTable(store, log), roles: boundRoles(log) }
}

/** A log of the build by its id, else a file. */
export const withAskedLog = async <T>(
  store: Store | undefined,
  asked: string | undefined,
  binds: readonly string[],
  use: (log: AskedLog) => Promise<T>,
): Promise<T> => {
  const filed = asked === undefined || store?.read().collections.logs[asked] !== undefined
  if (store && (filed || !existsSync(asked!))) return use(filedLog(store, asked))
  return withLooseLog(asked!, binds, use)
}

type Reading = Entity<'readings'>
const fileAll = (store: Store, label: string, changes: Change[]): void => {
  store.edit(withClosings(store.read(), { label: label.slice(0, 200), changes }))
}
const readingChange = (reading: Reading): Change => ({ collection: 'readings', id: reading.id, value: reading })
const idOf = (...parts: string[]): string =>
  parts
    .join('-')
    .replace(/[^A-Za-z0-9_+.-]+/g, '-')
    .slice(0, 48)

/** Target speed and swept limits come from the build where nothing else is said. */
export const askHeadroom = async (
  log: AskedLog,
  build: Build | undefined,
  options: Omit<HeadroomOptions, 'log'> = {},
): Promise<HeadroomResult> => {
  const speed = options.targetSpeed ?? build?.sheets.engine?.targetSpeed?.value
  return injectorHeadroom(log.parquet, log.roles, {
    ...options,
    ...(speed === undefined ? {} : { targetSpeed: speed }),
    log: log.name,
  })
}

export const fileHeadroom = (store: Store, log: string, result: HeadroomResult): string | undefined => {
  if (result.answer !== 'told') return undefined
  const { duty, low, high, speed, pressure } = result.target
  const id = idOf('duty', log)
  fileAll(store, `Injector duty from ${log}`, [
    readingChange({
      id,
      subject: 'injector-duty',
      quantity: 'ratio',
      value: duty,
      plusMinus: (high - low) / 2,
      when: new Date().toISOString(),
      provenance: {
        log,
        method: 'injector-headroom/1',
        remark: `At ${Math.round((speed * 30) / Math.PI)} rpm and ${Math.round(pressure / 1e3)} kPa${result.target.extrapolated ? ', beyond what was driven' : ''}; limit ${result.provenance.limit}.`,
      },
    }),
  ])
  return id
}

export const askCompressor = (log: AskedLog): Promise<CompressorResult> =>
  compressorEfficiency(log.parquet, log.roles, { log: log.name })

export const fileCompressor = (store: Store, log: string, result: CompressorResult): string | undefined => {
  if (result.answer !== 'told') return undefined
  const id = idOf('compressor', log)
  fileAll(store, `Compressor efficiency from ${log}`, [
    readingChange({
      id,
      subject: 'compressor-efficiency',
      quantity: 'ratio',
      value: result.value,
      plusMinus: (result.high - result.low) / 2,
      when: new Date().toISOString(),
      provenance: { log, method: 'compressor-efficiency/1', remark: `${result.windows.length} steady windows.` },
    }),
  ])
  return id
}

/** Both logs against the same cold reference: the build's, else what both hold. */
export const askComparison = async (
  before: AskedLog,
  after: AskedLog,
  build: Build | undefined,
): Promise<Comparison> => {
  const stated = build?.sheets.air?.chargeCooler?.coldReference
  const water = [before, after].every(({ roles }) => roles.some(({ role }) => role === 'coolerWaterIn'))
  const reference = stated ?? (water ? ('water into the cooler' as const) : ('ambient air' as const))
  const sweptVolume = build?.sheets.engine?.sweptVolume?.value
  const one = (log: AskedLog) =>
    chargeCooling(log.parquet, log.roles, {
      log: log.name,
      reference,
      ...(sweptVolume === undefined ? {} : { sweptVolume }),
    })
  return compareCooling(await one(before), await one(after))
}

export const fileComparison = (store: Store, before: string, after: string, result: Comparison): string | undefined => {
  if (result.answer !== 'told') return undefined
  const id = idOf('cooling-change', before, after)
  fileAll(store, `Charge cooling, ${before} and ${after}`, [
    readingChange({
      id,
      subject: 'charge-cooler-effectiveness-change',
      quantity: 'ratio',
      value: result.difference,
      plusMinus: result.half,
      when: new Date().toISOString(),
      provenance: { log: after, method: 'charge-cooling-compared/1', remark: `Against ${before}. ${result.sentence}` },
    }),
  ])
  return id
}

/** What the circuits expect of each logged sensor when the fan comes on: sensors and channels are matched by their names. */
const expectedSteps = (build: Build, log: AskedLog): ExpectedStep[] =>
  sensorSteps(build, /fan/i).flatMap((step): ExpectedStep[] => {
    const channel = { name: step.name, unit: '', min: null, mean: null, max: null }
    const bound = log.roles.find(({ role }) => judge(channel, role) !== undefined && fits(role, step.quantity))
    return bound ? [{ role: bound.role, step: step.step, earth: step.earth }] : []
  })

const fits = (role: Role, quantity: string): boolean =>
  quantity.startsWith('pressure')
    ? /pressure/i.test(role)
    : quantity.startsWith('temperature')
      ? /temperature|water/i.test(role)
      : true

export const askSanity = (log: AskedLog, build: Build | undefined): Promise<SanityResult> =>
  sensorSanity(log.parquet, log.roles, { log: log.name, ...(build ? { expected: expectedSteps(build, log) } : {}) })

export const askInjectors = (
  known: AskedLog & { readonly pulsesPerCycle?: number },
  unknown: AskedLog & { readonly pulsesPerCycle?: number },
  card: InjectorCard,
  options: InjectorOptions,
): Promise<InjectorResult> => characteriseInjectors(known, unknown, card, options)

/** From a table of weighings alone: what the injectors are, no second log needed. */
export const askBench = async (log: AskedLog, options: BenchOptions): Promise<InjectorResult> => {
  const { rows, missing } = await benchRows(log.parquet, log.roles, options.pressure)
  return characteriseBench(rows, options, missing)
}

/** The flow as a reading, the dead times as a calibration; the card goes into the fuel sheet only when the builder says so. */
export const fileInjectors = (store: Store, log: string, result: InjectorResult): string | undefined => {
  if (result.answer !== 'told') return undefined
  const id = idOf('injectors', log)
  const when = new Date().toISOString()
  fileAll(store, `Injectors from ${log}`, [
    readingChange({
      id,
      subject: 'injector-flow',
      quantity: 'massFlow',
      value: result.slope.value,
      plusMinus: result.slope.plusMinus,
      when,
      provenance: {
        ...(store.read().collections.logs[log] ? { log } : {}),
        method: result.provenance.method,
        remark: result.sentence,
      },
    }),
    {
      collection: 'calibrations',
      id,
      value: {
        id,
        name: result.card.name,
        kind: 'injector dead time, s against V',
        table: result.deadTime
          .filter(({ support }) => support === 'driven')
          .map(({ voltage, value }) => [voltage, value]),
        source: `${result.provenance.method}; ${result.card.provenance.from}. ${result.sentence}`,
        when,
      },
    },
  ])
  return id
}
