/** A finding made into a job in one step. The job closes by itself when the finding goes. */
import type { Finding } from '../../assess/finding.ts'
import type { Build, Edit, Job } from '../../model/build.ts'

export const openJobFor = (build: Build, key: string): Job | undefined =>
  Object.values(build.collections.jobs).find(
    (job) => job.finding === key && job.status !== 'done' && job.status !== 'closed',
  )

const freeId = (taken: Readonly<Record<string, unknown>>): string => {
  let number = Object.keys(taken).length + 1
  while (Object.hasOwn(taken, `J-${number}`)) number++
  return `J-${number}`
}

export const jobEdit = (build: Build, finding: Finding): Edit => {
  const id = freeId(build.collections.jobs)
  const zone =
    finding.zone !== undefined && Object.hasOwn(build.collections.zones, finding.zone) ? finding.zone : undefined
  return {
    label: `Job from finding: ${finding.about}`.slice(0, 160),
    changes: [
      {
        collection: 'jobs',
        id,
        value: {
          id,
          title: `${finding.about}: ${finding.todo}`.slice(0, 160),
          ...(zone === undefined ? {} : { zone }),
          status: 'to do',
          finding: finding.key,
          steps: [finding.todo],
          ...(finding.cautions.length === 0 ? {} : { cautions: finding.cautions.map((line) => line.slice(0, 160)) }),
        },
      },
    ],
  }
}
