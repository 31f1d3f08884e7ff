import { expect, it } from 'vitest'
import { job } from '../model/build.ts'
import { assess } from './assess.ts'
import { applyChanges } from './jobs.testing.ts'
import { closeAnswered, jobFromFinding } from './jobs.ts'
import { small } from './small.testing.ts'

it('a finding becomes a job that the model takes, and the job closes when the finding goes', () => {
  const build = small((b) => delete b.collections.wires['W-4'])
  const finding = assess(build).findings.find(({ rule }) => rule === 'no-return')!
  const made = jobFromFinding(finding)
  expect(job.parse(made)).toEqual(made)
  build.collections.jobs[made.id] = made
  expect(closeAnswered(build, assess(build).findings)).toBeNull()
  const mended = small((b) => {
    b.collections.jobs[made.id] = made
  })
  const edit = closeAnswered(mended, assess(mended).findings)!
  expect(applyChanges(mended, edit).collections.jobs[made.id]!.status).toBe('closed')
  expect(closeAnswered(applyChanges(mended, edit), assess(mended).findings)).toBeNull()
})
