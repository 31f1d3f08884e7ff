/** What is not entered, one line for each kind of datum, what settles most first; opened, the items, each led to. */
import { type ReactNode, useState } from 'react'
import { Link } from 'wouter'
import { type Gathered, howMany } from '../../assess/gather.ts'
import type { Build } from '../../model/build.ts'
import { findingPlace } from '../search/placeOf.ts'

/** Where a thing's figures are entered; undefined where no screen has them yet. */
const placeOf = ({ collections }: Build, subject: string): string | undefined => {
  const [collection, id = ''] = subject.split('/')
  if (collection === 'wires' || collection === 'devices') return `/circuits/of/${collection}/${id}`
  if (collection === 'fixings') return `/records/fixings/${encodeURIComponent(id)}`
  if (collection !== 'sensors' && collection !== 'inputs' && collection !== 'outputs') return undefined
  const device = collections[collection][id]?.device
  return device === undefined ? undefined : `/circuits/of/devices/${device}`
}

interface Props {
  readonly build: Build
  readonly gathered: readonly Gathered[]
  /** Beside the button that shows all kinds. */
  readonly children: ReactNode
}
/** Kinds shown before more are asked for. */
const FIRST = 12

export function GatheredList({ build, gathered, children }: Props) {
  const [all, setAll] = useState(false)
  return (
    <section aria-labelledby="gathered" className="gathered">
      <h2 id="gathered">Not entered, what settles most first</h2>
      <ol className="plain">
        {(all ? gathered : gathered.slice(0, FIRST)).map((one) => (
          <GatheredLine key={one.datum} build={build} one={one} />
        ))}
      </ol>
      <div className="row">
        {gathered.length > FIRST && (
          <button type="button" aria-expanded={all} onClick={() => setAll(!all)}>
            {all ? `Only the first ${FIRST}` : `${gathered.length - FIRST} more kinds`}
          </button>
        )}
        {children}
      </div>
    </section>
  )
}

const worth = ({ asked, settles }: Gathered): string =>
  settles === asked
    ? `settles ${settles}`
    : settles === 0
      ? `asked by ${asked}`
      : `asked by ${asked}, settles ${settles}`

function GatheredLine({ build, one }: { build: Build; one: Gathered }) {
  const [open, setOpen] = useState(false)
  return (
    <li data-datum={one.datum}>
      <button type="button" className="line" aria-expanded={open} onClick={() => setOpen(!open)}>
        <span>
          <strong>{one.datum}</strong>: {howMany(one)}
        </span>
        <span className="soft small figure">{worth(one)}</span>
      </button>
      {open && (
        <ul className="plain items">
          {one.items.map(({ subject, name, findings }) => (
            <li key={subject}>
              <Link to={placeOf(build, subject) ?? findingPlace(findings[0]!)}>{name}</Link>
              <span className="soft small"> {findings.length === 1 ? '1 finding' : `${findings.length} findings`}</span>
            </li>
          ))}
        </ul>
      )}
    </li>
  )
}
