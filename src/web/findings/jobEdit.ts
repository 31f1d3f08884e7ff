/** A finding made into a job in one step. The job closes by itself when the finding goes. */
import type { Finding } from '../../assess/finding.ts'
import { jobFromFinding } from '../../assess/jobs.ts'
import type { Build, Edit, Job } from '../../model/build.ts'

export const openJobFor = (build: Build, key: string): Job | undefined =>
  Object.values(build.collections.jobs).find(
    (job) => job.finding === key && job.status !== 'done' && job.status !== 'closed',
  )

export const jobEdit = (finding: Finding): Edit => {
  const job = jobFromFinding(finding)
  return {
    label: `Job from finding: ${finding.about}`.slice(0, 160),
    changes: [{ collection: 'jobs', id: job.id, value: job }],
  }
}
