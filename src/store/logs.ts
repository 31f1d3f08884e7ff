/** A log joins a build: the raw file is kept, a Parquet table is made beside it, roles are bound, the record is filed. */
import { copyFileSync, existsSync, rmSync } from 'node:fs'
import { basename, extname, join } from 'node:path'
import { coarsePath, makeCoarse } from '../logs/coarse.ts'
import { type CoolingOptions, type CoolingResult, chargeCooling } from '../logs/cooling.ts'
import { type ImportOptions, importLog, type LogReport } from '../logs/import.ts'
import {
  type BoundRole,
  bindRole,
  guessRoles,
  ROLES,
  type Role,
  type RoleGuess,
  sourceSignature,
} from '../logs/roles.ts'
import type { Entity } from '../model/build.ts'
import { Refusal, refuse } from '../units/problem.ts'
import { withClosings } from './settle.ts'
import type { Store } from './store.ts'

const freeId = (store: Store, wanted: string): string => {
  const taken = store.read().collections.logs
  const stem =
    wanted
      .replace(/[^A-Za-z0-9_+]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 40) || 'log'
  for (let n = 1; ; n++) {
    const id = n === 1 ? stem : `${stem}-${n}`
    if (!taken[id] && !existsSync(join(store.folder, 'logs', `${id}.parquet`))) return id
  }
}

/** Roles that the builder confirmed on an earlier log of the same source, and the units where the file names none. */
const remembered = (store: Store, source: string): Map<string, { readonly role: string; readonly unit?: string }> => {
  const roles = new Map<string, { readonly role: string; readonly unit?: string }>()
  for (const log of Object.values(store.read().collections.logs)) {
    if (log.source !== source) continue
    for (const channel of log.channels)
      if (channel.role && channel.confirmed)
        roles.set(channel.name, { role: channel.role, ...(channel.unit ? { unit: channel.unit } : {}) })
  }
  return roles
}

/** Meanings of the channels: what the builder confirmed for this logger before, else a guess. */
const meanings = (store: Store, report: LogReport) => {
  const roles = guessRoles(report.channels)
  const source = sourceSignature(report.channels)
  const known = remembered(store, source)
  const guessed = new Map(roles.map((guess) => [guess.channel, guess.role as string]))
  const spoken = new Set([...known.values()].map(({ role }) => role))
  const channels = report.channels.map((channel): Entity<'logs'>['channels'][number] => {
    const confirmed = known.get(channel.name)
    const guess = guessed.get(channel.name)
    // A meaning that the builder gave to another channel is not guessed again for this one.
    const role = confirmed?.role ?? (guess !== undefined && spoken.has(guess) ? undefined : guess)
    const unit = channel.unit || confirmed?.unit
    return {
      name: channel.name,
      ...(unit ? { unit } : {}),
      ...(role ? { role } : {}),
      ...(confirmed ? { confirmed: true } : {}),
    }
  })
  return { source, roles, channels }
}

/** A file that came from a browser lies under a name of our own; the refusal names the one that the person knows. */
const calledBy = (name: string, lying: string, { problems }: Refusal): Refusal =>
  new Refusal(problems.map((problem) => ({ ...problem, says: problem.says.replaceAll(lying, name) })))

export interface AddedLog {
  readonly id: string
  readonly report: LogReport
  readonly roles: readonly RoleGuess[]
}

export const addLog = async (
  store: Store,
  file: string,
  options: ImportOptions & { name?: string } = {},
): Promise<AddedLog> => {
  const name = options.name ?? basename(file)
  const id = freeId(store, basename(name, extname(name)))
  const table = `${id}.parquet`
  const report = await importLog(file, join(store.folder, 'logs', table), options).catch((cause: unknown) => {
    throw cause instanceof Refusal ? calledBy(name, basename(file), cause) : cause
  })
  await makeCoarse(join(store.folder, 'logs', table), report.samples)
  const raw = `${id}${
    extname(name)
      .replace(/[^A-Za-z0-9.]/g, '')
      .slice(0, 8) || '.log'
  }`
  try {
    copyFileSync(file, join(store.folder, 'logs', raw))
    const { source, roles, channels } = meanings(store, report)
    const record: Entity<'logs'> = {
      id,
      name: name.slice(0, 160),
      file: raw,
      table,
      added: new Date().toISOString(),
      samples: report.samples,
      first: report.first,
      last: report.last,
      source,
      channels,
    }
    store.edit({ label: `Log ${name.slice(0, 80)}`, changes: [{ collection: 'logs', id, value: record }] })
    return { id, report, roles }
  } catch (error) {
    for (const left of [table, coarsePath(table), raw]) rmSync(join(store.folder, 'logs', left), { force: true })
    throw error
  }
}

