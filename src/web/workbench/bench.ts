/**
 * The open build in this browser. An edit shows at once and is judged here; it is sent in turn, and the server's
 * answer wins: when it refuses, the edit is taken back and its problems are shown.
 */
import { type Assessment, assess } from '../../assess/assess.ts'
import { closeAnswered } from '../../assess/jobs.ts'
import type { Build, Edit } from '../../model/build.ts'
import { applyChanges } from '../../model/read.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { ask, send } from './api.ts'

export interface BenchState {
  /** Undefined until the server has answered once. */
  readonly build: Build | undefined
  readonly assessment: Assessment | undefined
  readonly problems: readonly Problem[]
  /** Edits that the server has not yet acknowledged. */
  readonly unsent: number
  /** What was done last, for the status line. */
  readonly done: string
  readonly canUndo: boolean
  readonly canRedo: boolean
}
/** What every route that reads or changes the build answers. */
export interface BuildAnswer {
  readonly build: Build
  readonly seq: number
  readonly canUndo: boolean
  readonly canRedo: boolean
}

const problemsIn = (error: unknown): readonly Problem[] => {
  if (error instanceof Refusal) return error.problems
  throw error
}

let served: Build | undefined
let seq = -1
let pending: Edit[] = []
let queue: Promise<void> = Promise.resolve()
let state: BenchState = {
  build: undefined,
  assessment: undefined,
  problems: [],
  unsent: 0,
  done: '',
  canUndo: false,
  canRedo: false,
}
const listeners = new Set<() => void>()

interface Judged {
  readonly assessment: Assessment | undefined
  readonly problems: readonly Problem[]
}
/** The last few judgements, so that an edit, its echo from the server and its undo cost one each. */
let judged: readonly (readonly [text: string, result: Judged])[] = []
const KEPT = 4

const judge = (build: Build): Judged => {
  const text = JSON.stringify(build)
  const known = judged.find(([before]) => before === text)
  if (known) return known[1]
  let result: Judged
  try {
    result = { assessment: assess(build), problems: [] }
  } catch (error) {
    result = { assessment: undefined, problems: problemsIn(error) }
  }
  judged = [[text, result] as const, ...judged].slice(0, KEPT)
  return result
}

/** Jobs whose finding goes with an edit close in that same edit, so that one undo brings back both (store, rule 11). */
const withClosings = (edit: Edit, next: Build): Edit => {
  const { assessment } = judge(next)
  const closing = assessment && closeAnswered(next, assessment.findings)
  return closing ? { label: edit.label, changes: [...edit.changes, ...closing.changes] } : edit
}

const put = (next: Partial<BenchState>): void => {
  state = { ...state, ...next }
  for (const listener of listeners) listener()
}

/** The served build with what is still on its way laid over it. */
const settle = (said: Partial<BenchState> = {}): void => {
  if (served === undefined) {
    put(said)
    return
  }
  let build = served
  for (const edit of pending) {
    try {
      build = applyChanges(build, edit.changes)
    } catch (error) {
      // Another door changed the same thing meanwhile; the server will say so when this edit reaches it.
      problemsIn(error)
    }
  }
  // The server's copy of what is already shown here need not be judged a second time.
  if (build === state.build || (state.assessment && JSON.stringify(build) === JSON.stringify(state.build))) {
    put({ unsent: pending.length, ...said })
    return
  }
  const verdict = judge(build)
  put({
    build,
    assessment: verdict.assessment,
    unsent: pending.length,
    ...said,
    problems: [...(said.problems ?? []), ...verdict.problems],
  })
}

/** Takes a served build unless a newer one has come already. */
const serve = ({ build, seq: now, canUndo, canRedo }: BuildAnswer): Partial<BenchState> => {
  if (now < seq) return {}
  if (now > seq || served === undefined) served = build
  seq = now
  return { canUndo, canRedo }
}
const refresh = async (): Promise<Partial<BenchState>> => serve(await ask<BuildAnswer>('/api/build'))

const inTurn = (task: () => Promise<void>): Promise<void> => {
  queue = queue.then(task)
  return queue
}

/** Every page hears of every change by its number; a page that has made the change itself knows it already. */
const listen = (): void => {
  const events = new EventSource('/api/events')
  events.addEventListener('changed', ({ data }: MessageEvent<string>) => {
    void inTurn(async () => {
      if (Number(data) <= seq) return
      try {
        settle(await refresh())
      } catch (error) {
        put({ problems: problemsIn(error) })
      }
    })
  })
}

const ordered = (path: string, done: string): Promise<void> =>
  inTurn(async () => {
    try {
      const answer = await send<BuildAnswer & { readonly label: string | null }>(path)
      settle({
        ...serve(answer),
        problems: [],
        done: answer.label === null ? 'Nothing left.' : `${done}: ${answer.label}`,
      })
    } catch (error) {
      settle({ problems: problemsIn(error), done: '' })
    }
  })

export const bench = {
  subscribe: (listener: () => void): (() => void) => {
    listeners.add(listener)
    return () => listeners.delete(listener)
  },
  read: (): BenchState => state,

  start: (): Promise<void> =>
    inTurn(async () => {
      try {
        settle({ ...(await refresh()), problems: [] })
        listen()
      } catch (error) {
        put({ problems: problemsIn(error) })
      }
    }),

  /** False when the edit does not fit the build; the problems are then in the state and nothing has changed. */
  edit: (wanted: Edit): boolean => {
    if (state.build === undefined) return false
    let edit: Edit
    try {
      edit = withClosings(wanted, applyChanges(state.build, wanted.changes))
    } catch (error) {
      put({ problems: problemsIn(error), done: '' })
      return false
    }
    pending = [...pending, edit]
    settle({ problems: [], done: edit.label })
    void inTurn(async () => {
      try {
        const answer = await send<BuildAnswer>('/api/edits', edit)
        pending = pending.filter((waiting) => waiting !== edit)
        settle(serve(answer))
      } catch (error) {
        pending = pending.filter((waiting) => waiting !== edit)
        settle({ problems: problemsIn(error), done: '' })
      }
    })
    return true
  },
  undo: (): Promise<void> => ordered('/api/undo', 'Undone'),
  redo: (): Promise<void> => ordered('/api/redo', 'Done again'),

  /** After something that changed the build by another route, such as a log. */
  took: (answer: BuildAnswer, done: string): void => settle({ ...serve(answer), problems: [], done }),
  /** When everything on its way has been answered. */
  sent: (): Promise<void> => queue,
}
