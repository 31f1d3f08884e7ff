/** What both benches of the fault search measure alike. */
import type { Row } from './rows.ts'

/** Processor time since `from`: other work on the machine does not count. */
export const milliseconds = (from: NodeJS.CpuUsage): number => {
  const { user, system } = process.cpuUsage(from)
  return (user + system) / 1000
}

export const share = (count: number, of: number): string => `${((100 * count) / of).toFixed(1)} %`

/** Stated probabilities against how often it was so. */
export const calibration = (name: string, stated: readonly (readonly [number, boolean])[]): Row[] => {
  const rows: Row[] = []
  for (const [from, to] of [
    [0.01, 0.1],
    [0.1, 0.3],
    [0.3, 0.5],
    [0.5, 0.7],
    [0.7, 0.9],
    [0.9, 0.97],
    [0.97, 1.01],
  ] as const) {
    const inside = stated.filter(([p]) => p >= from && p < to)
    if (inside.length === 0) continue
    const said = inside.reduce((sum, [p]) => sum + p, 0) / inside.length
    const so = inside.filter(([, right]) => right).length / inside.length
    rows.push({ name: `${name}: said ${said.toFixed(2)}`, value: `so in ${so.toFixed(2)} of ${inside.length}` })
  }
  return rows
}
