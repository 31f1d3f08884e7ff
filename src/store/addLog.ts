/** A logger's file into the build: Parquet under logs/, channels bound to roles, a record. */
import { rm } from 'node:fs/promises'
import { join } from 'node:path'
import { importLog, type ImportOptions, type LogReport } from '../logs/import.ts'
import { type BoundRole, bindRole, guessRoles, type Role, ROLES, sourceSignature } from '../logs/roles.ts'
import type { Build, Edit, Entity } from '../model/build.ts'
import { refuse } from '../units/problem.ts'
import { freeId } from './freeId.ts'
import type { OpenBuild } from './openBuild.ts'

export interface LogAdded {
  readonly log: Entity<'logs'>
  readonly report: LogReport
  readonly seq: number
}

export const logFile = (folder: string, log: Entity<'logs'>): string => {
  // The name comes from a document that anyone may have written: it must stay a name inside logs/.
  if (!/^[A-Za-z0-9][A-Za-z0-9_.+-]*\.parquet$/.test(log.table))
    throw refuse('unfit-name', `The log ${log.id} names a table “${log.table}” that is no plain file name.`, 'Add the log again.', `logs/${log.id}`)
  return join(folder, 'logs', log.table)
}

/** Roles by the channels' names and units; what this logger's earlier logs had confirmed goes before any guess. */
const bind = (build: Build, channels: LogReport['channels'], source: string): Entity<'logs'>['channels'] => {
  const earlier = Object.values(build.collections.logs)
    .filter((log) => log.source === source)
    .sort((a, b) => b.added.localeCompare(a.added))[0]
  const confirmed = new Map(earlier?.channels.filter((channel) => channel.confirmed).map(({ name, role }) => [name, role]))
  const guesses = new Map(guessRoles(channels).map(({ channel, role }) => [channel, role]))
  const settled = new Set([...confirmed.values()])
  return channels.map(({ name, unit }) => {
    const known = confirmed.has(name)
    const guess = guesses.get(name)
    const role = known ? confirmed.get(name) : guess !== undefined && !settled.has(guess) ? guess : undefined
    return {
      name,
      ...(unit === '' ? {} : { unit }),
      ...(role === undefined ? {} : { role }),
      ...(known ? { confirmed: true } : {}),
    }
  })
}

export const addLog = async (store: OpenBuild, file: string, name: string, options: ImportOptions = {}): Promise<LogAdded> => {
  const id = freeId(name.replace(/\.[a-z0-9]{1,7}$/i, ''), store.read().collections.logs)
  const table = `${id}.parquet`
  const target = join(store.folder, 'logs', table)
  const report = await importLog(file, target, options)
  const source = sourceSignature(report.channels)
  const log: Entity<'logs'> = {
    id,
    name: name.slice(0, 160),
    file: name.slice(0, 160),
    table,
    added: new Date().toISOString(),
    samples: report.samples,
    first: report.first,
    last: report.last,
    source,
    channels: bind(store.read(), report.channels, source),
  }
  try {
    const seq = store.edit({ label: `Log added: ${log.name}`, changes: [{ collection: 'logs', id, value: log }] })
    return { log, report, seq }
  } catch (error) {
    await rm(target, { force: true })
    throw error
  }
}

const isRole = (text: string): text is Role => Object.hasOwn(ROLES, text)

/** The log's channels tied to roles with their factors to SI; channels whose unit does not fit are left out. */
export const boundRoles = (log: Entity<'logs'>): BoundRole[] =>
  log.channels.flatMap(({ name, unit, role, confirmed }) =>
    role !== undefined && isRole(role) ? (bindRole(role, { name, unit: unit ?? '' }, confirmed ?? false) ?? []) : [],
  )

/** `channel=role`: says what a channel means, and remembers it as confirmed. */
export const confirmRole = (log: Entity<'logs'>, channel: string, role: string, unit?: string): Edit => {
  if (!log.channels.some(({ name }) => name === channel))
    throw refuse('no-channel', `The log ${log.id} has no channel “${channel}”.`, `Its channels are ${log.channels.map(({ name }) => name).join(', ').slice(0, 800)}.`, `logs/${log.id}`)
  if (!isRole(role)) throw refuse('no-role', `There is no role “${role}”.`, `Roles: ${Object.keys(ROLES).join(', ')}.`, role)
  const channels = log.channels.map((entry) => {
    if (entry.name === channel) return { ...entry, ...(unit === undefined ? {} : { unit }), role, confirmed: true }
    return entry.role === role ? { ...entry, role: undefined, confirmed: undefined } : entry
  })
  const bound = channels.find(({ name }) => name === channel)
  if (bindRole(role, { name: channel, unit: bound?.unit ?? '' }, true) === undefined)
    throw refuse('wrong-unit', `Channel “${channel}” is in “${bound?.unit ?? 'no unit'}”, which is no unit of ${ROLES[role].title}.`, 'Give its unit as well, such as T1=ambientTemperature:°C.', `logs/${log.id}`)
  return { label: `Channel ${channel} is ${ROLES[role].title}`, changes: [{ collection: 'logs', id: log.id, value: { ...log, channels } }] }
}
