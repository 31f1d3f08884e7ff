/** Edits of a fault search. A reading taken for it is kept as a reading of the build as well. */
import { newSearch, type StoredSearch, type Suspect, type Test } from '../../assess/faults/faults.ts'
import { complaintSays } from '../../assess/faults/words.ts'
import { pinName } from '../../assess/make.ts'
import type { MeterReading } from '../../assess/testSheets/meterText.ts'
import type { Build, Change, Edit, Entity } from '../../model/build.ts'
import { evidenceOf, newReading } from './newReading.ts'

type Evidence = StoredSearch['evidence'][number]
type Reading = Entity<'readings'>

const put = (search: StoredSearch): Change => ({ collection: 'faultSearches', id: search.id, value: search })

export const openSearchEdit = (
  build: Build,
  start: Pick<StoredSearch, 'complaint' | 'case'> & Partial<StoredSearch>,
): { readonly id: string; readonly edit: Edit } => {
  const search = newSearch(build, start, new Date().toISOString())
  const label = `Fault search: ${complaintSays(build, start.complaint)}`.slice(0, 160)
  return { id: search.id, edit: { label, changes: [put(search)] } }
}

/** The reading goes into the build's readings with its instrument, and into the evidence of the search. */
export const readingEdit = (build: Build, search: StoredSearch, test: Test, read: MeterReading): Edit => {
  const when = new Date().toISOString()
  const reading: Reading = { ...newReading(build, test, read, when), case: search.case, search: search.id }
  return {
    label: `Reading at ${pinName(build, test.at.split('/')[0]!)}`.slice(0, 160),
    changes: [
      { collection: 'readings', id: reading.id, value: reading },
      put({ ...search, evidence: [...search.evidence, evidenceOf(reading, test)] }),
    ],
  }
}

export const remarkEdit = (search: StoredSearch, remark: string, about: string | undefined, says: string): Edit => ({
  label: `Remark: ${says}`.slice(0, 160),
  changes: [
    put({
      ...search,
      evidence: [
        ...search.evidence,
        { kind: 'remark', remark, ...(about === undefined ? {} : { about }), when: new Date().toISOString() },
      ],
    }),
  ],
})

/** Another entry in the place of one, or none. The reading that it came from stays as it was read. */
export const mendEdit = (search: StoredSearch, at: number, instead: Evidence | undefined, label: string): Edit => ({
  label,
  changes: [
    put({
      ...search,
      evidence: search.evidence.flatMap((entry, i) => (i !== at ? [entry] : instead === undefined ? [] : [instead])),
    }),
  ],
})

export const settingsEdit = (
  search: StoredSearch,
  change: Pick<StoredSearch, 'sure'> | Pick<StoredSearch, 'priors'>,
): Edit => ({
  label: `Fault search ${search.id}: ${'sure' in change ? 'how sure' : 'what fails most'}`,
  changes: [put({ ...search, ...change })],
})

export const share = ({ probability }: Pick<Suspect, 'probability'>): string =>
  probability > 0.995 ? '> 99 %' : `${(100 * probability).toFixed(probability < 0.1 ? 1 : 0)} %`
