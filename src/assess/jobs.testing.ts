import type { Build, Edit, Job } from '../model/build.ts'

export const applyChanges = (build: Build, edit: Edit): Build => {
  const next = structuredClone(build)
  for (const change of edit.changes)
    if ('collection' in change && change.collection === 'jobs') next.collections.jobs[change.id] = change.value as Job
  return next
}
