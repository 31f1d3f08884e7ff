/** The home network from outside: what a stranger, a phone with a code and a phone that was sent away can do. */
import { X509Certificate } from 'node:crypto'
import { mkdtempSync, rmSync, statSync } from 'node:fs'
import { request as plain } from 'node:http'
import { createServer, type RequestOptions, request as secured } from 'node:https'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openBuild, type Store } from '../../store/store.ts'
import { makeApp } from '../app.ts'
import { makeHub } from '../hub.ts'
import { homeAddresses } from './addresses.ts'
import { homeCertificate } from './certificate.ts'
import { openDevices } from './devices.ts'
import { type HomeNetwork, homeNetwork } from './homeNetwork.ts'
import { patience } from './patience.ts'

/** A real address of this machine where it has one; else another than the one that the loopback door answers to. */
const ADDRESS = homeAddresses()[0] ?? '127.0.0.2'

let folder: string
let store: Store
let home: HomeNetwork
let clock: number
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'swapwright-home-'))
  store = openBuild(join(folder, 'build'), { create: 'Van' })
  clock = Date.now()
  home = homeNetwork(
    store.folder,
    (guard, pair) => makeApp({ store, pages: folder, hub: makeHub(), guard, more: (app) => void app.route('/', pair) }),
    { addresses: () => [ADDRESS], patience: patience(3, () => clock) },
  )
})
afterEach(async () => {
  await home.close()
  store.close()
  rmSync(folder, { recursive: true, force: true })
})

interface Answer {
  readonly status: number
  readonly headers: Record<string, string | string[] | undefined>
  readonly text: string
}
const call = (address: string, path: string, options: RequestOptions & { body?: unknown } = {}): Promise<Answer> =>
  new Promise((resolve, reject) => {
    const url = new URL(path, address)
    const { body, headers, ...rest } = options
    const send = (url.protocol === 'https:' ? secured : plain)(
      url,
      {
        method: body === undefined ? 'GET' : 'POST',
        headers: { ...(body === undefined ? {} : { 'content-type': 'application/json' }), ...headers },
        agent: false,
        ...rest,
      },
      (answer) => {
        let text = ''
        answer.setEncoding('utf8')
        answer.on('data', (chunk: string) => {
          text += chunk
        })
        answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, text }))
      },
    )
    send.on('error', reject)
    send.end(body === undefined ? undefined : JSON.stringify(body))
  })

const pairPhone = async (address: string, options: RequestOptions = {}): Promise<string> => {
  const { code } = home.devices.newCode()
  const answer = await call(address, '/api/pair', { ...options, body: { code, name: 'Phone in the garage' } })
  expect(answer.status, answer.text).toBe(200)
  const [cookie] = answer.headers['set-cookie'] ?? []
  expect(cookie).toMatch(/HttpOnly; (Secure; )?SameSite=Strict/)
  return cookie!.split(';')[0]!
}

test('nothing of the build is told before pairing, all of it after', async () => {
  const { addresses } = await home.turnOn({ secure: false, port: 0 })
  const address = addresses[0]!
  const stranger = await call(address, '/api/build')
  expect(stranger.status).toBe(401)
  expect(stranger.text).toMatch(/This phone is not paired/)
  const cookie = await pairPhone(address)
  const build = await call(address, '/api/build', { headers: { cookie } })
  expect(build.status).toBe(200)
  expect(JSON.parse(build.text).build.name).toBe('Van')
  const [device] = home.devices.list()
  expect(device).toMatchObject({ name: 'Phone in the garage', revoked: false })
})

test('the switch of the network cannot be reached from the network', async () => {
  const address = (await home.turnOn({ secure: false, port: 0 })).addresses[0]!
  const cookie = await pairPhone(address)
  for (const path of ['/api/home', '/api/home/code'])
    expect((await call(address, path, { headers: { cookie } })).status).toBe(404)
})

