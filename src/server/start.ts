/** Listens on the loopback address, nowhere else. */
import type { AddressInfo } from 'node:net'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { serve } from '@hono/node-server'
import type { Store } from '../store/store.ts'
import { refuse } from '../units/problem.ts'
import { makeApp } from './app.ts'

/** The built pages: beside the emitted code, or in dist/ when run from source. */
const here = dirname(fileURLToPath(import.meta.url))
const PAGES = here.includes(`${join('dist', 'src')}`) ? join(here, '../../web') : join(here, '../../dist/web')

export const startServer = (options: {
  store: Store
  port: number
}): Promise<{ address: string; close: () => Promise<void> }> =>
  new Promise((resolve, reject) => {
    const server = serve(
      { fetch: makeApp(options.store, PAGES).fetch, hostname: '127.0.0.1', port: options.port },
      (info: AddressInfo) => {
        resolve({
          address: `http://127.0.0.1:${info.port}/`,
          close: () =>
            new Promise((done) => {
              server.close(() => done())
              if ('closeAllConnections' in server) server.closeAllConnections()
            }),
        })
      },
    )
    server.on('error', (error: NodeJS.ErrnoException) => {
      reject(
        error.code === 'EADDRINUSE'
          ? refuse(
              'port-taken',
              `Port ${options.port} is taken by another program.`,
              'Choose another with --port, or 0 for any free one.',
            )
          : error,
      )
    })
  })
