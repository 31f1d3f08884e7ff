/**
 * The open build in this browser. An edit shows at once and is judged here; it is sent in turn, and the server's
 * answer wins: when it refuses, the edit is taken back and its problems are shown. When the server is out of reach
 * (a garage without signal), edits wait in this browser's own store and go when it is back.
 */
import type { Assessment } from '../../assess/assess.ts'
import type { Build, Edit } from '../../model/build.ts'
import { applyChanges } from '../../model/read.ts'
import type { Renumbered } from '../../model/renumber.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { ask, Conflicted, isAway, send } from './api.ts'
import { type Clash, keptFor, onlyHere, renumberedWaiting, valueAt, type Waiting } from './waiting.ts'

export interface BenchState {
  /** Undefined until the server has answered once. */
  readonly build: Build | undefined
  /** Undefined until the build has been judged, and where it cannot be. */
  readonly assessment: Assessment | undefined
  /** What judges builds has come, or cannot be had. */
  readonly isJudged: boolean
  readonly problems: readonly Problem[]
  /** Edits that the server has not yet acknowledged, oldest first. */
  readonly unsent: readonly Edit[]
  /** The server is out of reach; edits wait. */
  readonly away: boolean
  /** This phone must be paired (again) before anything can be sent. */
  readonly unpaired: boolean
  /** Edits that met a change made elsewhere, for the person to settle. */
  readonly clashes: readonly Clash[]
  /** What was done last, for the status line. */
  readonly done: string
  readonly canUndo: boolean
  readonly canRedo: boolean
}
/** Said between the first paint of a build and its findings. */
export const JUDGING = 'Judging the build …'
/** What every route that reads or changes the build answers. */
export interface BuildAnswer {
  readonly build: Build
  readonly identity: string
  readonly seq: number
  readonly canUndo: boolean
  readonly canRedo: boolean
  /** What was made here under a number that another thing has meanwhile. */
  readonly renumbered?: readonly Renumbered[]
}

const problemsIn = (error: unknown): readonly Problem[] => {
  if (error instanceof Refusal) return error.problems
  throw error
}

