/** Listens on the loopback address; on the home network only when the builder turns it on. */
import type { AddressInfo } from 'node:net'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { serve } from '@hono/node-server'
import type { Store } from '../store/store.ts'
import { refuse } from '../units/problem.ts'
import { makeApp } from './app.ts'
import { guard } from './guard.ts'
import { homeNetwork } from './home/homeNetwork.ts'
import { homeRoutes } from './home/homeRoutes.ts'
import { makeHub } from './hub.ts'

/** The built pages: beside the emitted code, or in dist/ when run from source. */
const here = dirname(fileURLToPath(import.meta.url))
const PAGES = here.includes(`${join('dist', 'src')}`) ? join(here, '../../web') : join(here, '../../dist/web')

export const startServer = ({
  store,
  port,
  homeAddresses,
}: {
  store: Store
  port: number
  /** Where the home network is served; else every private address of this machine. */
  homeAddresses?: () => readonly string[]
}): Promise<{ address: string; close: () => Promise<void> }> =>
  new Promise((resolve, reject) => {
    const hub = makeHub()
    const parts = { store, pages: PAGES, hub }
    const home = homeNetwork(
      store.folder,
      (homeGuard, pair) => makeApp({ ...parts, guard: homeGuard, more: (app) => void app.route('/', pair) }),
      homeAddresses === undefined ? {} : { addresses: homeAddresses },
    )
    const app = makeApp({ ...parts, guard, more: (more) => void more.route('/api/home', homeRoutes(home)) })
    const server = serve({ fetch: app.fetch, hostname: '127.0.0.1', port }, (info: AddressInfo) => {
      resolve({
        address: `http://127.0.0.1:${info.port}/`,
        close: async () => {
          await home.close()
          await new Promise<void>((done) => {
            server.close(() => done())
            if ('closeAllConnections' in server) server.closeAllConnections()
          })
        },
      })
    })
    server.on('error', (error: NodeJS.ErrnoException) => {
      reject(
        error.code === 'EADDRINUSE'
          ? refuse(
              'port-taken',
              `Port ${port} is taken by another program.`,
              'Choose another with --port, or 0 for any free one.',
            )
          : error,
      )
    })
  })
