/** Findings become jobs, and jobs whose finding is gone close by themselves. */
import type { Build, Change, Edit, Job } from '../model/build.ts'
import type { Finding } from './finding.ts'

const short = (text: string, length: number): string => (text.length <= length ? text : `${text.slice(0, length - 1)}…`)

/** 32 bits of FNV-1a keep two long keys apart. Source: RFC draft eastlake-fnv [from memory]. */
export const shortHash = (key: string): string => {
  let hash = 0x811c9dc5
  for (const char of key) hash = Math.imul(hash ^ char.codePointAt(0)!, 0x01000193) >>> 0
  return hash.toString(36)
}
/** Same finding, same id. */
const idOf = (key: string): string => `J-${key.slice(0, key.indexOf(':')).slice(0, 30)}-${shortHash(key)}`

export const jobFromFinding = (finding: Finding): Job => ({
  id: idOf(finding.key),
  title: short(finding.todo.replace(/\.$/, ''), 160),
  ...(finding.zone === undefined ? {} : { zone: finding.zone }),
  status: 'to do',
  finding: finding.key,
  steps: [finding.todo],
  ...(finding.cautions.length === 0 ? {} : { cautions: finding.cautions.map((caution) => short(caution, 160)) }),
  remark: short(finding.says, 2000),
})

/** Closes open jobs whose finding is gone or sound; null when there is none. `unknown` closes nothing. */
export const closeAnswered = (build: Build, findings: readonly Finding[]): Edit | null => {
  const standing = new Set(findings.filter(({ verdict }) => verdict !== 'sound').map(({ key }) => key))
  const answered = Object.values(build.collections.jobs).filter(
    (job) =>
      job.finding !== undefined && (job.status === 'to do' || job.status === 'doing') && !standing.has(job.finding),
  )
  if (answered.length === 0) return null
  const changes: Change[] = answered.map((job) => ({
    collection: 'jobs',
    id: job.id,
    value: { ...job, status: 'closed' },
  }))
  return {
    label:
      answered.length === 1
        ? `Close ${answered[0]!.title}: its finding is gone`
        : `Close ${answered.length} jobs whose findings are gone`,
    changes,
  }
}
