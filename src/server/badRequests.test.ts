// What no page of ours sends. Each answer is the sender's fault, said so; never a fault of the program.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openBuild, type Store } from '../store/store.ts'
import { startServer } from './start.ts'

let folder = ''
let store: Store
let server: Awaited<ReturnType<typeof startServer>>
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'server-'))
  store = openBuild(folder, { create: 'A build' })
  server = await startServer({ store, port: 0 })
})
afterAll(async () => {
  await server.close()
  store.close()
  rmSync(folder, { recursive: true, force: true })
})

const json = { 'Content-Type': 'application/json' }
test.each([
  ['a body that is cut short', 'api/edits', '{', 400],
  ['an edit without changes', 'api/edits', '{"label":"x"}', 422],
  [
    'a collection that does not exist',
    'api/edits',
    '{"label":"x","changes":[{"collection":"__proto__","id":"a","value":{}}]}',
    422,
  ],
  ['columns that are no JSON', 'api/wires/preview?name=a.csv&columns={', 'wire,from,to\nW,a.1,b.1\n', 422],
  [
    'columns of another form',
    'api/wires/import?name=a.csv&columns={"__proto__":1,"zz":2}',
    'wire,from,to\nW,a.1,b.1\n',
    422,
  ],
  ['an empty wire list', 'api/wires/import?name=a.csv', '', 422],
])('%s', async (_what, path, body, status) => {
  const before = store.version()
  const answer = await fetch(server.address + path, { method: 'POST', headers: json, body })
  expect(answer.status).toBe(status)
  const { problems } = (await answer.json()) as { problems: { says: string; todo: string }[] }
  expect(problems[0]?.says).toMatch(/\w+.*\.$/s)
  expect(problems[0]?.todo).toBeTruthy()
  expect(store.version()).toBe(before)
})

test('an address that is no text is simply not there', async () => {
  expect((await fetch(`${server.address}%E0%A4%A`)).status).toBe(404)
})
