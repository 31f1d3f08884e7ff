/** A watched folder: a file that has stopped growing joins the build; one that cannot be read is named, once. */
import { readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { Refusal, refuse } from '../units/problem.ts'
import { addLog } from './logs.ts'
import type { Store } from './store.ts'

export interface WatchOptions {
  readonly signal: AbortSignal
  /** Time between two looks, s. */
  readonly every?: number
  /** Looks during which a file must not have grown. */
  readonly looks?: number
  readonly onAdded: (file: string, id: string, samples: number) => void
  readonly onRefused: (file: string, refusal: Refusal) => void
}

interface Seen {
  readonly size: number
  readonly changed: number
  readonly looks: number
  readonly done: boolean
}

/** Ends when the signal does. Files that the build already holds, by name and number of bytes, are passed over. */
export async function watchLogs(store: Store, folder: string, options: WatchOptions): Promise<void> {
  const { signal, every = 1, looks = 2 } = options
  const seen = new Map<string, Seen>()
  const held = (name: string, size: number): boolean =>
    Object.values(store.read().collections.logs).some((log) => {
      if (log.name !== name) return false
      try {
        return statSync(join(store.folder, 'logs', log.file)).size === size
      } catch {
        return false
      }
    })
  const list = (): string[] => {
    try {
      return readdirSync(folder).filter((name) => !name.startsWith('.'))
    } catch {
      throw refuse(
        'no-folder',
        `The folder ${folder} cannot be read.`,
        'Name a folder that the logger writes its files to.',
      )
    }
  }
  while (!signal.aborted) {
    for (const name of list()) {
      if (signal.aborted) return
      const file = join(folder, name)
      let size: number
      let changed: number
      try {
        const stat = statSync(file)
        if (!stat.isFile() || stat.size === 0) continue
        ;[size, changed] = [stat.size, stat.mtimeMs]
      } catch {
        continue
      }
      const before = seen.get(name)
      const same = before !== undefined && before.size === size && before.changed === changed
      if (same && before.done) continue
      const count = same ? before.looks + 1 : 0
      const done = count >= looks
      seen.set(name, { size, changed, looks: count, done })
      if (!done || held(name, size)) continue
      try {
        const { id, report } = await addLog(store, file, { name, signal })
        options.onAdded(name, id, report.samples)
      } catch (error) {
        if (signal.aborted) return
        if (!(error instanceof Refusal)) throw error
        options.onRefused(name, error)
      }
    }
    await new Promise<void>((resolve) => {
      const wake = (): void => {
        clearTimeout(timer)
        resolve()
      }
      const timer = setTimeout(() => {
        signal.removeEventListener('abort', wake)
        resolve()
      }, every * 1000)
      signal.addEventListener('abort', wake, { once: true })
    })
  }
}
