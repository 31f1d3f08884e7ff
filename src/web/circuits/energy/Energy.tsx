/** Energy of the whole car: what is given and what is taken in each case, how long the battery lasts, how long it may stand. */
import { Link } from 'wouter'
import type { EnergyRow } from '../../../assess/energy/energy.ts'
import type { Finding } from '../../../assess/finding.ts'
import { Empty } from '../../parts/Empty.tsx'
import { VerdictMark } from '../../parts/VerdictMark.tsx'
import { findingPlace } from '../../search/placeOf.ts'
import { useBench } from '../../workbench/useBench.ts'
import { CaseField } from '../CaseField.tsx'
import { CircuitsNav } from '../CircuitsNav.tsx'
import { ampsText } from '../drawing/live.ts'
import { useCase } from '../useCase.ts'
import { LoadStrip } from './LoadStrip.tsx'
import './energy.css'

/** An ampere out of the battery, or into it, said as such. */
const batteryText = (amps: number): string =>
  Math.abs(amps) < 5e-5 ? 'nothing' : `${amps > 0 ? 'gives' : 'takes'} ${ampsText(amps)}`
const signed = (amps: number | null): string => (amps === null ? 'unknown' : `${amps < 0 ? '−' : '+'}${ampsText(amps)}`)
const givenText = ({ available, availablePlusMinus }: EnergyRow): string =>
  available === null
    ? 'unknown'
    : `${ampsText(available)}${availablePlusMinus > 0 ? ` ± ${ampsText(availablePlusMinus)}` : ''}`

const ASKED: readonly (readonly [rule: string, heading: string])[] = [
  ['energy-balance', 'Does the alternator keep up?'],
  ['battery-reserve', 'How long the battery carries the car'],
  ['parked-days', 'How long it may stand'],
]

export function Energy() {
  const { build, assessment } = useBench()
  const rows = assessment?.energy ?? []
  const { kase, cases, choose } = useCase(build, ({ id }) => rows.some((row) => row.case === id))
  if (!build) return null
  const row = rows.find((one) => one.case === kase?.id)
  return (
    <>
      <h1>Energy</h1>
      <CircuitsNav />
      {assessment === undefined || kase === undefined || row === undefined ? (
        <Empty
          says={
            assessment?.findings.find(({ rule, verdict }) => rule === 'energy-balance' && verdict === 'unknown')
              ?.says ??
            'No operating case has a solution yet, so nothing is known of what is given and taken. Enter a case, a battery with its figures and what the loads draw.'
          }
        />
      ) : (
        <>
          <div className="energy-answers">
            {ASKED.map(([rule, heading]) => (
              <Answer
                key={rule}
                heading={heading}
                finding={assessment.findings.find((finding) => finding.rule === rule)}
              />
            ))}
          </div>
          <CaseField {...{ cases, kase, choose }} />
          <OneCase row={row} />
          <AllCases rows={rows} />
        </>
      )}
    </>
  )
}

function Answer({ heading, finding }: { heading: string; finding: Finding | undefined }) {
  return (
    <section aria-label={heading}>
      <h2>{heading}</h2>
      {finding === undefined ? (
        <p className="soft">Not judged: no case of this build asks it.</p>
      ) : (
        <p>
          <VerdictMark verdict={finding.verdict} /> {finding.says}{' '}
          <Link to={findingPlace(finding.key)}>Its working</Link>
        </p>
      )}
    </section>
  )
}

function OneCase({ row }: { row: EnergyRow }) {
  return (
    <>
      <LoadStrip row={row} />
      {row.missing.length > 0 && (
        <p role="status" className="small">
          Not counted, for it is not entered: {row.missing.slice(0, 6).join(', ')}
          {row.missing.length > 6 ? ` and ${row.missing.length - 6} more` : ''}. More is taken than is shown.
        </p>
      )}
      <table className="by-circuit">
        <caption>Taken in “{row.caseName}”, each load averaged over its duty</caption>
        <thead>
          <tr>
            <th scope="col" className="figure">
              No.
            </th>
            <th scope="col">Circuit</th>
            <th scope="col" className="figure">
              Takes
            </th>
          </tr>
        </thead>
        <tbody>
          {row.byCircuit.map(({ circuit, current }, at) => (
            <tr key={circuit}>
              <td className="figure">{at + 1}</td>
              <th scope="row">{circuit}</th>
              <td className="figure">{ampsText(current)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}

function AllCases({ rows }: { rows: readonly EnergyRow[] }) {
  return (
    <table className="folds">
      <caption>Every case</caption>
      <thead>
        <tr>
          <th scope="col">Case</th>
          <th scope="col" className="figure">
            Given hot
          </th>
          <th scope="col" className="figure">
            Taken
          </th>
          <th scope="col" className="figure">
            Balance
          </th>
          <th scope="col" className="figure">
            Battery
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.case}>
            <th scope="row" data-label="Case">
              {row.caseName}
            </th>
            <td data-label="Given hot" className="figure">
              {givenText(row)}
            </td>
            <td data-label="Taken" className="figure">
              {ampsText(row.load)}
              {row.missing.length > 0 ? ' or more' : ''}
            </td>
            <td data-label="Balance" className="figure">
              {signed(row.balance)}
            </td>
            <td data-label="Battery" className="figure">
              {batteryText(row.battery)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
