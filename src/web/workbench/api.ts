/** The only place that speaks HTTP. Whatever goes wrong comes back as problems, in sentences. */
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

export const ask = async <T>(path: string, init?: RequestInit): Promise<T> => {
  let response: Response
  try {
    response = await fetch(path, init)
  } catch {
    throw new Refusal([
      {
        code: 'no-server',
        says: 'The server does not answer.',
        todo: 'Start it again with “npm start”; what you typed is still in the page.',
      },
    ])
  }
  const body: unknown = await response.json().catch(() => null)
  if (!response.ok) throw new Refusal(problemsOf(response.status, body))
  return body as T
}

export const send = <T>(path: string, body: unknown = {}): Promise<T> =>
  ask<T>(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })
