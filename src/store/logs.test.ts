import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { addLog, boundRoles, logOf, logTable, readLogAgain } from './logs.ts'
import { openBuild, type Store } from './store.ts'

let folder: string
let store: Store
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'swapwright-store-logs-'))
  store = openBuild(join(folder, 'build'), { create: 'Logs' })
})
afterEach(() => {
  store.close()
  rmSync(folder, { recursive: true, force: true })
})
const file = (name: string, start: number): string => {
  const path = join(folder, name)
  const rows = Array.from({ length: 50 }, (_, i) => `${start + i * 20},${900 + i},${2 + i / 100}`)
  writeFileSync(path, `Time,RPM,Inj PW\n${rows.join('\n')}\n`)
  return path
}

it('reads a log again as it is told, keeps its meanings, and undo leads back', async () => {
  const { id, report } = await addLog(store, file('run.csv', 0))
  expect([report.guesses.map(({ override }) => override), logOf(store, id).last]).toEqual([['timeForm'], 0.98])
  const before = logOf(store, id)
  const again = await readLogAgain(store, id, { overrides: { timeForm: 'seconds' } })
  expect([again.report.step, logOf(store, id).last, logOf(store, id).samples]).toEqual([20, 980, 50])
  expect(logTable(store, logOf(store, id))).not.toBe(logTable(store, before))
  store.undo()
  expect(logOf(store, id)).toEqual(before)
  expect(logTable(store, logOf(store, id))).toMatch(/run\.parquet$/)
})

it('remembers meaning and unit of a channel for the next log of the same logger, and for no other', async () => {
  const { id } = await addLog(store, file('first.csv', 0))
  const log = logOf(store, id)
  // "Inj PW" names no unit: until one is said it is bound to nothing.
  expect(boundRoles(log).map(({ role }) => role)).not.toContain('injectorPulseWidth')
  const channels = log.channels.map((each) =>
    each.name === 'Inj PW' ? { ...each, unit: 'ms', role: 'injectorPulseWidth', confirmed: true } : each,
  )
  store.edit({ label: 'Meaning', changes: [{ collection: 'logs', id, value: { ...log, channels } }] })
  const next = logOf(store, (await addLog(store, file('second.csv', 7))).id)
  expect(boundRoles(next).find(({ role }) => role === 'injectorPulseWidth')).toMatchObject({
    factor: 1e-3,
    confirmed: true,
  })
  const other = join(folder, 'other.csv')
  writeFileSync(other, 'Time,Inj PW\n0,2\n20,2.1\n40,2.2\n60,2.3\n')
  const stranger = logOf(store, (await addLog(store, other)).id)
  expect(stranger.channels.find(({ name }) => name === 'Inj PW')?.confirmed).toBeUndefined()
})
