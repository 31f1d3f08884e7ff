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

const reading = (id: string, more: object = {}) => ({ id, subject: 'x', quantity: 'voltage', value: 12.4, ...more })
const search = (more: object = {}) => ({
  id: 'F-1',
  complaint: { device: 'lamp', kind: 'weak' },
  case: 'on',
  evidence: [],
  status: 'open',
  ...more,
})
const seen = (value: number, id?: string) => ({
  kind: 'reading',
  quantity: 'volts',
  at: 'lamp.+',
  value,
  ...(id === undefined ? {} : { reading: id }),
})
const withAll = (...changes: Edit['changes']): Build => applyChanges(emptyBuild('Van'), changes)

test('two readings that got one number apart are both kept, and what speaks of the later one goes along', () => {
  const stored = withAll(
    { collection: 'readings', id: 'M-1', value: reading('M-1', { value: 9 }) },
    { collection: 'readings', id: 'M-2', value: reading('M-2', { value: 8 }) },
    { collection: 'faultSearches', id: 'F-1', value: search() },
  )
  const mine: Edit = {
    label: 'Reading',
    changes: [
      { collection: 'readings', id: 'M-1', value: reading('M-1') },
      { collection: 'faultSearches', id: 'F-1', value: search({ evidence: [seen(12.4, 'M-1')] }) },
    ],
  }
  const merged = mergeEdit(stored, mine, [null, search()])
  expect(merged).toEqual({
    renumbered: [{ collection: 'readings', from: 'M-1', to: 'M-3' }],
    edit: {
      label: 'Reading',
      changes: [
        { collection: 'readings', id: 'M-3', value: reading('M-3') },
        { collection: 'faultSearches', id: 'F-1', value: search({ evidence: [seen(12.4, 'M-3')] }) },
      ],
    },
  })
  // Sent again because the answer was lost: it is known by its new number, and comes once.
  const after = applyChanges(stored, 'edit' in merged ? merged.edit.changes : [])
  expect(applyChanges(after, [{ collection: 'readings', id: 'M-9', value: null }])).toEqual(after)
  const again = mergeEdit(after, mine, [null, search()])
  expect('edit' in again && applyChanges(after, again.edit.changes)).toEqual(after)
})

test('a search found on the laptop keeps what the phone measured meanwhile; evidence mended on both is a conflict', () => {
  const before = search({ evidence: [seen(9)] })
  const stored = withAll({
    collection: 'faultSearches',
    id: 'F-1',
    value: search({ evidence: [seen(9), seen(10)], history: [{ says: 'laptop' }] }),
  })
  const change = (evidence: unknown[], more: object = {}): Edit => ({
    label: 'Reading',
    changes: [{ collection: 'faultSearches', id: 'F-1', value: search({ evidence, ...more }) }],
  })
  expect(mergeEdit(stored, change([seen(9), seen(11)], { history: [{ says: 'phone' }] }), [before])).toEqual({
    edit: change([seen(9), seen(10), seen(11)], { history: [{ says: 'laptop' }, { says: 'phone' }] }),
  })
  expect(mergeEdit(stored, change([seen(8)]), [before])).toMatchObject({ conflicts: [{ fields: ['evidence'] }] })
})
