/** Every controller pin, a line each; a tap opens what is said about it. */
import { useMemo, useState } from 'react'
import { Link } from 'wouter'
import { type LedgerRow, USES } from '../../assess/signals/ledger.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { findingPlace } from '../search/placeOf.ts'

const ASKED = ['all', 'something to do', ...USES] as const
type Asked = (typeof ASKED)[number]

const shows = (row: LedgerRow, asked: Asked, words: readonly string[]): boolean => {
  const use =
    asked === 'all' ||
    row.use === asked ||
    (asked === 'something to do' && row.verdict !== undefined && row.verdict !== 'sound')
  const text =
    `${row.pin} ${row.controller} ${row.use} ${row.name} ${row.partner?.name ?? ''} ${row.circuit} ${row.wires.join(' ')}`.toLowerCase()
  return use && words.every((word) => text.includes(word))
}

export const sheetPlace = (sheet: string): string => `/signals/${sheet.split('/').map(encodeURIComponent).join('/')}`

export function LedgerList({ rows }: { rows: readonly LedgerRow[] }) {
  const [asked, setAsked] = useState<Asked>('all')
  const [typed, setTyped] = useState('')
  const found = useMemo(() => {
    const words = typed.toLowerCase().split(/\s+/).filter(Boolean)
    return rows.filter((row) => shows(row, asked, words))
  }, [rows, asked, typed])
  return (
    <section aria-label="Controller pins">
      <div className="signal-filter">
        <label>
          Show
          <select value={asked} onChange={(event) => setAsked(event.target.value as Asked)}>
            {ASKED.map((each) => (
              <option key={each}>{each}</option>
            ))}
          </select>
        </label>
        <label>
          With the words
          <input value={typed} onChange={(event) => setTyped(event.target.value)} placeholder="pressure, B4, W-248" />
        </label>
      </div>
      <p role="status" className="small soft">
        {found.length} of {rows.length} pins
      </p>
      {[...new Set(found.map(({ controller }) => controller))].map((controller) => (
        <section key={controller} aria-label={controller}>
          <h2>{controller}</h2>
          <ul className="plain ledger">
            {found
              .filter((row) => row.controller === controller)
              .map((row) => (
                <Row key={`${row.pin}${row.subject ?? ''}`} row={row} />
              ))}
          </ul>
        </section>
      ))}
    </section>
  )
}

function Row({ row }: { row: LedgerRow }) {
  const [open, setOpen] = useState(false)
  const same = row.partner === undefined || row.partner.name === row.name
  const todo = row.findings.filter(({ verdict }) => verdict !== 'sound')
  return (
    <li data-pin={row.pin} data-use={row.use}>
      <button type="button" className="pin-line" aria-expanded={open} onClick={() => setOpen(!open)}>
        <span className="pin">{row.pin.slice(row.pin.lastIndexOf('.') + 1)}</span>
        <span className="what">
          <strong>{row.name}</strong>
          {!same && (
            <>
              {' '}
              <span className="soft">
                {row.use === 'output' ? 'drives' : 'reads'} {row.partner?.name}
              </span>
            </>
          )}
        </span>
        <span className="how small soft">
          {row.subject === undefined ? row.use : row.circuit}
          {row.subject !== undefined && row.wires.length === 0 && ', no wire'}
          {row.configured === false && ', not configured'}
        </span>
        <span className="now small">
          {row.use === 'output' && (row.boot === 'unknown' ? 'at boot not known' : `${row.boot} at boot`)}
          {row.use === 'input' &&
            row.table !== undefined &&
            `table ${row.error === 'none' ? 'without error' : (row.error ?? 'not compared')}`}
        </span>
        <span className="verdict">{row.verdict && <VerdictMark verdict={row.verdict} />}</span>
      </button>
      {open && (
        <div className="opened">
          <p>
            {row.wires.length > 0
              ? row.wires.map((wire, i) => (
                  <span key={wire}>
                    {i > 0 && ', '}
                    <Link to={`/circuits/of/wires/${wire}`}>{wire}</Link>
                  </span>
                ))
              : row.use === 'free'
                ? 'Free: no function and no wire.'
                : 'No wire ends here.'}
            {row.partner && (
              <>
                {' '}
                {row.use === 'output' ? 'to' : 'from'}{' '}
                <Link to={`/circuits/of/devices/${row.partner.id}`}>{row.partner.name}</Link>
              </>
            )}
            {row.table !== undefined && (
              <>
                . Table “{row.table}”
                {row.tableSource !== undefined && <span className="soft"> ({row.tableSource})</span>}
              </>
            )}
          </p>
          {row.subject !== undefined && (
            <p>{row.checked === undefined ? 'Not measured on the car yet.' : `Measured on the car ${row.checked}.`}</p>
          )}
          {todo.length > 0 && (
            <ul className="plain">
              {todo.map(({ key, verdict, says, todo: next }) => (
                <li key={key}>
                  <VerdictMark verdict={verdict} /> {says} <strong>{next}</strong>{' '}
                  <Link to={findingPlace(key)}>Open the finding</Link>
                </li>
              ))}
            </ul>
          )}
          {row.sheet !== undefined && (
            <Link to={sheetPlace(row.sheet)} className="button">
              Its curve and table
            </Link>
          )}
        </div>
      )}
    </li>
  )
}
