/** Helpers for the tests of this folder: files in a folder of their own, a repeatable source of noise. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export interface Bench {
  readonly folder: string
  file(name: string, content: string | Buffer): string
  path(name: string): string
  clear(): void
}

export function bench(): Bench {
  const folder = mkdtempSync(join(tmpdir(), 'swapwright-logs-'))
  const path = (name: string): string => join(folder, name)
  return {
    folder,
    path,
    file: (name, content) => {
      writeFileSync(path(name), content)
      return path(name)
    },
    clear: () => rmSync(folder, { recursive: true, force: true }),
  }
}

export const lines = (count: number, line: (i: number) => string, end = '\n'): string =>
  Array.from({ length: count }, (_, i) => line(i) + end).join('')

/** Normal deviates by Box and Muller over a 32-bit mixing generator: repeatable, good enough to add noise. */
export function noise(seed: number): () => number {
  let state = seed * 2654435761 + 1
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
}
