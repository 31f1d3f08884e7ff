/** What waits while there is no signal, and edits that met a change made elsewhere. */
import { useEffect } from 'react'
import { Link } from 'wouter'
import { called } from '../../model/called.ts'
import type { Conflict } from '../../model/conflict.ts'
import { Problems } from '../parts/Problems.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { onThisMachine } from './door.ts'
import './phone.css'

const nameOf = ({ subject, mine, stored }: Conflict): string => {
  const [collection, id] = subject.split('/')
  const titled = (stored ?? mine) as { title?: string; name?: string } | null
  if (typeof titled?.title === 'string') return titled.title
  if (typeof titled?.name === 'string') return titled.name
  return id === undefined ? 'The name of the build' : called(collection as never, id)
}
const plain = (value: unknown): string => {
  if (value === undefined || value === null) return 'nothing'
  if (typeof value === 'object' && 'value' in value)
    return `${String(value.value)}${'unit' in value ? ` (typed in ${String(value.unit)})` : ''}`
  return typeof value === 'object' ? 'a list' : String(value)
}
const field = (record: unknown, name: string): unknown => (record as Record<string, unknown> | null)?.[name]

/** `isWhole`: every page of the workbench has been fetched. */
export function Unsent({ isWhole }: { isWhole: boolean }) {
  const { away, unpaired, unsent, clashes } = useBench()
  const laptop = onThisMachine() ? 'server' : 'laptop'
  // On every page: the thing that was photographed need not be on the screen when the signal comes back.
  useEffect(() => {
    if (!away && !unpaired) void import('./photoQueue.ts').then(({ photoQueue }) => photoQueue.sendWaiting())
  }, [away, unpaired])
  if (!away && !unpaired && clashes.length === 0) return null
  return (
    <section className="unsent" aria-label="Not yet sent">
      {unpaired && (
        <p role="status">This phone is not paired with the laptop. Open “Phone” there and scan the code it shows.</p>
      )}
      {away && (
        <p role="status">
          The {laptop} does not answer.{' '}
          {unsent.length === 0
            ? 'What you do here is kept and sent when it is back.'
            : `${unsent.length === 1 ? 'One change waits' : `${unsent.length} changes wait`} here: ${unsent
                .slice(-3)
                .map(({ label }) => label)
                .join('; ')}.`}{' '}
          {!isWhole && 'Some pages have not been fetched yet; they open only when it is back. '}
          <button type="button" onClick={() => void bench.tryNow()}>
            Try now
          </button>
        </p>
      )}
      {clashes.map((clash) => (
        <div key={JSON.stringify(clash.edit)} className="clash">
          <h2>
            {clash.problems ? 'Not stored' : 'Changed in two places'}: {clash.edit.label}
          </h2>
          {clash.problems && <Problems list={clash.problems} />}
          {clash.conflicts.length > 0 && (
            <table>
              <thead>
                <tr>
                  <th scope="col">What</th>
                  <th scope="col">Here</th>
                  <th scope="col">Stored</th>
                </tr>
              </thead>
              <tbody>
                {clash.conflicts.flatMap((conflict) =>
                  (conflict.fields.length > 0 ? conflict.fields : ['']).map((name) => (
                    <tr key={conflict.subject + name}>
                      <th scope="row">
                        {nameOf(conflict)}
                        {name === '' ? '' : `, ${name}`}
                      </th>
                      <td>
                        {name === ''
                          ? conflict.mine === null
                            ? 'taken away'
                            : 'changed'
                          : plain(field(conflict.mine, name))}
                      </td>
                      <td>
                        {name === ''
                          ? conflict.stored === null
                            ? 'taken away'
                            : 'changed'
                          : plain(field(conflict.stored, name))}
                      </td>
                    </tr>
                  )),
                )}
              </tbody>
            </table>
          )}
          <div className="row">
            <button type="button" className="first" onClick={() => bench.settleClash(clash, 'mine')}>
              {clash.problems ? 'Try again' : 'Keep what is here'}
            </button>
            <button type="button" onClick={() => bench.settleClash(clash, 'stored')}>
              {clash.problems ? 'Let it go' : 'Keep what is stored'}
            </button>
          </div>
        </div>
      ))}
      {unpaired && onThisMachine() && <Link to="/phone">Phone</Link>}
    </section>
  )
}
