/** The geometry of the strip: the order cut into lines that fit, each access a trench as deep as the car is apart. */
import type { Bracket, PlanStep } from '../../plan/steps.ts'

export type JobStep = Extract<PlanStep, { kind: 'job' }>
export const jobSteps = (steps: readonly PlanStep[]): readonly JobStep[] =>
  steps.filter((step): step is JobStep => step.kind === 'job')

/** A bracket's share of one line, in places of that line. */
export interface Trench {
  readonly bracket: Bracket
  readonly first: number
  readonly last: number
  /** It was open before this line, or stays open after it. */
  readonly before: boolean
  readonly after: boolean
  /** Places that its name may take: to the next trench of its depth, or the end of the line. */
  readonly room: number
}
export interface Line {
  readonly start: number
  readonly jobs: readonly JobStep[]
  readonly trenches: readonly Trench[]
  readonly depth: number
  /** By place of the line: how many trenches deep the job lies. */
  readonly depths: readonly number[]
  /** By place of the line: names of the parts that are waited for before the job. */
  readonly waits: readonly (readonly string[])[]
}

/** Deepest trench at a place of the order, counted from 1; 0 with the car whole. */
export const depthAt = (brackets: readonly Bracket[], place: number): number =>
  Math.max(0, ...brackets.filter(({ from, to }) => from <= place && place <= to).map(({ depth }) => depth + 1))

export const linesOf = (steps: readonly PlanStep[], brackets: readonly Bracket[], most: number): readonly Line[] => {
  const jobs = jobSteps(steps)
  const waits = new Map<string, readonly string[]>()
  steps.forEach((step, at) => {
    // What is opened for the job may stand between the wait and it.
    const next = step.kind === 'wait' ? steps.slice(at).find(({ kind }) => kind === 'job') : undefined
    if (step.kind === 'wait' && next?.kind === 'job')
      waits.set(
        next.id,
        step.parts.map(({ name }) => name),
      )
  })
  const count = Math.max(1, Math.ceil(jobs.length / Math.max(1, most)))
  // Lines of even length: one that holds three jobs beneath three full ones reads as an afterthought.
  const width = Math.ceil(jobs.length / count)
  return Array.from({ length: count }, (_, line) => {
    const start = line * width
    const end = Math.min(jobs.length, start + width) - 1
    const here = brackets.filter(({ from, to }) => to >= start && from <= end && to >= 0)
    const trenches = here.map((bracket): Trench => {
      const next = Math.min(
        end + 1,
        ...here.filter((other) => other.depth === bracket.depth && other.from > bracket.from).map(({ from }) => from),
      )
      const first = Math.max(bracket.from, start) - start
      return {
        bracket,
        first,
        last: Math.min(bracket.to, end) - start,
        before: bracket.from < start,
        after: bracket.to > end,
        room: next - start - first,
      }
    })
    return {
      start,
      jobs: jobs.slice(start, end + 1),
      trenches,
      depth: Math.max(0, ...here.map(({ depth }) => depth + 1)),
      depths: jobs.slice(start, end + 1).map((_, at) => depthAt(brackets, start + at)),
      waits: jobs.slice(start, end + 1).map(({ id }) => waits.get(id) ?? []),
    }
  })
}

/** What is only closed: open before the first job, and no job of the plan wants it open. */
export const onlyClosed = (brackets: readonly Bracket[]): readonly Bracket[] => brackets.filter(({ to }) => to < 0)
