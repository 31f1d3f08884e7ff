/** How long each wire is cut: what it measures in the car, and enough at both ends to terminate it once again. */
import type { Build, Wire } from '../../model/build.ts'
import { list, own } from '../make.ts'
import { loomSettings } from './settings.ts'

export interface Cut {
  /** m, in the car; undefined: not known. */
  readonly laid: number | undefined
  /** m, as cut. */
  readonly cut: number | undefined
  /** m, of both. */
  readonly plusMinus: number | undefined
  /** m along its runs alone, without tails; undefined: no path, or a run without length. */
  readonly along: number | undefined
  /** How the figure came about. */
  readonly working: string
  /** What keeps it unknown. */
  readonly missing: string | undefined
}

const metres = (value: number): string => value.toFixed(2)

export const runCalled = (build: Build, id: string): string => {
  const run = own(build.collections.runs, id)
  return run?.name === undefined ? `run ${id}` : `run ${id} (${run.name})`
}

export const cutOf = (build: Build, wire: Wire): Cut => {
  const { tail, service } = loomSettings(build)
  const runs = (wire.path ?? []).map((id) => ({ id, length: own(build.collections.runs, id)?.length }))
  const bare = runs.filter(({ length }) => length === undefined).map(({ id }) => id)
  const along =
    runs.length > 0 && bare.length === 0 ? runs.reduce((sum, { length }) => sum + length!.value, 0) : undefined
  const more = `+ 2 × ${metres(service.value)} m service`
  if (wire.length) {
    const { value, plusMinus } = wire.length
    return {
      laid: value,
      cut: value + 2 * service.value,
      plusMinus,
      along,
      working: `${metres(value)} m as entered ${more}`,
      missing: undefined,
    }
  }
  if (along === undefined)
    return {
      laid: undefined,
      cut: undefined,
      plusMinus: undefined,
      along,
      working: '',
      missing:
        runs.length === 0
          ? 'its length, or its path through the loom'
          : `the length of ${list(bare.map((id) => runCalled(build, id)))}`,
    }
  // Each run was measured by itself: their errors are independent.
  const spread = Math.sqrt(runs.reduce((sum, { length }) => sum + (length!.plusMinus ?? 0) ** 2, 0))
  const laid = along + 2 * tail.value
  return {
    laid,
    cut: laid + 2 * service.value,
    plusMinus: spread > 0 ? spread : undefined,
    along,
    working: `${runs.map(({ length }) => metres(length!.value)).join(' + ')} m of runs + 2 × ${metres(tail.value)} m tails ${more}`,
    missing: undefined,
  }
}
