/** What the screens of jobs write. Each returns the problems that kept it from being written; nothing is then changed. */
import type { Build, Change, CollectionName, Entity, Job } from '../../model/build.ts'
import type { Measure } from '../../model/measure.ts'
import { applyChanges } from '../../model/read.ts'
import { readWorkTime } from '../../plan/workTime.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { bench } from '../workbench/bench.ts'

export const write = (build: Build, label: string, make: () => readonly Change[]): readonly Problem[] => {
  try {
    const changes = make()
    applyChanges(build, changes)
    bench.edit({ label: label.slice(0, 160), changes })
    return []
  } catch (error) {
    if (error instanceof Refusal) return error.problems
    throw error
  }
}

/** A field that is nothing, an empty list or an empty group goes; what is stored stays as small as what is known. */
export const withField = <T extends object, F extends keyof T>(record: T, field: F, value: T[F] | undefined): T => {
  const next = { ...record }
  const empty =
    value === undefined ||
    value === '' ||
    (typeof value === 'object' && value !== null && Object.keys(value as object).length === 0)
  if (empty) delete next[field]
  else next[field] = value as T[F]
  return next
}

export const put = <C extends CollectionName>(
  build: Build,
  collection: C,
  record: Entity<C>,
  label: string,
): readonly Problem[] => write(build, label, () => [{ collection, id: (record as { id: string }).id, value: record }])

/** Empty text: not known. */
export const workTime = (text: string): Measure<'time'> | undefined => {
  if (text.trim() === '') return undefined
  const { value, unit } = readWorkTime(text)
  return { value, unit }
}

/** Reads with `read` and writes what it gives; a text that cannot be read is refused in words. */
export const keepText = <I, T>(
  text: I,
  read: (text: I) => T,
  keep: (value: T) => readonly Problem[],
): readonly Problem[] => {
  let value: T
  try {
    value = read(text)
  } catch (error) {
    if (error instanceof Refusal) return error.problems
    throw error
  }
  return keep(value)
}

/** Least, likely and most, as typed. */
export const threeTimes = (texts: readonly string[]): Job['time'] => {
  const [least, likely, most] = texts.map(workTime)
  if (!least && !likely && !most) return undefined
  if (!least || !likely || !most)
    throw refuse(
      'two-of-three',
      'A time has three figures: least, likely and most.',
      'Enter all three, or empty all three.',
    )
  if (!(least.value <= likely.value && likely.value <= most.value))
    throw refuse(
      'times-crossed',
      'The three times are not in order.',
      'The least is the shortest, the most the longest, and the likely lies between them.',
    )
  return { least, likely, most }
}

export const isOpenJob = (job: Job): boolean => job.status === 'to do' || job.status === 'doing'
