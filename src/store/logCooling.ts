/** Charge-cooler effectiveness from a stored log, kept as a reading with its interval and where it came from. */
import { existsSync } from 'node:fs'
import { chargeCooling, type CoolingOptions, type CoolingResult } from '../logs/cooling.ts'
import type { Build, Edit, Entity } from '../model/build.ts'
import { refuse } from '../units/problem.ts'
import { boundRoles, logFile } from './addLog.ts'
import { freeId } from './freeId.ts'

/** Name under which the assessment looks for it. */
export const EFFECTIVENESS = 'charge-cooler-effectiveness'

/** The log by id, or the newest one. */
export const chooseLog = (build: Build, id: string | undefined): Entity<'logs'> => {
  const logs = Object.values(build.collections.logs)
  const chosen = id === undefined ? logs.sort((a, b) => b.added.localeCompare(a.added))[0] : build.collections.logs[id]
  if (chosen === undefined)
    throw id === undefined
      ? refuse('no-log', `${build.name} has no log yet.`, 'Add one: swapwright log add run.csv.')
      : refuse('no-log', `${build.name} has no log “${id}”.`, logs.length === 0 ? 'Add one first.' : `Its logs are ${logs.map((log) => log.id).join(', ')}.`, `logs/${id}`)
  return chosen
}

export const presentFile = (folder: string, log: Entity<'logs'>): string => {
  const file = logFile(folder, log)
  if (!existsSync(file))
    throw refuse('log-file-missing', `The log ${log.id} is listed, but its file ${log.table} is not in the logs folder.`, 'Copy it there from the folder it came from, or add the log again.', `logs/${log.id}`)
  return file
}

export const logCooling = async (
  folder: string,
  build: Build,
  log: Entity<'logs'>,
  options: Omit<CoolingOptions, 'log'> = {},
): Promise<CoolingResult> => {
  const stated = build.sheets.air?.chargeCooler?.coldReference
  return chargeCooling(presentFile(folder, log), boundRoles(log), {
    ...options,
    ...(options.reference === undefined && stated !== undefined ? { reference: stated } : {}),
    log: log.id,
  })
}

/** The edit that stores the result; undefined when the log cannot tell. A later reading of the same log replaces it. */
export const coolingReading = (build: Build, log: Entity<'logs'>, result: CoolingResult): Edit | undefined => {
  if (result.answer !== 'told') return undefined
  const { value, low, high } = result.effectiveness
  const earlier = Object.values(build.collections.readings).find(
    (reading) => reading.subject === EFFECTIVENESS && reading.provenance?.log === log.id,
  )
  const id = earlier?.id ?? freeId(`effectiveness ${log.id}`, build.collections.readings)
  const reading: Entity<'readings'> = {
    id,
    subject: EFFECTIVENESS,
    quantity: 'ratio',
    value,
    plusMinus: Math.max(high - value, value - low),
    against: result.provenance.reference,
    when: new Date().toISOString(),
    provenance: {
      log: log.id,
      method: result.provenance.method,
      remark: `${result.effectiveness.windows} steady windows against ${result.provenance.reference}`,
    },
  }
  return { label: `Charge-cooler effectiveness from ${log.name}`.slice(0, 200), changes: [{ collection: 'readings', id, value: reading }] }
}
