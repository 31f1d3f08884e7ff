// The server by real HTTP, as a page and as a stranger would call it.
import { mkdtempSync, rmSync } from 'node:fs'
import { request } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { demoBuild, soundBuild } from '../demo/index.ts'
import { startServer } from '../src/server/start.ts'
import { openBuild, type Store } from '../src/store/store.ts'

let folder = ''
let store: Store
let server: Awaited<ReturnType<typeof startServer>>
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'server-'))
  store = openBuild(folder, { create: 'A build' })
  store.replace(soundBuild(), 'sound')
  server = await startServer({ store, port: 0 })
})
afterAll(async () => {
  await server.close()
  store.close()
  rmSync(folder, { recursive: true, force: true })
})

const send = (path: string, body: unknown) =>
  fetch(server.address + path, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify(body),
  })

test('listens on the loopback address only', () => {
  expect(new URL(server.address).hostname).toBe('127.0.0.1')
})

test('an edit answers with the build after it, undo with the build before it', async () => {
  const note = { id: 'n', text: 'strap fitted' }
  const edited = await (
    await send('api/edits', { label: 'note', changes: [{ collection: 'notes', id: 'n', value: note }] })
  ).json()
  expect(edited.build.collections.notes.n).toEqual(note)
  const undone = await (await send('api/undo', {})).json()
  expect(undone.build.collections.notes.n).toBeUndefined()
  expect(undone.seq).toBeGreaterThan(edited.seq)
})

test('a refused edit is a sentence that names the item; nothing changes', async () => {
  const before = (await (await fetch(`${server.address}api/build`)).json()).seq
  const answer = await send('api/edits', {
    label: 'bad',
    changes: [{ collection: 'wires', id: 'W-X', value: { id: 'W-X', from: 'a.1', to: 'b.1', length: { value: -1 } } }],
  })
  expect(answer.status).toBe(422)
  expect((await answer.json()).problems[0].says).toMatch(/W-X/)
  expect((await (await fetch(`${server.address}api/build`)).json()).seq).toBe(before)
})

const raw = (headers: Record<string, string>) =>
  new Promise<number>((resolve, reject) => {
    const { port } = new URL(server.address)
    request({ host: '127.0.0.1', port, path: '/api/build', headers }, (response) => {
      response.resume()
      resolve(response.statusCode ?? 0)
    })
      .on('error', reject)
      .end()
  })

test('another Host or Origin is refused', async () => {
  const { host } = new URL(server.address)
  expect(await raw({ host })).toBe(200)
  expect(await raw({ host: 'evil.example' })).toBe(403)
  expect(await raw({ host, origin: 'http://evil.example' })).toBe(403)
})

test('pages come with a policy that allows nothing from elsewhere; no path leads out of them', async () => {
  const answer = await fetch(`${server.address}api/build`)
  expect(answer.headers.get('content-security-policy')).toMatch(/default-src 'none'/)
  expect((await fetch(`${server.address}..%2f..%2fpackage.json`)).status).toBe(404)
})

test('a job closes in the edit that makes its finding go, one undo takes both back, and redo is not lost', async () => {
  const own = openBuild(join(folder, 'demo'), { create: 'Demo' })
  own.replace(demoBuild(), 'demo')
  const other = await startServer({ store: own, port: 0 })
  const post = async (path: string, body: unknown) =>
    (
      await fetch(other.address + path, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify(body),
      })
    ).json()
  try {
    const key = 'material:wires/W-94'
    const job = { id: 'J-cca', title: 'Replace the aluminium', status: 'to do', finding: key }
    await post('api/edits', { label: 'job', changes: [{ collection: 'jobs', id: job.id, value: job }] })
    expect(own.read().collections.jobs['J-cca']?.status).toBe('to do')
    const wire = own.read().collections.wires['W-94']
    const mended = await post('api/edits', {
      label: 'copper',
      changes: [{ collection: 'wires', id: 'W-94', value: { ...wire, material: 'copper' } }],
    })
    expect(mended.build.collections.jobs['J-cca'].status).toBe('closed')
    const undone = await post('api/undo', {})
    expect(undone.build.collections.jobs['J-cca'].status).toBe('to do')
    expect(undone.build.collections.wires['W-94'].material).toBe('copper-clad aluminium')
    expect(undone.canRedo).toBe(true)
    expect((await post('api/redo', {})).build.collections.jobs['J-cca'].status).toBe('closed')
  } finally {
    await other.close()
    own.close()
  }
})

test('a log that is a picture is refused in words', async () => {
  const picture = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, ...new Array(3000).fill(1)])
  const answer = await fetch(`${server.address}api/logs?name=run.csv`, { method: 'POST', body: picture })
  expect(answer.status).toBe(422)
  expect((await answer.json()).problems[0].says).toMatch(/picture|PNG/)
})
