/** The holes that the loom goes through: what is in them, and whether they are large enough. */
import { Link } from 'wouter'
import type { Finding } from '../../assess/finding.ts'
import { bundleOf, type LoomRun, strandsThrough } from '../../assess/loom/loom.ts'
import type { Build } from '../../model/build.ts'
import { Cell } from '../circuits/tables/Cell.tsx'
import { measureText } from '../parts/quantityText.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { findingPlace } from '../search/placeOf.ts'
import { setPassage, setPassageChoice } from './edits.ts'
import { runPlace } from './places.ts'
import { millimetres } from './words.ts'

interface Props {
  readonly build: Build
  readonly runs: readonly LoomRun[]
  readonly findings: readonly Finding[]
}

export function Passages({ build, runs, findings }: Props) {
  const passages = Object.values(build.collections.passages)
  if (passages.length === 0) return <p>No passage is entered yet: a hole that the loom goes through.</p>
  return (
    <section aria-labelledby="passages">
      <h2 id="passages">Passages</h2>
      <table className="folds passages">
        <caption className="out-of-sight">Holes that the loom goes through</caption>
        <thead>
          <tr>
            {['Passage', 'Runs', 'Bundle as laid', 'Hole', 'Grommet', 'Clear inside', 'In', 'Verdict'].map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {passages.map((passage, row) => {
            const through = runs.filter(({ run }) => run.passage === passage.id)
            const strands = strandsThrough(passage.id, runs)
            const bundle = bundleOf(build, strands)
            const found = findings.filter(({ subject }) => subject === `passages/${passage.id}`)
            return (
              <tr key={passage.id}>
                <th scope="row" data-label="Passage">
                  {passage.name}
                </th>
                <td data-label="Runs">
                  {through.map(({ run }, index) => (
                    <span key={run.id}>
                      {index > 0 && ', '}
                      <Link to={runPlace(run.id)}>{run.id}</Link>
                    </span>
                  ))}
                  {through.length === 0 && 'none'}
                </td>
                <td data-label="As laid">
                  {strands.length === 0 ? 'empty' : bundle ? millimetres(bundle.laid) : 'unknown'}
                </td>
                <td data-label="Hole">
                  <Cell
                    label={`Hole of ${passage.name}`}
                    text={measureText('length', passage.hole)}
                    hint="not known"
                    row={row}
                    column={0}
                    keep={(text) => setPassage(build, passage, 'hole', text)}
                  />
                </td>
                <td data-label="Grommet">
                  <select
                    aria-label={`Grommet at ${passage.name}`}
                    className="cell"
                    value={passage.grommet === undefined ? '' : passage.grommet ? 'yes' : 'no'}
                    onChange={(event) => setPassageChoice(build, passage, 'grommet', event.target.value)}
                  >
                    <option value="">not said</option>
                    <option>yes</option>
                    <option>no</option>
                  </select>
                </td>
                <td data-label="Clear inside">
                  <Cell
                    label={`Clear inside the grommet of ${passage.name}`}
                    text={measureText('length', passage.bore)}
                    hint="not known"
                    row={row}
                    column={1}
                    keep={(text) => setPassage(build, passage, 'bore', text)}
                  />
                </td>
                <td data-label="In">
                  <select
                    aria-label={`What ${passage.name} is in`}
                    className="cell"
                    value={passage.through ?? ''}
                    onChange={(event) => setPassageChoice(build, passage, 'through', event.target.value)}
                  >
                    <option value="">not said</option>
                    {['metal', 'plastic', 'wood'].map((wall) => (
                      <option key={wall}>{wall}</option>
                    ))}
                  </select>
                </td>
                <td data-label="Verdict">
                  {found.length === 0 ? (
                    strands.length === 0 ? (
                      ''
                    ) : (
                      <VerdictMark verdict="sound" />
                    )
                  ) : (
                    found.map(({ key, verdict, says }) => (
                      <Link key={key} to={findingPlace(key)} title={says}>
                        <VerdictMark verdict={verdict} />
                      </Link>
                    ))
                  )}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </section>
  )
}
