/** Parts and money: what to buy and where, what is coming, what to give back, what grows old, what it costs. */
import { useState } from 'react'
import { Link } from 'wouter'
import type { Build, Entity } from '../../model/build.ts'
import { idFrom } from '../../model/newId.ts'
import { type PartLine, partsAndMoney } from '../../plan/parts.ts'
import { type Problem, refuse } from '../../units/problem.ts'
import { keepText, put, withField } from './edits.ts'
import { SelectField, TextField } from './Fields.tsx'
import { jobPlace } from './JobList.tsx'
import { dayText, today } from './today.ts'

type Part = Entity<'parts'>
const STATES = ['wanted', 'ordered', 'arrived', 'on the shelf', 'fitted', 'borrowed', 'removed', 'returned'] as const

const money = ({ price, currency }: { price?: number | undefined; currency?: string | undefined }): string =>
  price === undefined ? 'price unknown' : `${price.toFixed(2)} ${currency ?? '(currency unknown)'}`

export function PartsMoney({ build }: { build: Build }) {
  const sheet = partsAndMoney(build, today())
  const { parts, jobs } = build.collections
  const [turn, setTurn] = useState(0)
  const forJobs = ({ jobs: ids }: PartLine) =>
    ids.length > 0 && (
      <span className="soft small">
        {' '}
        for{' '}
        {ids.map((id, at) => (
          <span key={id}>
            {at > 0 && ', '}
            <Link to={jobPlace(id)}>{jobs[id]?.title ?? id}</Link>
          </span>
        ))}
      </span>
    )
  const rows = Object.values(parts)
  return (
    <>
      <h1>Parts and money</h1>
      {sheet.sums.length > 0 && (
        <p className="bench-sentence">
          {sheet.sums
            .map(
              ({ currency, spent, toSpend }) =>
                `${spent.toFixed(2)} ${currency} spent, ${toSpend.toFixed(2)} ${currency} to spend`,
            )
            .join('; ')}
          {sheet.unknown.length > 0 &&
            `, without ${sheet.unknown.length} ${sheet.unknown.length === 1 ? 'part' : 'parts'} whose price or currency is unknown`}
          .
        </p>
      )}
      <div className="two">
        <section>
          <h2>To buy</h2>
          {sheet.shopping.length === 0 && <p>Nothing is wanted.</p>}
          {sheet.shopping.map(({ supplier, parts: list }) => (
            <div key={supplier} className="shopping">
              <h3>{supplier === '' ? 'Supplier not chosen' : supplier}</h3>
              <ul>
                {list.map((line) => (
                  <li key={line.id}>
                    {line.name}, {money(line)}
                    {forJobs(line)}
                  </li>
                ))}
              </ul>
            </div>
          ))}
        </section>
        <section>
          {sheet.coming.length > 0 && (
            <>
              <h2>Ordered</h2>
              <ul>
                {sheet.coming.map((line) => (
                  <li key={line.id}>
                    {line.name}, {line.due === undefined ? 'no date' : `due ${dayText(line.due)}`}
                    {line.due !== undefined && line.due < today() ? ', overdue' : ''}
                    {forJobs(line)}
                  </li>
                ))}
              </ul>
            </>
          )}
          {sheet.toReturn.length > 0 && (
            <>
              <h2>To give back</h2>
              <ul>
                {sheet.toReturn.map(({ id, name, from, backBy, overdue }) => (
                  <li key={id}>
                    {name}
                    {from === undefined ? '' : `, to ${from}`}
                    {backBy === undefined ? ', no date' : `, by ${dayText(backBy)}`}
                    {overdue ? ', overdue' : ''}
                  </li>
                ))}
              </ul>
            </>
          )}
          {sheet.ageing.length > 0 && (
            <>
              <h2>Growing old</h2>
              <ul>
                {sheet.ageing.map(({ id, name, bestBefore, past }) => (
                  <li key={id}>
                    {name}, {past ? 'past' : 'good until'} {dayText(bestBefore)}
                  </li>
                ))}
              </ul>
            </>
          )}
        </section>
      </div>
      <h2>All parts</h2>
      {rows.length === 0 ? (
        <p>No part is listed yet.</p>
      ) : (
        <ul className="plain">
          {rows.map((part) => (
            <PartItem key={part.id} build={build} part={part} />
          ))}
        </ul>
      )}
      <TextField
        key={turn}
        label="A new part"
        text=""
        hint="its name; it is then wanted"
        keep={(name) => {
          const found = put(build, 'parts', { id: idFrom(name, parts), name, status: 'wanted' }, `New part: ${name}`)
          if (found.length === 0) setTurn(turn + 1)
          return found
        }}
      />
    </>
  )
}

const positive = (text: string): number | undefined => {
  if (text === '') return undefined
  const value = Number(text.replace(',', '.'))
  if (!Number.isFinite(value) || value < 0)
    throw refuse('not-a-figure', `“${text}” is not a figure.`, 'Type it as 12.50, with no currency beside it.')
  return value
}
const currencyIn = (text: string): string | undefined => {
  if (text === '') return undefined
  if (!/^[A-Za-z]{3}$/.test(text))
    throw refuse('not-a-currency', `“${text}” is no three-letter code of a currency.`, 'Type it as EUR (ISO 4217).')
  return text.toUpperCase()
}
const dayIn = (text: string): string | undefined => text || undefined

function PartItem({ build, part }: { build: Build; part: Part }) {
  const { id, name, status } = part
  const set = <F extends keyof Part>(field: F, value: Part[F] | undefined, what: string): readonly Problem[] =>
    put(build, 'parts', withField(part, field, value), `${what} of ${name}`)
  const day = (field: 'due' | 'backBy' | 'bestBefore', label: string) => (
    <TextField
      label={label}
      type="date"
      text={part[field] ?? ''}
      keep={(text) => keepText(text, dayIn, (value) => set(field, value, label))}
    />
  )
  const [open, setOpen] = useState(false)
  return (
    <li className="part" data-part={id}>
      <div className="part-line">
        <button type="button" className="plain-link" aria-expanded={open} onClick={() => setOpen(!open)}>
          {name}
        </button>
        <SelectField
          quiet
          label={`State of ${name}`}
          value={status}
          choices={STATES.map((value) => ({ value, name: value }))}
          keep={(value) => set('status', value as Part['status'], 'State')}
        />
      </div>
      {open && (
        <div className="part-fields">
          <TextField label="Name" text={name} keep={(text) => set('name', text, 'Name')} />
          <TextField label="Supplier" text={part.supplier ?? ''} keep={(text) => set('supplier', text, 'Supplier')} />
          <TextField
            label="Price, for all of it"
            type="number"
            text={part.price === undefined ? '' : String(part.price)}
            keep={(text) => keepText(text, positive, (value) => set('price', value, 'Price'))}
          />
          <TextField
            label="Currency"
            hint="EUR"
            text={part.currency ?? ''}
            keep={(text) => keepText(text, currencyIn, (value) => set('currency', value, 'Currency'))}
          />
          {day('due', 'Due')}
          <TextField label="Borrowed from" text={part.from ?? ''} keep={(text) => set('from', text, 'Lender')} />
          {day('backBy', 'Back by')}
          {day('bestBefore', 'Good until')}
        </div>
      )}
    </li>
  )
}
