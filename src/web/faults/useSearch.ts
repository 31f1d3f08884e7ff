/**
 * The search engine behind the page: prepared once for what a search starts from (a second or so), then asked again
 * with every piece of evidence (a blink).
 */
import { useEffect, useMemo, useState } from 'react'
import {
  type ReadySearch,
  type SearchView,
  type StoredSearch,
  startSearch,
  withEvidence,
} from '../../assess/faults/faults.ts'
import type { Build } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'

export interface Searched {
  readonly ready: ReadySearch | undefined
  readonly view: SearchView | undefined
  readonly problems: readonly Problem[]
}

/** What preparing a search looks at; evidence and readings are not among it. */
const LOOKED_AT = [
  'devices',
  'wires',
  'cases',
  'runs',
  'zones',
  'accesses',
  'branchPoints',
  'inputs',
  'outputs',
] as const

let known: { readonly from: readonly unknown[]; readonly ready: ReadySearch } | undefined

const same = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((item, i) => item === b[i])

export const useSearch = (build: Build, stored: StoredSearch): Searched => {
  const start = JSON.stringify([
    stored.complaint,
    stored.case,
    stored.switches,
    stored.outputs,
    stored.priors,
    stored.sure,
  ])
  const from = [...LOOKED_AT.map((name) => build.collections[name]), start]
  const [ready, setReady] = useState<ReadySearch | undefined>(known && same(known.from, from) ? known.ready : undefined)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  // biome-ignore lint/correctness/useExhaustiveDependencies: `from` holds all that the preparation looks at.
  useEffect(() => {
    if (known && same(known.from, from)) {
      setReady(known.ready)
      setProblems([])
      return
    }
    setReady(undefined)
    // The page says first that it is at work.
    const timer = setTimeout(() => {
      try {
        const made = startSearch(build, stored)
        known = { from, ready: made }
        setReady(made)
        setProblems([])
      } catch (error) {
        if (!(error instanceof Refusal)) throw error
        setProblems(error.problems)
      }
    }, 30)
    return () => clearTimeout(timer)
  }, [...from])
  const view = useMemo(() => {
    if (ready === undefined) return undefined
    try {
      return withEvidence(ready, stored.evidence)
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      return error.problems
    }
  }, [ready, stored.evidence])
  return Array.isArray(view)
    ? { ready, view: undefined, problems: view as readonly Problem[] }
    : { ready, view: view as SearchView | undefined, problems }
}
