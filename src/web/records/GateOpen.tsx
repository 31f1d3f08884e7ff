/** One gate: what to do next, its cautions, what it asks with what is there to show, and its closing. */
import { useState } from 'react'
import { Link } from 'wouter'
import { canClose, closeGate, openAgain } from '../../assess/commissioning/commissioning.ts'
import type { GateStanding } from '../../assess/commissioning/types.ts'
import type { Build } from '../../model/build.ts'
import type { Problem } from '../../units/problem.ts'
import { dayText } from '../jobs/today.ts'
import { Cautions } from '../parts/Cautions.tsx'
import { Problems } from '../parts/Problems.tsx'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { AskOpen } from './AskOpen.tsx'
import { gatePlace, nextPlace } from './gatePlaces.ts'
import { keep } from './keep.ts'
import { Who } from './Who.tsx'
import { saidNow } from './who.ts'

interface Props {
  readonly build: Build
  readonly gates: readonly GateStanding[]
  readonly standing: GateStanding
  /** The first-power sheet is there; else its lines are still being reckoned. */
  readonly reckoned: boolean
}

export function GateOpen({ build, gates, standing, reckoned }: Props) {
  const { gate, asks, stand } = standing
  const same = gates.filter((each) => each.gate.sequence === gate.sequence)
  return (
    <section className="gate" aria-labelledby="gate">
      <p className="soft">
        {gate.sequence === 'first power' ? 'First power' : 'First start'}, gate{' '}
        {same.findIndex((each) => each.gate.id === gate.id) + 1} of {same.length}
      </p>
      <h1 id="gate">{gate.title}</h1>
      <NextThing {...{ standing, reckoned }} />
      <p className="small">
        State of the car: <strong>{gate.state}</strong>.
      </p>
      <details className="small" open={stand !== 'closed'}>
        <summary>Take care</summary>
        <Cautions list={gate.cautions} />
      </details>
      <div className="no-print">
        <Who />
      </div>
      {asks.map((each) => (
        <AskOpen key={each.ask.id} {...{ build, standing, one: each }} />
      ))}
      <Closing {...{ build, gates, standing }} />
    </section>
  )
}

function NextThing({ standing, reckoned }: { standing: GateStanding; reckoned: boolean }) {
  const { stand, behind, next, closedBy, asks } = standing
  if (!reckoned && asks.some(({ ask }) => ask.kind === 'lines'))
    return (
      <p className="next-thing" role="status">
        What the meter should show is being reckoned …
      </p>
    )
  if (stand === 'locked' || stand === 'waits')
    return (
      <p className="next-thing">
        {stand === 'locked' ? (
          <>
            <VerdictMark verdict="no-go" /> Locked by <Link to={gatePlace(behind!.id)}>{behind!.title}</Link>. Put that
            right first.
          </>
        ) : (
          <>
            First comes <Link to={gatePlace(behind!.id)}>{behind!.title}</Link>.
          </>
        )}
      </p>
    )
  if (stand === 'closed')
    return (
      <p className="next-thing">
        Closed{closedBy?.when ? ` on ${dayText(closedBy.when.slice(0, 10))}` : ''}
        {closedBy?.by ? ` by ${closedBy.by}` : ''}; its evidence still holds.
      </p>
    )
  const place = next && nextPlace(next)
  return (
    <div className="next-thing" role="status">
      <h2>{stand === 'asks again' ? 'It was closed, and asks again' : 'Next'}</h2>
      <p>{next?.says}</p>
      {place && (
        <Link className="button" to={place.to}>
          {place.says}
        </Link>
      )}
    </div>
  )
}

function Closing({ build, gates, standing }: Pick<Props, 'build' | 'gates' | 'standing'>) {
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [why, setWhy] = useState<string>()
  const { stand, verdict, gate, asks } = standing
  if (stand === 'locked' || stand === 'waits') return null
  if (stand === 'in turn' || stand === 'asks again') {
    const left = asks.filter((each) => !canClose(each.verdict)).length
    return (
      <div className="closing no-print">
        <Problems list={problems} />
        {canClose(verdict) ? (
          <button
            type="button"
            className="first wide"
            onClick={() => setProblems(keep(() => closeGate(build, standing, saidNow())))}
          >
            Close this gate
          </button>
        ) : (
          <p className="soft">
            {left === 1 ? 'One thing is' : `${left} things are`} missing or against it; then the gate can be closed.
          </p>
        )}
      </div>
    )
  }
  const after = gates[gates.findIndex((each) => each.gate.id === gate.id) + 1]
  return (
    <div className="closing no-print">
      <Problems list={problems} />
      {after && (
        <p>
          Then: <Link to={gatePlace(after.gate.id)}>{after.gate.title}</Link>
        </p>
      )}
      {why === undefined ? (
        <button type="button" className="quiet" onClick={() => setWhy('')}>
          Something was altered: open it again
        </button>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault()
            setProblems(keep(() => openAgain(build, standing, saidNow(), why)))
          }}
        >
          <label>
            What was altered
            <input value={why} onChange={(event) => setWhy(event.target.value)} />
          </label>
          <button type="submit">Open the gate again</button>
        </form>
      )}
    </div>
  )
}