test('a code serves once and ten minutes; a wrong one is counted, and then the address waits', async () => {
  const address = (await home.turnOn({ secure: false, port: 0 })).addresses[0]!
  const { code } = home.devices.newCode()
  expect((await call(address, '/api/pair', { body: { code, name: 'one' } })).status).toBe(200)
  expect((await call(address, '/api/pair', { body: { code, name: 'two' } })).text).toMatch(
    /wrong, used already or older/,
  )
  for (const guess of ['a', 'b']) await call(address, '/api/pair', { body: { code: guess, name: 'thief' } })
  const fresh = home.devices.newCode().code
  const held = await call(address, '/api/pair', { body: { code: fresh, name: 'phone' } })
  expect(held.status).toBe(429)
  expect(held.headers['retry-after']).toBe('60')
  clock += 61_000
  expect((await call(address, '/api/pair', { body: { code: fresh, name: 'phone' } })).status).toBe(200)
})

test('revoking takes effect at once; turning off closes the door', async () => {
  const address = (await home.turnOn({ secure: false, port: 0 })).addresses[0]!
  const cookie = await pairPhone(address)
  home.devices.revoke(home.devices.list()[0]!.id)
  const sent = await call(address, '/api/build', { headers: { cookie } })
  expect(sent.status).toBe(401)
  expect(sent.text).toMatch(/no longer paired/)
  await home.turnOff()
  await expect(call(address, '/api/build')).rejects.toThrow(/ECONNREFUSED/)
})

test('a page of another site, or another name for this machine, gets nothing even with the token', async () => {
  const address = (await home.turnOn({ secure: false, port: 0 })).addresses[0]!
  const cookie = await pairPhone(address)
  for (const headers of [{ origin: 'http://elsewhere.example' }, { host: 'elsewhere.example' }])
    expect((await call(address, '/api/build', { headers: { cookie, ...headers } })).status).toBe(403)
})

test('with the certificate: trusted by who installed its authority, kept over a restart, its key for nobody else', async () => {
  const first = await home.turnOn({ secure: true, port: 0 })
  expect(first.addresses[0]).toMatch(/^https:/)
  const authority = (await call(first.certificateAt!, '')).text
  expect(new X509Certificate(authority).fingerprint256).toBe(first.fingerprint)
  const address = first.addresses[0]!
  await expect(call(address, '/api/build')).rejects.toThrow(/certificate/)
  const cookie = await pairPhone(address, { ca: authority })
  const build = await call(address, '/api/build', { ca: authority, headers: { cookie } })
  expect(JSON.parse(build.text).build.name).toBe('Van')
  const again = await home.turnOn({ secure: true, port: 0 })
  expect(again.fingerprint).toBe(first.fingerprint)
  expect((await call(again.addresses[0]!, '/api/build', { ca: authority, headers: { cookie } })).status).toBe(200)
  const key = statSync(join(store.folder, 'home-network', 'authority.key'))
  expect(key.mode & 0o077).toBe(0)
})

test('the authority cannot vouch for a public address', async () => {
  const { key, certificate, authority } = await homeCertificate(join(folder, 'kept'), ['203.0.113.5', ADDRESS])
  const server = createServer({ key, cert: certificate }, (_request, response) => response.end('hello'))
  await new Promise<void>((done) => server.listen(0, ADDRESS, done))
  const { port } = server.address() as AddressInfo
  await expect(call(`https://${ADDRESS}:${port}`, '/', { ca: authority })).rejects.toThrow(
    /permitted subtree violation/,
  )
  server.close()
})

test('a token ends after ninety days', () => {
  let now = Date.now()
  const devices = openDevices(join(folder, 'kept'), () => now)
  const { token } = devices.pair(devices.newCode().code, 'phone')!
  now += 89 * 86_400_000
  expect(devices.deviceOf(token)?.name).toBe('phone')
  now += 2 * 86_400_000
  expect(devices.deviceOf(token)).toBeUndefined()
  const late = devices.newCode().code
  now += 11 * 60_000
  expect(devices.pair(late, 'too late')).toBeUndefined()
  devices.close()
})

test('only private addresses are offered', () => {
  const entry = (address: string, more: object = {}) =>
    ({ address, family: 'IPv4', internal: false, netmask: '', mac: '', cidr: null, ...more }) as never
  expect(
    homeAddresses({
      lo: [entry('127.0.0.1', { internal: true })],
      a: [entry('10.0.0.7'), entry('203.0.113.9'), entry('fe80::1', { family: 'IPv6' })],
      b: [entry('192.168.1.20')],
    }),
  ).toEqual(['192.168.1.20', '10.0.0.7'])
})
