import { expect, test } from 'vitest'
import { type Build, type Edit, emptyBuild } from '../model/build.ts'
import { applyChanges } from '../model/read.ts'
import { alreadyDone, mergeEdit } from './merge.ts'

const job = (more: object = {}) => ({ id: 'j1', title: 'Fit the fan', status: 'to do', ...more })
const withJob = (value: unknown): Build => applyChanges(emptyBuild('Van'), [{ collection: 'jobs', id: 'j1', value }])
const edit = (value: unknown): Edit => ({ label: 'Tick', changes: [{ collection: 'jobs', id: 'j1', value }] })

test('what nobody else has touched is taken as it comes', () => {
  expect(mergeEdit(withJob(job()), edit(job({ status: 'done' })), [job()])).toEqual({
    edit: edit(job({ status: 'done' })),
  })
})

test('a tick on the phone and a new title on the laptop both stay', () => {
  const stored = withJob(job({ title: 'Fit the big fan' }))
  expect(mergeEdit(stored, edit(job({ status: 'done' })), [job()])).toEqual({
    edit: edit(job({ title: 'Fit the big fan', status: 'done' })),
  })
})

test('a field that both changed is a conflict that shows both', () => {
  const stored = withJob(job({ status: 'doing', remark: 'half way' }))
  expect(mergeEdit(stored, edit(job({ status: 'done' })), [job()])).toEqual({
    conflicts: [
      {
        subject: 'jobs/j1',
        fields: ['status'],
        mine: job({ status: 'done' }),
        stored: job({ status: 'doing', remark: 'half way' }),
      },
    ],
  })
})

test('a record taken away meanwhile is a conflict, not brought back in silence', () => {
  const result = mergeEdit(emptyBuild('Van'), edit(job({ status: 'done' })), [job()])
  expect(result).toMatchObject({ conflicts: [{ subject: 'jobs/j1', fields: [], stored: null }] })
})

test('both took it away: no conflict; a field taken away on the phone stays away', () => {
  expect(mergeEdit(emptyBuild('Van'), edit(null), [job()])).toEqual({ edit: edit(null) })
  const stored = withJob(job({ title: 'Fit the big fan', remark: 'wet' }))
  expect(mergeEdit(stored, edit(job()), [job({ remark: 'wet' })])).toEqual({
    edit: edit(job({ title: 'Fit the big fan' })),
  })
})

test('an edit sent twice is known the second time', () => {
  expect(alreadyDone(withJob(job({ status: 'done' })), edit(job({ status: 'done' })))).toBe(true)
  expect(alreadyDone(withJob(job()), edit(job({ status: 'done' })))).toBe(false)
})
