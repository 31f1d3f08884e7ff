/** Turns the home network on and off: one listener for each private address of this machine, never a public one. */
import { X509Certificate } from 'node:crypto'
import { createServer as createPlain } from 'node:http'
import { createServer as createSecure } from 'node:https'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { type ServerType, serve } from '@hono/node-server'
import { Hono } from 'hono'
import { refuse } from '../../units/problem.ts'
import { homeAddresses } from './addresses.ts'
import { homeCertificate } from './certificate.ts'
import { type Devices, openDevices, type PairedDevice } from './devices.ts'
import { homeGuard } from './homeGuard.ts'
import { pairing } from './pairing.ts'
import { type Patience, patience } from './patience.ts'

export interface HomeState {
  readonly on: boolean
  readonly secure: boolean
  /** Where a phone finds the workbench: the likeliest address first. */
  readonly addresses: readonly string[]
  /** Where it finds the authority's certificate to install, and the fingerprint to compare. */
  readonly certificateAt: string | undefined
  readonly fingerprint: string | undefined
  readonly devices: readonly PairedDevice[]
}

export interface HomeNetwork {
  readonly devices: Devices
  state(): HomeState
  turnOn(options: { readonly secure: boolean; readonly port?: number }): Promise<HomeState>
  turnOff(): Promise<HomeState>
  close(): Promise<void>
}

interface Open {
  readonly secure: boolean
  readonly origins: readonly string[]
  readonly certificateAt: string | undefined
  readonly fingerprint: string | undefined
  readonly servers: readonly ServerType[]
}

const TRIES = 10
const PORT = 4748

const stop = (server: ServerType): Promise<void> =>
  new Promise((done) => {
    server.close(() => done())
    if ('closeAllConnections' in server) server.closeAllConnections()
  })

const listen = (make: (ready: (info: AddressInfo) => void) => ServerType): Promise<[ServerType, number]> =>
  new Promise((resolve, reject) => {
    const server = make((info) => resolve([server, info.port]))
    server.on('error', reject)
  })

/** The certificate goes over plain HTTP, because the phone does not trust the secure address until it has it. */
const certificatePages = (authority: string): Hono =>
  new Hono().get('/swapwright-authority.crt', (context) => {
    context.header('Content-Type', 'application/x-x509-ca-cert')
    return context.body(authority)
  })

export const homeNetwork = (
  folder: string,
  appFor: (guard: ReturnType<typeof homeGuard>, pair: Hono) => Hono,
  options: { readonly addresses?: () => readonly string[]; readonly patience?: Patience } = {},
): HomeNetwork => {
  const kept = join(folder, 'home-network')
  const devices = openDevices(kept)
  const waiting = options.patience ?? patience(TRIES)
  let open: Open | undefined

  const state = (): HomeState => ({
    on: open !== undefined,
    secure: open?.secure ?? false,
    addresses: (open?.origins ?? []).map((origin) => `${origin}/`),
    certificateAt: open?.certificateAt,
    fingerprint: open?.fingerprint,
    devices: devices.list(),
  })

  const turnOff = async (): Promise<HomeState> => {
    const closing = open
    open = undefined
    if (closing) await Promise.all(closing.servers.map(stop))
    return state()
  }

  const turnOn: HomeNetwork['turnOn'] = async ({ secure, port = PORT }) => {
    const addresses = (options.addresses ?? homeAddresses)()
    if (addresses.length === 0)
      throw refuse(
        'no-network',
        'This machine is on no home network: it has no private address.',
        'Join the Wi-Fi that the phone is on, or plug in the cable, then turn it on again.',
      )
    await turnOff()
    const certificate = secure ? await homeCertificate(kept, addresses) : undefined
    const origins: string[] = []
    const app = appFor(
      homeGuard(() => origins, devices, waiting),
      pairing(devices, waiting, secure),
    )
    const servers: ServerType[] = []
    try {
      // The first address settles the port for all of them.
      let wanted = port
      for (const hostname of addresses) {
        const [server, taken] = await listen((ready) =>
          certificate
            ? serve(
                {
                  fetch: app.fetch,
                  hostname,
                  port: wanted,
                  createServer: createSecure,
                  serverOptions: { key: certificate.key, cert: `${certificate.certificate}\n${certificate.authority}` },
                },
                ready,
              )
            : serve({ fetch: app.fetch, hostname, port: wanted, createServer: createPlain }, ready),
        )
        wanted = taken
        servers.push(server)
        origins.push(`${secure ? 'https' : 'http'}://${hostname}:${taken}`)
      }
      let certificateAt: string | undefined
      if (certificate) {
        const [server, taken] = await listen((ready) =>
          serve({ fetch: certificatePages(certificate.authority).fetch, hostname: addresses[0]!, port: 0 }, ready),
        )
        servers.push(server)
        certificateAt = `http://${addresses[0]}:${taken}/swapwright-authority.crt`
      }
      open = {
        secure,
        origins,
        certificateAt,
        fingerprint: certificate && new X509Certificate(certificate.authority).fingerprint256,
        servers,
      }
      return state()
    } catch (error) {
      await Promise.all(servers.map(stop))
      const { code } = error as NodeJS.ErrnoException
      if (code === 'EADDRINUSE')
        throw refuse('port-taken', `Port ${port} is taken by another program.`, 'Close it, or choose another port.')
      throw error
    }
  }

  return {
    devices,
    state,
    turnOn,
    turnOff,
    close: async () => {
      await turnOff()
      devices.close()
    },
  }
}
