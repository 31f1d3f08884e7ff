// Rule 5 of SPEC.md where it is easy to get wrong: readers that write, and locks that outlive their process.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openBuild } from './store.ts'

let folder = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lock-'))
  openBuild(folder, { create: 'A build' }).close()
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

test('SPEC 5: a reader cannot write, and sees what the writer wrote since', () => {
  const writer = openBuild(folder)
  const reader = openBuild(folder, { readOnly: true })
  expect(() => reader.edit({ label: 'x', changes: [{ name: 'Another' }] })).toThrow(/open for reading only/)
  expect(() => reader.undo()).toThrow(/open for reading only/)
  writer.edit({ label: 'name', changes: [{ name: 'Renamed' }] })
  expect(reader.read().name).toBe('Renamed')
  reader.close()
  writer.close()
})

test('SPEC 5: another process is refused while one holds the build, and let in once that one is killed', async () => {
  const script = `
    import { openBuild } from ${JSON.stringify(join(import.meta.dirname, 'store.ts'))}
    openBuild(${JSON.stringify(folder)})
    process.stdout.write('open')
    setInterval(() => {}, 1000)
  `
  const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  await once(child.stdout, 'data')
  expect(() => openBuild(folder)).toThrow(new RegExp(`open in another Swapwright \\(process ${child.pid}\\)`))
  child.kill('SIGKILL')
  await once(child, 'exit')
  const store = openBuild(folder)
  store.edit({ label: 'name', changes: [{ name: 'Mine' }] })
  expect(store.read().name).toBe('Mine')
  store.close()
})

test('a folder that cannot be made is refused by name', () => {
  expect(() => openBuild(join(folder, 'build.sqlite'), { create: 'X' })).toThrow(
    /The folder .*build\.sqlite cannot be made/,
  )
})
