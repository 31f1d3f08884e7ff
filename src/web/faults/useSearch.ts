/**
 * One search on the screen: started once for what it starts from (seconds, beside the page, which can be left
 * meanwhile), then asked again with every piece of evidence (a blink).
 */
import { useEffect, useMemo, useState, useSyncExternalStore } from 'react'
import type { SearchView, StoredSearch } from '../../assess/faults/faults.ts'
import type { Build } from '../../model/build.ts'
import type { Problem } from '../../units/problem.ts'
import { type Answered, type Asked, type ShownSearch, searchEngine } from './searchEngine.ts'

export interface Searched {
  readonly ready: ShownSearch | undefined
  /** The latest there is; while `isWeighing`, that before the newest evidence. */
  readonly view: SearchView | undefined
  readonly isWeighing: boolean
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

interface Talk {
  /** All that it started from, in writing: a build that came anew from the laptop is mostly the same car. */
  readonly from: string
  readonly ask: (asked: Asked) => void
  readonly end: () => void
  shown?: Omit<ShownSearch, 'build'>
  view?: SearchView
  problems: readonly Problem[]
  asked: number
  answered: number
}
/** The one engine that runs: it stays when the page is left, so that coming back costs nothing. */
let talk: Talk | undefined
let turns = 0
const listeners = new Set<() => void>()
const tell = (): void => {
  turns += 1
  for (const listener of listeners) listener()
}
const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

const same = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((item, i) => item === b[i])

const begin = (from: string, first: Asked): Talk => {
  const heard = (said: Answered): void => {
    if (talk !== made) return
    if (said.kind === 'ready') made.shown = said.shown
    else if (said.kind === 'refused') {
      made.problems = said.problems
      made.answered = said.ask ?? made.answered
    } else if (said.ask === made.asked) {
      made.view = said.view
      made.problems = []
      made.answered = said.ask
    }
    tell()
  }
  let worker: Worker | undefined
  const inPage = searchEngine(heard)
  // The page says first that it is at work.
  const later = (asked: Asked): void => void setTimeout(() => talk === made && inPage(asked), 30)
  const made: Talk = {
    from,
    ask: (asked) => (worker ? worker.postMessage(asked) : later(asked)),
    end: () => worker?.terminate(),
    problems: [],
    asked: 0,
    answered: 0,
  }
  talk = made
  try {
    const beside = new Worker(new URL('./search.worker.ts', import.meta.url), { type: 'module' })
    beside.onmessage = ({ data }: MessageEvent<Answered>) => heard(data)
    // Its file is out of reach, as in a garage without signal: the page does it itself, and stands still meanwhile.
    beside.onerror = () => {
      beside.terminate()
      worker = undefined
      if (made.shown === undefined) later(first)
    }
    worker = beside
  } catch {
    // A browser without workers.
  }
  made.ask(first)
  return made
}

export const useSearch = (build: Build, stored: StoredSearch): Searched => {
  useSyncExternalStore(subscribe, () => turns)
  const start = JSON.stringify([
    stored.complaint,
    stored.case,
    stored.switches,
    stored.outputs,
    stored.priors,
    stored.sure,
  ])
  const { collections } = build
  const car = useMemo(() => JSON.stringify(LOOKED_AT.map((name) => collections[name])), [collections])
  const from = `${start} ${car}`
  const mine = talk?.from === from ? talk : undefined
  // biome-ignore lint/correctness/useExhaustiveDependencies: `from` holds all that the preparation looks at.
  useEffect(() => {
    if (talk?.from === from) return
    talk?.end()
    const { evidence: _, history: __, ...rest } = stored
    begin(from, { kind: 'start', build, start: rest })
    tell()
  }, [from])
  const shown = mine?.shown
  const { evidence } = stored
  const { readings } = build.collections
  const [weighed, setWeighed] = useState<readonly unknown[]>([])
  useEffect(() => {
    if (!mine || !shown) return
    mine.asked += 1
    mine.ask({ kind: 'weigh', ask: mine.asked, evidence, readings })
    setWeighed([mine, evidence])
  }, [mine, shown, evidence, readings])
  const ready = useMemo(() => shown && { ...shown, build }, [shown, build])
  const isWeighing = !same(weighed, [mine, evidence]) || mine?.answered !== mine?.asked
  return { ready, view: mine?.view, isWeighing, problems: mine?.problems ?? [] }
}
