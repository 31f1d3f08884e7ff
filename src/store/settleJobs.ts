/** A job made from a finding closes by itself when the finding goes. It is never reopened: a person may have meant it. */
import type { Finding } from '../assess/finding.ts'
import type { Build, Change } from '../model/build.ts'

export type Assess = (build: Build) => readonly Finding[]

/** Assesses only when some open job waits for its finding, because that is the one case that needs it. */
export const settledJobs = (build: Build, assess: Assess): Change[] => {
  const waiting = Object.values(build.collections.jobs).filter(
    ({ finding, status }) => finding !== undefined && (status === 'to do' || status === 'doing'),
  )
  if (waiting.length === 0) return []
  const standing = new Set(
    assess(build)
      .filter(({ verdict }) => verdict !== 'sound')
      .map(({ key }) => key),
  )
  return waiting
    .filter(({ finding }) => !standing.has(finding as string))
    .map((job) => ({ collection: 'jobs', id: job.id, value: { ...job, status: 'closed' } }) as const)
}
