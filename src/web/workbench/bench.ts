/**
 * The open build in this browser. An edit shows at once and is judged here; it is sent in turn, and the server's
 * answer wins: when it refuses, the edit is taken back and its problems are shown.
 */
import { type Assessment, assess } from '../../assess/assess.ts'
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
}
interface BuildAnswer {
  readonly build: Build
  readonly seq: number
}

const problemsIn = (error: unknown): readonly Problem[] => {
  if (error instanceof Refusal) return error.problems
  throw error
}

let served: Build | undefined
let seq = -1
let pending: Edit[] = []
let queue: Promise<void> = Promise.resolve()
let state: BenchState = { build: undefined, assessment: undefined, problems: [], unsent: 0, done: '' }
const listeners = new Set<() => void>()

const judge = (build: Build): { assessment: Assessment | undefined; problems: readonly Problem[] } => {
  try {
    return { assessment: assess(build), problems: [] }
  } catch (error) {
    return { assessment: undefined, problems: problemsIn(error) }
  }
}

const put = (next: Partial<BenchState>): void => {
  state = { ...state, ...next }
  for (const listener of listeners) listener()
}

/** The served build with what is still on its way laid over it. */
const settle = (said: Partial<BenchState> = {}): void => {
  if (served === undefined) return put(said)
  let build = served
  for (const edit of pending) {
    try {
      build = applyChanges(build, edit.changes)
    } catch (error) {
      // Another door changed the same thing meanwhile; the server will say so when this edit reaches it.
      problemsIn(error)
    }
  }
  if (build === state.build) return put({ unsent: pending.length, ...said })
  const judged = judge(build)
  put({
    build,
    assessment: judged.assessment,
    unsent: pending.length,
    ...said,
    problems: [...(said.problems ?? []), ...judged.problems],
  })
}

const refresh = async (): Promise<void> => {
  const answer = await ask<BuildAnswer>('/api/build')
  if (answer.seq < seq) return
  if (answer.seq > seq || served === undefined) served = answer.build
  seq = answer.seq
}

const inTurn = (task: () => Promise<void>): Promise<void> => {
  queue = queue.then(task)
  return queue
}

const listen = (): void => {
  const events = new EventSource('/api/events')
  const hear = (): void => {
    void inTurn(async () => {
      try {
        await refresh()
        settle()
      } catch (error) {
        put({ problems: problemsIn(error) })
      }
    })
  }
  events.onmessage = hear
  for (const name of ['change', 'edit', 'seq', 'build', 'changed']) events.addEventListener(name, hear)
}

const ordered = (path: string, done: string): Promise<void> =>
  inTurn(async () => {
    try {
      await send(path)
      await refresh()
      settle({ problems: [], done })
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
        await refresh()
        settle({ problems: [] })
        listen()
      } catch (error) {
        put({ problems: problemsIn(error) })
      }
    }),

  /** False when the edit does not fit the build; the problems are then in the state and nothing has changed. */
  edit: (edit: Edit): boolean => {
    if (state.build === undefined) return false
    try {
      applyChanges(state.build, edit.changes)
    } catch (error) {
      put({ problems: problemsIn(error), done: '' })
      return false
    }
    pending = [...pending, edit]
    settle({ problems: [], done: edit.label })
    void inTurn(async () => {
      try {
        await send('/api/edits', edit)
        pending = pending.filter((waiting) => waiting !== edit)
        await refresh()
        settle()
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
  reload: (done: string): Promise<void> =>
    inTurn(async () => {
      try {
        await refresh()
        settle({ problems: [], done })
      } catch (error) {
        put({ problems: problemsIn(error) })
      }
    }),
  complain: (problems: readonly Problem[]): void => put({ problems, done: '' }),
}
