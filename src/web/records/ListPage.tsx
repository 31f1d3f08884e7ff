/** One list: by subject, or as a walk round the car; each row with what there is to show for it. */
import { useState } from 'react'
import { Link } from 'wouter'
import { byGroup, byPlace, INSPECT, listStanding } from '../../assess/lists/rows.ts'
import { addRow } from '../../assess/lists/start.ts'
import { listPage } from '../../book/records/listPage.ts'
import type { Build, Entity } from '../../model/build.ts'
import { today } from '../jobs/today.ts'
import { Empty } from '../parts/Empty.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { ListRow } from './ListRow.tsx'
import { openPage } from './openPage.ts'
import { Who } from './Who.tsx'
import './records.css'
import './lists.css'

export function ListPage({ id }: { id: string }) {
  const { build } = useBench()
  if (!build) return null
  const record = Object.hasOwn(build.collections.records, id) ? build.collections.records[id] : undefined
  return record ? <OpenList {...{ build, record }} /> : <Empty says="This list is not in the build any more." />
}

type Order = 'subject' | 'place'

function OpenList({ build, record }: { build: Build; record: Entity<'records'> }) {
  const [order, setOrder] = useState<Order>('subject')
  const standing = listStanding(build, record, today())
  const groups = order === 'subject' ? byGroup(standing) : byPlace(build, standing)
  const started = standing.rows.some(({ check }) => check.origin === 'common practice')
  return (
    <div className="list">
      <p className="no-print">
        <Link to="/records">Records</Link>
      </p>
      <h1>{record.title}</h1>
      {record.kind === 'inspection' && <InspectionFields record={record} />}
      <p role="status">
        {standing.shown} of {standing.rows.length} rows have something to show
        {standing.wrong > 0 ? `, ${standing.wrong} wrong` : ''}.
        {standing.lacks.length > 0 && ` Not entered: ${standing.lacks.join(', ')}.`}
      </p>
      {started && (
        <p className="soft small">
          Rows marked “common practice” are a start and no law: your authority decides. Strike out what is not asked,
          add what is. Of brakes, fuel, steering and structure: {INSPECT.charAt(0).toLowerCase() + INSPECT.slice(1)}
        </p>
      )}
      <div className="row no-print">
        <button type="button" aria-pressed={order === 'subject'} onClick={() => setOrder('subject')}>
          By subject
        </button>
        <button type="button" aria-pressed={order === 'place'} onClick={() => setOrder('place')}>
          Walk round the car
        </button>
        <button type="button" onClick={() => openPage(listPage(build, record, today()))}>
          Print
        </button>
      </div>
      <div className="no-print">
        <Who />
      </div>
      {groups.map(({ title, rows }) => (
        <section key={title} aria-label={title}>
          <h2>{title.charAt(0).toUpperCase() + title.slice(1)}</h2>
          {rows.map((row) => (
            <ListRow key={row.check.id} {...{ build, row }} />
          ))}
        </section>
      ))}
      <AddRow {...{ build, record }} />
    </div>
  )
}

const FIELDS = [
  ['country', 'Country'],
  ['category', 'Category, as the authority calls it'],
  ['day', 'Day'],
] as const

function InspectionFields({ record }: { record: Entity<'records'> }) {
  const keepField = (field: 'country' | 'category' | 'day', text: string): void => {
    const { [field]: _, ...rest } = record.inspection ?? {}
    const inspection = text.trim() === '' ? rest : { ...rest, [field]: text.trim() }
    bench.edit({
      label: `${record.title}: ${field}`,
      changes: [{ collection: 'records', id: record.id, value: { ...record, inspection } }],
    })
  }
  return (
    <div className="row inspection-fields">
      {FIELDS.map(([field, label]) => (
        <label key={field}>
          {label}
          <input
            type={field === 'day' ? 'date' : 'text'}
            defaultValue={record.inspection?.[field] ?? ''}
            onBlur={(event) => {
              if (event.target.value.trim() !== (record.inspection?.[field] ?? '')) keepField(field, event.target.value)
            }}
          />
        </label>
      ))}
    </div>
  )
}

function AddRow({ build, record }: { build: Build; record: Entity<'records'> }) {
  const [title, setTitle] = useState('')
  const [group, setGroup] = useState('')
  const [zone, setZone] = useState('')
  return (
    <form
      className="add-row no-print"
      onSubmit={(event) => {
        event.preventDefault()
        const row = {
          title: title.trim().slice(0, 160),
          ...(group.trim() ? { group: group.trim() } : {}),
          ...(zone ? { zone } : {}),
        }
        if (row.title !== '' && bench.edit(addRow(build, record.id, row))) setTitle('')
      }}
    >
      <h2>A row of your own</h2>
      <label>
        What is to be shown
        <input value={title} onChange={(event) => setTitle(event.target.value)} />
      </label>
      <div className="row">
        <label>
          Subject
          <input value={group} placeholder="emissions, noise …" onChange={(event) => setGroup(event.target.value)} />
        </label>
        <label>
          Place on the car
          <select value={zone} onChange={(event) => setZone(event.target.value)}>
            <option value="">none</option>
            {Object.values(build.collections.zones).map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <button type="submit">Add</button>
      </div>
    </form>
  )
}
