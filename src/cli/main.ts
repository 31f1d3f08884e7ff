import { runCommand } from './run.ts'

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // The reader of a pipe went away (`swapwright check | head`): nothing is wrong.
  if (error.code === 'EPIPE') process.exit(0)
})
process.exitCode = await runCommand(process.argv.slice(2), {
  write: (text) => process.stdout.write(text),
  error: (text) => process.stderr.write(text),
})
