import { useSyncExternalStore } from 'react'
import { type BenchState, bench } from './bench.ts'

/** The build as it stands, redrawn when it changes. */
export const useBench = (): BenchState => useSyncExternalStore(bench.subscribe, bench.read)
