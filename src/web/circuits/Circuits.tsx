/** Circuits: one drawn with its levers, its volts and amps in a case, and its wires and devices as tables to edit. */
import { useEffect, useState } from 'react'
import { Link, useLocation } from 'wouter'
import { hiddenDraws } from '../../assess/solveCases.ts'
import type { Build } from '../../model/build.ts'
import { Empty } from '../parts/Empty.tsx'
import { circuitPlace } from '../search/placeOf.ts'
import { useBench } from '../workbench/useBench.ts'
import { CircuitsNav } from './CircuitsNav.tsx'
import { contentsOf } from './drawing/diagram.ts'
import { type Live, voltsText } from './drawing/live.ts'
import { WhatIfNote } from './drawing/WhatIfNote.tsx'
import { patternPlace } from './patterns/groups.ts'
import { useTrial } from './useTrial.ts'
import { CircuitViews } from './views.tsx'
import './circuits.css'

const UNSORTED = 'unsorted'

/** The circuit that a wire or device named elsewhere belongs to, with that thing shown and its row marked. */
export function CircuitOf({ collection, id }: { collection: string; id: string }) {
  const { build } = useBench()
  const owner =
    collection === 'circuits'
      ? id
      : collection === 'wires'
        ? build?.collections.wires[id]?.circuit
        : build && circuitOfDevice(build, id)
  // The drawing stands at the top and brings the thing into view itself.
  // biome-ignore lint/correctness/useExhaustiveDependencies: another thing asked for is another visit.
  useEffect(() => scrollTo(0, 0), [collection, id])
  return <Circuits key={`${collection}/${id}`} chosen={owner ?? UNSORTED} shown={`${collection}/${id}`} />
}

/** Its own word, else that of its first wire. */
const circuitOfDevice = (build: Build, id: string): string | undefined =>
  build.collections.devices[id]?.circuit ??
  Object.values(build.collections.wires).find(
    ({ from, to, circuit }) => circuit !== undefined && [from, to].some((end) => end.startsWith(`${id}.`)),
  )?.circuit

export function Circuits({ chosen, shown }: { chosen?: string | undefined; shown?: string }) {
  const { build, assessment } = useBench()
  const [, go] = useLocation()
  const { kase, live, tried, chooseCase, back, setSwitch, setOutput } = useTrial(build)
  const [thing, setThing] = useState<string | undefined>(shown)
  if (!build) return null
  const circuits = Object.values(build.collections.circuits)
  const loose = contentsOf(build, undefined)
  if (circuits.length === 0 && loose.devices.length === 0)
    return (
      <>
        <h1>Circuits</h1>
        <Empty says="No circuit yet.">
          <p>
            <Link to={patternPlace()}>Add one from a pattern</Link>, or take one in from a wire list on the{' '}
            <Link to="/">Car page</Link>.
          </p>
        </Empty>
      </>
    )
  const known = chosen !== undefined && (chosen === UNSORTED || Object.hasOwn(build.collections.circuits, chosen))
  const current = known ? chosen : (circuits[0]?.id ?? UNSORTED)
  const circuit = current === UNSORTED ? undefined : current
  const { devices, wires } = contentsOf(build, circuit)
  const cases = Object.values(build.collections.cases)
  const name = circuit === undefined ? 'In no circuit' : build.collections.circuits[circuit]!.name
  // What was tapped in another circuit is put away with it.
  const isHere = [...devices.map(({ id }) => `devices/${id}`), ...wires.map(({ id }) => `wires/${id}`)].includes(
    thing ?? '',
  )
  return (
    <>
      <h1>{name}</h1>
      <CircuitsNav />
      <div className="choose">
        <label>
          Circuit
          <select value={current} onChange={(event) => go(circuitPlace(event.target.value))}>
            {circuits.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
            <option value={UNSORTED}>In no circuit</option>
          </select>
        </label>
        <label>
          Operating case
          <select value={kase?.id ?? ''} onChange={(event) => chooseCase(event.target.value)}>
            {cases.length === 0 && <option value="">no operating case yet</option>}
            {cases.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
      </div>
      {kase && <WhatIfNote build={build} kase={kase} tried={tried} back={back} kept={chooseCase} />}
      {live && <CaseNote live={live} />}
      {cases.length === 0 && (
        <p role="status">
          There is no operating case yet, so volts and amps are unknown. The drawing stands without them.
        </p>
      )}
      <CircuitViews
        {...{ build, assessment, circuit, name, devices, wires, live, setSwitch, setOutput }}
        chosen={isHere ? thing : undefined}
        choose={setThing}
        shown={shown?.slice(shown.indexOf('/') + 1)}
      />
    </>
  )
}

/** Why figures of this case are absent, or too low above what draws a current that nobody entered. */
function CaseNote({ live: { solved } }: { live: Live }) {
  if (!solved.solved)
    return (
      <p role="status">
        This case has no solution{solved.notes[0] === undefined ? '.' : `: ${solved.notes[0]}`} Its figures are unknown.
      </p>
    )
  const hidden = [...new Set(hiddenDraws(solved).map(({ subject, datum }) => `${subject.split('/')[1]} (${datum})`))]
  return (
    <>
      {solved.plusMinus !== undefined && (
        <p className="small">
          Every voltage ± {voltsText(solved.plusMinus, true)}: the battery’s charging current is reckoned, not entered.
        </p>
      )}
      {solved.restless !== undefined && (
        <p className="small">
          The conductors’ temperatures come to no rest in this case; they still move by {solved.restless.toFixed(0)} K.
        </p>
      )}
      {hidden.length > 0 && (
        <p role="status" className="small">
          Not counted, for it is not entered: {hidden.slice(0, 6).join(', ')}
          {hidden.length > 6 ? ` and ${hidden.length - 6} more` : ''}. On the way to these the amps shown are too low.
        </p>
      )}
    </>
  )
}
