/** A line of a bench: what was measured, and what was to be reached where something was. */
export interface Row {
  readonly name: string
  readonly value: string
  readonly reach?: string
  readonly reached?: boolean
}

export const printRows = (title: string, rows: readonly Row[]): void => {
  console.log(`\n${title}`)
  for (const { name, value, reach, reached } of rows)
    console.log(`  ${name}: ${value}${reach ? `   (to reach: ${reach}${reached ? '' : '; not reached'})` : ''}`)
}

/** Least wall time of several runs (s): what the machine's other work adds only ever adds. */
export const seconds = (run: () => unknown, times: number): number => {
  let least = Number.POSITIVE_INFINITY
  for (let k = 0; k < times; k++) {
    const from = performance.now()
    run()
    least = Math.min(least, performance.now() - from)
  }
  return least / 1000
}
