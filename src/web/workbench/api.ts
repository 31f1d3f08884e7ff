/** The only place that speaks HTTP. Whatever goes wrong comes back as problems, in sentences. */
import type { Conflict } from '../../model/conflict.ts'
import { type Problem, Refusal } from '../../units/problem.ts'

const isProblem = (item: unknown): item is Problem =>
  typeof item === 'object' && item !== null && typeof (item as Problem).says === 'string'

const problemsOf = (status: number, body: unknown): readonly Problem[] => {
  const listed = (body as { problems?: unknown } | null)?.problems
  if (Array.isArray(listed)) {
    const found = listed.filter(isProblem)
    if (found.length > 0) return found
  }
  return [
    {
      code: 'server-refused',
      says: `The server answered ${status} and gave no reason.`,
      todo: 'Look at the window in which it was started, then try again.',
    },
  ]
}

/** What both the page and somebody else changed, each in its own way; with the build as it now stands. */
export interface ConflictAnswer {
  readonly conflicts: readonly Conflict[]
}
export class Conflicted extends Refusal {
  readonly answer: ConflictAnswer
  constructor(problems: readonly Problem[], answer: ConflictAnswer) {
    super(problems)
    this.answer = answer
  }
}
/** The server is out of reach, will not listen just now, or does not know this phone (any more). */
class OutOfReach extends Refusal {}
/** What waits must be kept, not dropped. */
export const isAway = (error: unknown): boolean =>
  error instanceof OutOfReach || (error instanceof Refusal && error.problems.some(({ code }) => code === 'not-paired'))

const NO_SERVER: readonly Problem[] = [
  {
    code: 'no-server',
    says: 'The server does not answer.',
    todo: 'What you do here is kept and sent when it answers again; if it was stopped, start it with “npm start”.',
  },
]
/** Not now: a stranger's address, too many tries, something between here and the server. A fault of its own is an answer. */
const NOT_NOW: readonly number[] = [403, 408, 429, 502, 503, 504]

export const ask = async <T>(path: string, init?: RequestInit): Promise<T> => {
  let response: Response
  try {
    response = await fetch(path, init)
  } catch {
    throw new OutOfReach(NO_SERVER)
  }
  const body: unknown = await response.json().catch(() => null)
  if (response.status === 409) throw new Conflicted(problemsOf(409, body), body as ConflictAnswer)
  if (NOT_NOW.includes(response.status)) throw new OutOfReach(problemsOf(response.status, body))
  if (!response.ok) throw new Refusal(problemsOf(response.status, body))
  // Cut off half way: whether it was taken is not known, and sending it again does no harm.
  if (body === null) throw new OutOfReach(NO_SERVER)
  return body as T
}

export const send = <T>(path: string, body: unknown = {}): Promise<T> =>
  ask<T>(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })
