import type { Command } from 'commander'
import { startServer } from '../server/start.ts'
import { openNamed } from './context.ts'
import type { Out } from './print.ts'

export const addServe = (program: Command, out: Out): void => {
  program
    .command('serve')
    .description('the workbench in a browser, on the loopback address only')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('-p, --port <number>', 'port; 0 takes a free one', '4747')
    .action(async (options: { build?: string; port: string }) => {
      const store = await openNamed(options.build, false)
      const server = await startServer({ store, port: Number(options.port) })
      out.write(`The workbench is at ${server.address}  (stop it with Ctrl-C)\n`)
      await new Promise<void>((resolve) => {
        for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve())
      })
      await server.close()
      store.close()
    })
}
