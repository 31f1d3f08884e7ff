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
/** The server is out of reach, or does not know this phone (any more): what waits must be kept, not dropped. */
export const isAway = (error: unknown): boolean =>
  error instanceof Refusal && error.problems.some(({ code }) => code === 'no-server' || code === 'not-paired')

export const ask = async <T>(path: string, init?: RequestInit): Promise<T> => {
  let response: Response
  try {
    response = await fetch(path, init)
  } catch {
    throw new Refusal([
      {
        code: 'no-server',
        says: 'The server does not answer.',
        todo: 'What you do here is kept and sent when it answers again; if it was stopped, start it with “npm start”.',
      },
    ])
  }
  const body: unknown = await response.json().catch(() => null)
  if (response.status === 409) throw new Conflicted(problemsOf(409, body), body as ConflictAnswer)
  if (!response.ok) throw new Refusal(problemsOf(response.status, body))
  return body as T
}

export const send = <T>(path: string, body: unknown = {}): Promise<T> =>
  ask<T>(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })
