/** Rows of the sheets: hot oil pressures, the maker's least, parts of the exhaust, what runs near it. */
import { useId, useState } from 'react'
import type { Build, Sheet } from '../../model/build.ts'
import { idFrom } from '../../model/newId.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { measureText, readMeasure } from '../parts/quantityText.ts'
import { bench } from '../workbench/bench.ts'

interface RowsProps {
  readonly title: string
  /** As they read, in their order; each with what takes it away. */
  readonly rows: readonly { readonly says: string; readonly drop: () => void }[]
  readonly fields: readonly { readonly label: string; readonly like: string }[]
  /** True where it was kept; throws Refusal for what cannot be read. */
  readonly add: (...texts: readonly string[]) => boolean
}

function Rows({ title, rows, fields, add }: RowsProps) {
  const [texts, setTexts] = useState<readonly string[]>(fields.map(() => ''))
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const id = useId()
  const keep = (): void => {
    try {
      setProblems([])
      if (add(...texts)) setTexts(fields.map(() => ''))
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <section className="rows" aria-label={title}>
      <h3>{title}</h3>
      <ul className="plain">
        {rows.map(({ says, drop }, index) => (
          // Two rows may read alike: their place tells them apart.
          // biome-ignore lint/suspicious/noArrayIndexKey: rows have no other name
          <li key={index} className="row">
            <span>{says}</span>
            <button type="button" aria-label={`Take away: ${says}`} onClick={drop}>
              Take away
            </button>
          </li>
        ))}
      </ul>
      <form
        className="row"
        onSubmit={(event) => {
          event.preventDefault()
          keep()
        }}
      >
        {fields.map(({ label, like }, index) => (
          <span key={label}>
            <label htmlFor={`${id}-${index}`}>{label}</label>
            <input
              id={`${id}-${index}`}
              value={texts[index]}
              placeholder={like}
              autoComplete="off"
              onChange={({ target: { value } }) =>
                setTexts(texts.map((text, place) => (place === index ? value : text)))
              }
            />
          </span>
        ))}
        <button type="submit" disabled={texts.some((text) => text.trim() === '')}>
          Add
        </button>
      </form>
      <Problems list={problems} />
    </section>
  )
}

type Oil = Sheet<'oil'>
const pressureRows = (oil: Oil, field: 'pressures' | 'leastPressures', title: string): RowsProps => {
  const list = oil[field] ?? []
  const store = (label: string, next: NonNullable<Oil['pressures']>): boolean => {
    const { [field]: _before, ...rest } = oil
    return bench.edit({
      label,
      changes: [{ sheet: 'oil', value: next.length === 0 ? rest : { ...rest, [field]: next } }],
    })
  }
  return {
    title,
    rows: list.map(([speed, pressure], place) => ({
      says: `${measureText('angularSpeed', speed)}: ${measureText('pressureGauge', pressure)}`,
      drop: () =>
        store(
          `${title}: one taken away`,
          list.filter((_row, index) => index !== place),
        ),
    })),
    fields: [
      { label: 'Engine speed', like: '2000 rpm' },
      { label: 'Pressure', like: '2.9 bar ± 0.2' },
    ],
    add: (speedText = '', pressureText = '') => {
      const speed = readMeasure('angularSpeed', speedText)
      const pressure = readMeasure('pressureGauge', pressureText)
      if (!speed || !pressure) return false
      return store(
        `${title}: one added`,
        [...list, [speed, pressure] as (typeof list)[number]].sort(([a], [b]) => a.value - b.value),
      )
    },
  }
}

export function AddRows({ build: { sheets } }: { build: Build }) {
  const { oil = {}, exhaust = {} } = sheets
  const put = (label: string, value: Sheet<'exhaust'>): boolean =>
    bench.edit({ label, changes: [{ sheet: 'exhaust', value }] })
  const parts = exhaust.parts ?? []
  const near = exhaust.near ?? []
  return (
    <div className="rows-all">
      <Rows {...pressureRows(oil, 'pressures', 'Hot oil pressure as read')} />
      <Rows {...pressureRows(oil, 'leastPressures', 'Least hot oil pressure by the engine’s maker')} />
      <Rows
        title="Parts of the exhaust, in the order of the gas"
        rows={parts.map(({ id, name }) => ({
          says: name,
          drop: () => put(`Exhaust: ${name} taken away`, { ...exhaust, parts: parts.filter((part) => part.id !== id) }),
        }))}
        fields={[{ label: 'Another part', like: 'Catalyst' }]}
        add={(text = '') => {
          const name = text.trim()
          const id = idFrom(name, Object.fromEntries(parts.map((part) => [part.id, part])), 'part')
          return put(`Exhaust: ${name} added`, { ...exhaust, parts: [...parts, { id, name }] })
        }}
      />
      <Rows
        title="What runs near the exhaust"
        rows={near.map(({ name, distance }, place) => ({
          says: `${name}, ${measureText('length', distance)}`,
          drop: () =>
            put(`Near the exhaust: ${name} taken away`, {
              ...exhaust,
              near: near.filter((_item, index) => index !== place),
            }),
        }))}
        fields={[
          { label: 'Another thing', like: 'Fuel hose at the bulkhead' },
          { label: 'Gap to the hot metal', like: '180 mm' },
        ]}
        add={(text = '', gap = '') => {
          const name = text.trim()
          const distance = readMeasure('length', gap)
          if (!distance) return false
          return put(`Near the exhaust: ${name} added`, { ...exhaust, near: [...near, { name, distance }] })
        }}
      />
    </div>
  )
}
