import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, expect, it } from 'vitest'
import { openBuild } from './store.ts'
import { watchLogs } from './watchLogs.ts'

const root = mkdtempSync(join(tmpdir(), 'swapwright-watch-'))
afterAll(() => rmSync(root, { recursive: true, force: true }))

it('adds files that have stopped growing, names what it refuses, passes over what it holds, and stops', async () => {
  const store = openBuild(join(root, 'build'), { create: 'Watch' })
  const folder = mkdtempSync(join(root, 'in-'))
  const rows = (from: number): string =>
    Array.from({ length: 60 }, (_, i) => `${(from + i) / 10},${800 + i}\n`).join('')
  const growing = join(folder, 'run.csv')
  writeFileSync(growing, `Time [s],RPM [1/min]\n${rows(0)}`)
  writeFileSync(join(folder, 'page.csv'), '<!doctype html><html><body>Sign in</body></html>\n')
  const added: string[] = []
  const refused: string[] = []
  const watch = async (until: () => boolean): Promise<void> => {
    const stop = new AbortController()
    const watching = watchLogs(store, folder, {
      signal: stop.signal,
      every: 0.05,
      looks: 4,
      onAdded: (file, id, samples) => added.push(`${file} ${id} ${samples}`),
      onRefused: (file, refusal) => refused.push(`${file}: ${refusal.problems[0]!.says}`),
    })
    for (let i = 0; i < 200 && !until(); i++) {
      if (i < 4) appendFileSync(growing, rows(60 * (i + 1)))
      await new Promise((resolve) => setTimeout(resolve, 50))
    }
    stop.abort()
    await watching
  }
  await watch(() => added.length === 1 && refused.length === 1)
  // Five blocks of sixty: it was not taken while it grew.
  expect(added).toEqual(['run.csv run 300'])
  expect(refused).toEqual([expect.stringMatching(/^page\.csv: .*web page/i)])
  let looks = 0
  await expect(
    watchLogs(store, join(root, 'nowhere'), {
      signal: new AbortController().signal,
      onAdded: () => looks++,
      onRefused: () => looks++,
    }),
  ).rejects.toThrow(/cannot be read/)
  expect(looks).toBe(0)
  store.close()
})
