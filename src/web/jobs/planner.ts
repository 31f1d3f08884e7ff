/** The door to the planner's worker: one worker, fetched when the first question is asked. */
import solver from 'highs/runtime?url'
import type { Progress } from '../../plan/sequence.ts'
import { Refusal, refuse } from '../../units/problem.ts'
import type { Answers, Ask, FromWorker, ToWorker } from './ask.ts'

export { solver }

interface Waiting {
  readonly take: (answer: never) => void
  readonly fail: (error: unknown) => void
  readonly progress: ((progress: Progress) => void) | undefined
}
let worker: Worker | undefined
let last = 0
const waiting = new Map<number, Waiting>()

const lost = (why: string): Refusal =>
  refuse('planner-lost', `The planner did not answer: ${why}.`, 'Try again; if that does not help, reload the page.')

const start = (): Worker => {
  const made = new Worker(new URL('./planner.worker.ts', import.meta.url), { type: 'module' })
  made.onmessage = ({ data }: MessageEvent<FromWorker>) => {
    const asked = waiting.get(data.id)
    if ('progress' in data) {
      asked?.progress?.(data.progress)
      return
    }
    waiting.delete(data.id)
    if ('answer' in data) asked?.take(data.answer as never)
    else asked?.fail('problems' in data ? new Refusal(data.problems) : lost(data.broke))
  }
  made.onerror = (event) => {
    // Not fetched, or out of memory: whoever waits hears it, and the next question starts another.
    for (const { fail } of waiting.values()) fail(lost(event.message || 'it could not be started'))
    waiting.clear()
    made.terminate()
    worker = undefined
  }
  return made
}

export const askPlanner = <K extends Ask['kind']>(
  ask: Extract<Ask, { kind: K }>,
  progress?: (progress: Progress) => void,
): { readonly answer: Promise<Answers[K]>; readonly stop: () => void } => {
  worker ??= start()
  const id = ++last
  const post = (message: ToWorker): void => worker?.postMessage(message)
  const answer = new Promise<Answers[K]>((take, fail) => {
    waiting.set(id, { take: take as Waiting['take'], fail, progress })
  })
  post({ id, ask: ask as Ask })
  return { answer, stop: () => post({ id, stop: true }) }
}
