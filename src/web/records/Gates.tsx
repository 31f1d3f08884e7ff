/** Commissioning: first power and first start as gates; the one in turn is open, the others a tap away. */
import { Link } from 'wouter'
import { judgeGates } from '../../assess/commissioning/commissioning.ts'
import type { GateStanding, Sequence } from '../../assess/commissioning/types.ts'
import type { Finding } from '../../assess/finding.ts'
import { gatesPage } from '../../book/records/gatesPage.ts'
import type { Build } from '../../model/build.ts'
import { today } from '../jobs/today.ts'
import { Empty } from '../parts/Empty.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { useBench } from '../workbench/useBench.ts'
import { useFirstPowerSheet } from './firstPowerSheet.ts'
import { GateOpen } from './GateOpen.tsx'
import { gatePlace, STAND_WORDS } from './gatePlaces.ts'
import { openPage } from './openPage.ts'
import './records.css'

const SEQUENCES: readonly (readonly [Sequence, string])[] = [
  ['first power', 'First power'],
  ['first start', 'First start'],
]
const NARROW = '(max-width: 760px)'

export function Gates({ chosen }: { chosen: string | undefined }) {
  const { build, assessment } = useBench()
  if (!build) return null
  // A gate is never judged without the findings.
  if (!assessment) return <Empty says="This build cannot be judged as it stands, and so no gate can; see above." />
  return <GatesOf {...{ build, findings: assessment.findings, chosen }} />
}

interface Props {
  readonly build: Build
  readonly findings: readonly Finding[]
  readonly chosen: string | undefined
}

function GatesOf({ build, findings, chosen }: Props) {
  const sheet = useFirstPowerSheet(build)
  const gates = judgeGates(build, findings, sheet)
  const here = gates.find(({ stand }) => stand === 'in turn' || stand === 'asks again') ?? gates.at(-1)!
  const open = gates.find(({ gate }) => gate.id === chosen) ?? here
  return (
    <div className="gates">
      <nav aria-label="Gates" className="no-print">
        <details open={!window.matchMedia(NARROW).matches}>
          <summary>
            {gates.filter(({ stand }) => stand === 'closed').length} of {gates.length} gates closed
          </summary>
          {SEQUENCES.map(([sequence, title]) => (
            <GateRow
              key={sequence}
              title={title}
              gates={gates.filter(({ gate }) => gate.sequence === sequence)}
              open={open.gate.id}
            />
          ))}
          {sheet && (
            <p className="small">
              <button
                type="button"
                className="quiet"
                onClick={() => openPage(gatesPage(build, findings, sheet, today()))}
              >
                All gates with their evidence, to print
              </button>
            </p>
          )}
          <p className="small">
            <Link to="/records">All records</Link>
          </p>
        </details>
      </nav>
      <GateOpen key={open.gate.id} {...{ build, gates, standing: open, reckoned: sheet !== undefined }} />
    </div>
  )
}

function GateRow({ title, gates, open }: { title: string; gates: readonly GateStanding[]; open: string }) {
  return (
    <>
      <h2>{title}</h2>
      <ol className="plain gate-row">
        {gates.map(({ gate, verdict, stand }) => (
          <li key={gate.id} className={stand.replace(' ', '-')}>
            <Link to={gatePlace(gate.id)} aria-current={gate.id === open ? 'page' : undefined}>
              {gate.title}
            </Link>
            <span className="small">
              <VerdictMark verdict={verdict} /> <span className="soft">{STAND_WORDS[stand]}</span>
            </span>
          </li>
        ))}
      </ol>
    </>
  )
}