let served: Build | undefined
let seq = -1
let pending: readonly Waiting[] = []
let clashes: readonly Clash[] = []
let kept: ReturnType<typeof keptFor> | undefined
let retry: ReturnType<typeof setTimeout> | undefined
const RETRY = 3000
let queue: Promise<void> = Promise.resolve()
let state: BenchState = {
  build: undefined,
  assessment: undefined,
  isJudged: false,
  problems: [],
  unsent: [],
  away: false,
  unpaired: false,
  clashes: [],
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

let judging: typeof import('./judging.ts') | undefined
/** The build is painted first; what judges it comes after. */
const fetchJudging = async (): Promise<void> => {
  try {
    judging ??= await import('./judging.ts')
  } catch {
    put({
      isJudged: true,
      problems: [
        {
          code: 'no-rules',
          says: 'What judges the build could not be fetched, so there are no findings.',
          todo: 'Load the page again when the server is in reach.',
        },
      ],
    })
    return
  }
  settle({ isJudged: true })
}

const judge = (build: Build): Judged => {
  if (judging === undefined) {
    void fetchJudging()
    return { assessment: undefined, problems: [] }
  }
  const { assess } = judging
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
  const closing = assessment && judging?.closeAnswered(next, assessment.findings)
  return closing ? { label: edit.label, changes: [...edit.changes, ...closing.changes] } : edit
}

const put = (next: Partial<BenchState>): void => {
  state = { ...state, ...next }
  for (const listener of listeners) listener()
}

const queued = (): Pick<BenchState, 'unsent' | 'clashes'> => ({ unsent: pending.map(({ edit }) => edit), clashes })

/** The served build with what is still on its way laid over it. */
const settle = (said: Partial<BenchState> = {}): void => {
  if (served === undefined) {
    put(said)
    return
  }
  let build = served
  for (const { shown } of pending) {
    try {
      build = applyChanges(build, shown.changes)
    } catch (error) {
      // Another door changed the same thing meanwhile; the server will say so when this edit reaches it.
      problemsIn(error)
    }
  }
  // The server's copy of what is already shown here need not be judged a second time.
  if (state.assessment && (build === state.build || JSON.stringify(build) === JSON.stringify(state.build))) {
    put({ ...queued(), ...said })
    return
  }
  const verdict = judge(build)
  put({
    build,
    assessment: verdict.assessment,
    ...queued(),
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
/** The served build; the first time also what was left waiting in this browser when the page was closed. */
const refresh = async (): Promise<Partial<BenchState>> => {
  const answer = await ask<BuildAnswer>('/api/build')
  if (kept === undefined) {
    kept = keptFor(answer.identity)
    const before = await kept.read()
    pending = [...before.waiting, ...pending]
    clashes = [...before.clashes, ...clashes]
  }
  return serve(answer)
}
const keep = (): void => kept?.write({ waiting: pending, clashes })

const inTurn = (task: () => Promise<void>): Promise<void> => {
  queue = queue.then(task)
  return queue
}

/** Sends what waits, oldest first, until nothing is left or the server is out of reach. */
const sendWaiting = (): Promise<void> =>
  inTurn(async () => {
    clearTimeout(retry)
    for (let first = pending[0]; first !== undefined; first = pending[0]) {
      const sent = first
      try {
        const answer = await send<BuildAnswer>('/api/edits', { ...sent.edit, from: sent.from })
        pending = pending
          .filter((waiting) => waiting !== sent)
          .map((waiting) => (answer.renumbered ?? []).reduce(renumberedWaiting, waiting))
        keep()
        settle({ ...serve(answer), away: false, unpaired: false })
      } catch (error) {
        if (isAway(error)) {
          wait(error)
          return
        }
        drop(sent)
        if (error instanceof Conflicted) {
          clashes = [...clashes, { edit: sent.edit, conflicts: error.answer.conflicts }]
          keep()
        } else if (sent.waited || problemsIn(error).some(({ code }) => code === 'fault')) {
          // Nobody may be looking at what was done an hour ago: it stays until the person lets it go.
          clashes = [...clashes, { edit: sent.edit, conflicts: [], problems: problemsIn(error) }]
          keep()
          settle({ done: '' })
          continue
        }
        settle({ problems: problemsIn(error), done: '' })
      }
    }
  })
const drop = (sent: Waiting): void => {
  pending = pending.filter((waiting) => waiting !== sent)
  keep()
}
const wait = (error: unknown): void => {
  const unpaired = problemsIn(error).some(({ code }) => code === 'not-paired')
  pending = pending.map((waiting) => ({ ...waiting, waited: true }))
  keep()
  settle({ away: !unpaired, unpaired })
  clearTimeout(retry)
  if (!unpaired) retry = setTimeout(() => void catchUp(), RETRY)
}

/** After a time without the server: what changed meanwhile, then what waits here. */
const catchUp = async (): Promise<void> => {
  await inTurn(async () => {
    try {
      settle({ ...(await refresh()), away: false, unpaired: false })
      listenOnce()
    } catch (error) {
      if (isAway(error)) wait(error)
      else put({ problems: problemsIn(error) })
    }
  })
  if (!state.away && !state.unpaired && pending.length > 0) await sendWaiting()
}

/** Every page hears of every change by its number; a page that has made the change itself knows it already. */
const listen = (): void => {
  const events = new EventSource('/api/events')
  events.addEventListener('changed', ({ data }: MessageEvent<string>) => {
    if (Number(data) > seq || state.away) void catchUp()
  })
  // The browser tries again by itself, unless it was told to go away; meanwhile the person should know.
  events.addEventListener('error', () => {
    if (events.readyState === EventSource.CLOSED) {
      listening = false
      void catchUp()
    } else put({ away: true })
  })
}
let listening = false
const listenOnce = (): void => {
  if (listening) return
  listening = true
  listen()
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

  start: (): Promise<void> => {
    addEventListener('online', () => void catchUp())
    // A phone that slept may have lost its line without noticing.
    document.addEventListener('visibilitychange', () => {
      if (!document.hidden && state.build !== undefined) void catchUp()
    })
    return bench.open()
  },
  /** Opens the build, at the start or after pairing. */
  open: (): Promise<void> =>
    inTurn(async () => {
      try {
        settle({ ...(await refresh()), problems: [], unpaired: false })
        listenOnce()
      } catch (error) {
        put({ problems: problemsIn(error), unpaired: problemsIn(error).some(({ code }) => code === 'not-paired') })
      }
    }).then(() => (pending.length > 0 ? sendWaiting() : undefined)),

  /** False when the edit does not fit the build; the problems are then in the state and nothing has changed. */
  edit: (wanted: Edit): boolean => {
    if (state.build === undefined) return false
    const before = state.build
    let shown: Edit
    try {
      shown = withClosings(wanted, applyChanges(before, wanted.changes))
    } catch (error) {
      put({ problems: problemsIn(error), done: '' })
      return false
    }
    // The server closes what the edit answers by itself; what is sent is what the person did.
    pending = [...pending, { edit: wanted, shown, from: wanted.changes.map((change) => valueAt(before, change)) }]
    keep()
    settle({ problems: [], done: wanted.label })
    void sendWaiting()
    return true
  },
  /** What waits unsent is taken back here, newest first; only what was sent is the server's to take back. */
  undo: async (): Promise<void> => {
    const newest = pending.at(-1)
    if (state.away && newest) {
      drop(newest)
      settle({ done: `Taken back before it was sent: ${newest.edit.label}` })
      return
    }
    await ordered('/api/undo', 'Undone')
  },
  redo: (): Promise<void> => ordered('/api/redo', 'Done again'),

  /** Settles a clash: the edit is made again on the build as it stands, or let go. */
  settleClash: (clash: Clash, choice: 'mine' | 'stored'): void => {
    clashes = clashes.filter((other) => other !== clash)
    keep()
    settle({ problems: [] })
    const again = choice === 'mine' ? clash.edit : onlyHere(clash)
    if (again) bench.edit(again)
  },
  /** Tries the server now instead of at the next turn. */
  tryNow: (): Promise<void> => catchUp(),

  /** What went wrong on a way of its own, such as a photograph. */
  complain: (problems: readonly Problem[]): void => put({ problems }),
  /** After something that changed the build by another route, such as a log. */
  took: (answer: BuildAnswer, done: string): void => settle({ ...serve(answer), problems: [], done }),
  /** When everything on its way has been answered. */
  sent: (): Promise<void> => queue,
}
