/** Edits of the register: a line taken in, seen to, mended, struck out. */
import type { Build, Edit } from '../../model/build.ts'
import { idFrom } from '../../model/newId.ts'
import { refuse } from '../../units/problem.ts'
import { KINDS_OF } from './kinds.ts'
import type { Fixing, SeenTo } from './standing.ts'

/** What a person enters of a line; a name that is taken gets a number behind its id, not behind its name. */
export type FixingFields = Omit<Fixing, 'id' | 'entries'>

const checked = (fields: FixingFields): FixingFields => {
  if (fields.name.trim() === '')
    throw refuse('no-name', 'The joint or clearance has no name.', 'Write what it is: hub nut, front left.')
  const { least, most } = fields.asked ?? {}
  if (least !== undefined && most !== undefined && least > most)
    throw refuse('inconsistent-inputs', 'The least that is asked is more than the most.', 'Change the two round.')
  return fields
}
const put = (label: string, fixing: Fixing): Edit => ({
  label,
  changes: [{ collection: 'fixings', id: fixing.id, value: fixing }],
})

export const addFixing = (build: Build, fields: FixingFields): Edit => {
  const id = idFrom(checked(fields).name, build.collections.fixings, 'fixing')
  return put(`Register: ${fields.name}`, { id, ...fields, entries: [] })
}
/** The line anew; what was seen of it stays. */
export const mendFixing = ({ id, entries }: Fixing, fields: FixingFields): Edit =>
  put(`Register: ${checked(fields).name} mended`, { id, ...fields, entries })

export const seeTo = (fixing: Fixing, entry: SeenTo): Edit => {
  if (entry.value === undefined && (entry.says ?? '').trim() === '')
    throw refuse(
      'no-reading',
      'Neither a figure nor a word was entered.',
      `Type the ${KINDS_OF[fixing.of].title.toLowerCase()}, in ${KINDS_OF[fixing.of].unit}.`,
    )
  return put(`Seen to: ${fixing.name}`, { ...fixing, entries: [...fixing.entries, entry] })
}
export const takeBackEntry = (fixing: Fixing, entry: SeenTo): Edit =>
  put(`${fixing.name}: one entry taken back`, {
    ...fixing,
    entries: fixing.entries.filter((each) => each !== entry),
  })
export const removeFixing = ({ id, name }: Fixing): Edit => ({
  label: `Register: ${name} struck out`,
  changes: [{ collection: 'fixings', id, value: null }],
})
