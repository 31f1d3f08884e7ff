/** One writer a build (SPEC 5): a lock file that names the process, taken over when that process is gone. */
import { closeSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import { refuse } from '../units/problem.ts'

const alive = (pid: number): boolean => {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

export const takeLock = (folder: string): (() => void) => {
  const file = join(folder, 'writer.lock')
  for (let attempt = 0; attempt < 2; attempt++) {
    try {
      const handle = openSync(file, 'wx')
      writeSync(handle, String(process.pid))
      closeSync(handle)
      return () => rmSync(file, { force: true })
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
      const pid = Number(readFileSync(file, 'utf8'))
      if (Number.isInteger(pid) && pid > 0 && alive(pid)) {
        throw refuse(
          'build-in-use',
          `The build in ${folder} is open in another Swapwright (process ${pid}).`,
          'Close that one, or make the change there.',
        )
      }
      rmSync(file, { force: true })
    }
  }
  throw refuse(
    'build-in-use',
    `The build in ${folder} is being opened by another Swapwright.`,
    'Try again in a moment.',
  )
}