/**
 * The raw file that was kept is read once more, as the builder says. The new table stands beside the old one, so that
 * undo leads back to it.
 */
export const readLogAgain = async (store: Store, id: string, options: ImportOptions): Promise<AddedLog> => {
  const log = logOf(store, id)
  const raw = join(store.folder, 'logs', basename(log.file))
  if (!existsSync(raw))
    throw refuse(
      'log-file-missing',
      `The raw file ${basename(log.file)} of the log ${log.id} is not in the logs folder.`,
      'Add the log again from where it came from.',
      `logs/${log.id}`,
    )
  let turn = 2
  while (existsSync(join(store.folder, 'logs', `${log.id}.${turn}.parquet`))) turn++
  const table = `${log.id}.${turn}.parquet`
  const report = await importLog(raw, join(store.folder, 'logs', table), options)
  await makeCoarse(join(store.folder, 'logs', table), report.samples)
  try {
    const { source, roles, channels } = meanings(store, report)
    const { samples, first, last } = report
    store.edit({
      label: `Log ${log.name.slice(0, 80)} read again`,
      changes: [{ collection: 'logs', id, value: { ...log, table, samples, first, last, source, channels } }],
    })
    return { id, report: { ...report, source: log.name }, roles }
  } catch (error) {
    rmSync(join(store.folder, 'logs', table), { force: true })
    throw error
  }
}

export const logOf = (store: Store, id: string | undefined): Entity<'logs'> => {
  const logs = Object.values(store.read().collections.logs)
  const log =
    id === undefined ? logs.sort((a, b) => b.added.localeCompare(a.added))[0] : store.read().collections.logs[id]
  if (log) return log
  throw id === undefined
    ? refuse('no-log', 'This build holds no log yet.', 'Add one with "swapwright log add <file>".')
    : refuse(
        'no-log',
        `There is no log “${id}” in this build.`,
        logs.length > 0
          ? `It holds: ${logs.map((entry) => entry.id).join(', ')}.`
          : 'Add one with "swapwright log add <file>".',
      )
}

export const boundRoles = (log: Entity<'logs'>): BoundRole[] =>
  log.channels.flatMap((channel) => {
    // A document from elsewhere may name a role that this version does not know.
    if (!channel.role || !Object.hasOwn(ROLES, channel.role)) return []
    const bound = bindRole(
      channel.role as Role,
      { name: channel.name, unit: channel.unit ?? '' },
      channel.confirmed ?? false,
    )
    return bound ? [bound] : []
  })

/** The log's Parquet file. Logs do not travel in an exported document, so a listed one may be missing. */
export const logTable = (store: Store, log: Entity<'logs'>): string => {
  const file = join(store.folder, 'logs', basename(log.table))
  if (!existsSync(file))
    throw refuse(
      'log-file-missing',
      `The log ${log.id} (${log.name}) is listed, but its file ${basename(log.table)} is not in the logs folder.`,
      'Copy it there from the folder it came from, or add the log again with "swapwright log add <file>".',
      `logs/${log.id}`,
    )
  return file
}

/** Charge-cooler effectiveness from a log; what it tells is filed as a reading, which the assessment reads. */
export const coolingFromLog = async (
  store: Store,
  id: string | undefined,
  options: Omit<CoolingOptions, 'log'> = {},
): Promise<{ log: Entity<'logs'>; result: CoolingResult; reading?: string }> => {
  const log = logOf(store, id)
  // What the build says the cooler is cooled by goes before what the log's channels suggest.
  const { air, engine } = store.read().sheets
  const stated = air?.chargeCooler?.coldReference
  const result = await chargeCooling(logTable(store, log), boundRoles(log), {
    ...(stated === undefined ? {} : { reference: stated }),
    ...(engine?.sweptVolume === undefined ? {} : { sweptVolume: engine.sweptVolume.value }),
    ...options,
    log: log.id,
  })
  if (result.answer !== 'told') return { log, result }
  const { value, low, high, windows } = result.effectiveness
  const reading = `cooling-${log.id}`.slice(0, 48)
  store.edit(
    withClosings(store.read(), {
      label: `Charge-cooler effectiveness from ${log.name.slice(0, 80)}`,
      changes: [
        {
          collection: 'readings',
          id: reading,
          value: {
            id: reading,
            subject: 'charge-cooler-effectiveness',
            quantity: 'ratio',
            value,
            plusMinus: (high - low) / 2,
            when: new Date().toISOString(),
            provenance: {
              log: log.id,
              method: 'charge-cooling/1',
              remark: `${windows} steady windows; cold reference ${result.provenance.reference}.`,
            },
          },
        },
      ],
    }),
  )
  return { log, result, reading }
}
