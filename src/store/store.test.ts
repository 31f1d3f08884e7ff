// Cites the rules numbered in SPEC.md.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { copyFileSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import fc from 'fast-check'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { demoBuild, soundBuild } from '../../demo/index.ts'
import { writeBuild } from '../model/read.ts'
import { Refusal } from '../units/problem.ts'
import { buildFile, openBuild } from './store.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'store-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const note = (id: string, text: string) => ({
  label: `Note ${id}`,
  changes: [{ collection: 'notes' as const, id, value: { id, text } }],
})

test('SPEC 1: an edit is there for whoever opens the build next', () => {
  const store = openBuild(folder, { create: 'A build' })
  store.edit(note('first', 'earth strap ordered'))
  store.close()
  const again = openBuild(folder)
  expect(again.read().collections.notes.first).toEqual({ id: 'first', text: 'earth strap ordered' })
  expect(again.history().map((entry) => entry.label)).toEqual(['Note first'])
  again.close()
})

test('SPEC 2: every edit acknowledged before kill -9 is there afterwards', async () => {
  openBuild(folder, { create: 'A build' }).close()
  const script = `
    import { openBuild } from ${JSON.stringify(join(import.meta.dirname, 'store.ts'))}
    const store = openBuild(${JSON.stringify(folder)})
    for (let n = 0; ; n++) {
      store.edit({ label: 'n' + n, changes: [{ collection: 'notes', id: 'n' + n, value: { id: 'n' + n, text: 'x' } }] })
      process.stdout.write(n + '\\n')
    }`
  const file = join(folder, 'writer.mts')
  writeFileSync(file, script)
  const child = spawn(process.execPath, ['--import', import.meta.resolve('tsx'), file], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  let said = ''
  child.stdout.on('data', (chunk: Buffer) => {
    said += chunk.toString()
    if (said.split('\n').length > 40) child.kill('SIGKILL')
  })
  await once(child, 'close')
  const acknowledged = said.split('\n').slice(0, -1).map(Number)
  expect(acknowledged.length).toBeGreaterThan(30)
  // SPEC 5: the dead writer's lock is taken over.
  const store = openBuild(folder)
  for (const n of acknowledged) expect(store.read().collections.notes[`n${n}`]).toBeDefined()
  store.close()
})

test('SPEC 3: any run of edits, undone to the start and redone to the end, gives the same bytes', () => {
  const ids = fc.constantFrom('a', 'b', 'c')
  const edit = fc.oneof(
    fc.record({ id: ids, text: fc.string({ minLength: 1, maxLength: 8 }) }).map(({ id, text }) => note(id, text)),
    ids.map((id) => ({ label: `gone ${id}`, changes: [{ collection: 'notes' as const, id, value: null }] })),
    fc.string({ minLength: 1, maxLength: 12 }).map((name) => ({ label: 'name', changes: [{ name }] })),
  )
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 12 }), (edits) => {
      const place = mkdtempSync(join(folder, 'run-'))
      const store = openBuild(place, { create: 'Start' })
      const states = [writeBuild(store.read())]
      for (const one of edits) {
        store.edit(one)
        states.push(writeBuild(store.read()))
      }
      for (let n = edits.length - 1; n >= 0; n--) {
        expect(store.undo()).not.toBeNull()
        expect(writeBuild(store.read())).toBe(states[n])
      }
      expect(store.undo()).toBeNull()
      for (let n = 1; n <= edits.length; n++) {
        store.redo()
        expect(writeBuild(store.read())).toBe(states[n])
      }
      expect(store.redo()).toBeNull()
      store.close()
      const again = openBuild(place, { readOnly: true })
      expect(writeBuild(again.read())).toBe(states.at(-1))
      again.close()
    }),
    { numRuns: 15 },
  )
}, 60_000)

test('SPEC 3: an edit after an undo drops what could have been redone', () => {
  const store = openBuild(folder, { create: 'A build' })
  store.edit(note('a', 'one'))
  store.undo()
  store.edit(note('b', 'two'))
  expect(store.redo()).toBeNull()
  expect(Object.keys(store.read().collections.notes)).toEqual(['b'])
  store.close()
})

test('SPEC 4: an edit that the model refuses changes nothing, and says which wire', () => {
  const store = openBuild(folder, { create: 'A build' })
  const before = writeBuild(store.read())
  const bad = { id: 'W-1', from: 'a.1', to: 'b.1', length: { value: -2 } }
  expect(() => store.edit({ label: 'bad', changes: [{ collection: 'wires', id: 'W-1', value: bad }] })).toThrow(/W-1/)
  expect(writeBuild(store.read())).toBe(before)
  expect(store.history()).toEqual([])
  store.close()
})

test('SPEC 5: a second writer is refused by name, a reader is not', () => {
  const store = openBuild(folder, { create: 'A build' })
  expect(() => openBuild(folder)).toThrow(/open in another Swapwright \(process \d+\)/)
  openBuild(folder, { readOnly: true }).close()
  store.close()
  openBuild(folder).close()
})

test('SPEC 6: a file cut short, one that is no database, and one of a newer format are refused and left as they are', () => {
  const store = openBuild(folder, { create: 'A build' })
  store.replace(demoBuild(), 'demo')
  store.close()
  const file = buildFile(folder)
  const whole = join(folder, 'whole')
  copyFileSync(file, whole)
  const refused = (words: RegExp) => {
    const bytes = readFileSync(file)
    let said: unknown
    try {
      openBuild(folder)
    } catch (error) {
      said = error
    }
    expect(said).toBeInstanceOf(Refusal)
    expect((said as Error).message).toMatch(words)
    expect(readFileSync(file).equals(bytes)).toBe(true)
  }
  truncateSync(file, 20_000)
  refused(/is not a whole Swapwright build/)
  writeFileSync(
    file,
    'not a database at all, just some words in a file that is long enough to be looked at. '.repeat(20),
  )
  refused(/is not a whole Swapwright build/)
  copyFileSync(whole, file)
  const database = new Database(file)
  database.prepare("update meta set value = '2' where key = 'format'").run()
  database.pragma('wal_checkpoint(truncate)')
  database.close()
  refused(/newer Swapwright \(store format 2/)
})

test('SPEC 7: export, import, export is identical, and the import can be undone', () => {
  const store = openBuild(folder, { create: 'A build' })
  store.replace(demoBuild(), 'demo')
  const demo = writeBuild(store.read())
  expect(demo).toBe(writeBuild(demoBuild()))
  store.replace(soundBuild(), 'sound')
  expect(writeBuild(store.read())).toBe(writeBuild(soundBuild()))
  store.undo()
  expect(writeBuild(store.read())).toBe(demo)
  store.close()
})
