/** Wires that have neither path nor length: each with the shortest way, to take at a touch. */
import { useState } from 'react'
import { Link } from 'wouter'
import { isWire } from '../../assess/loom/loom.ts'
import { deviceIdOf, own, restrictedWire, wireName } from '../../assess/make.ts'
import { route } from '../../assess/patterns/route.ts'
import type { Build } from '../../model/build.ts'
import type { Problem } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { takePath } from './edits.ts'

/** More than these are told by their number. */
const MOST = 20

export function Unrouted({ build }: { readonly build: Build }) {
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const wires = Object.values(build.collections.wires).filter(
    (wire) => isWire(wire) && !restrictedWire(build, wire.id) && !wire.length && (wire.path ?? []).length === 0,
  )
  if (wires.length === 0) return null
  const at = (end: string): string | undefined => own(build.collections.devices, deviceIdOf(end))?.at
  return (
    <section aria-labelledby="unrouted">
      <h2 id="unrouted">
        {wires.length === 1 ? 'A wire' : `${wires.length} wires`} without path or length: cannot be cut
      </h2>
      <Problems list={problems} />
      <ul className="plain">
        {wires.slice(0, MOST).map((wire) => {
          const [start, goal] = [at(wire.from), at(wire.to)]
          const way =
            start === undefined || goal === undefined || start === goal ? undefined : route(build, start, goal)
          return (
            <li key={wire.id} className="row">
              <Link to={`/circuits/of/wires/${wire.id}`}>{wireName(build, wire.id)}</Link>
              {way ? (
                <button type="button" onClick={() => setProblems(takePath(build, wire, way.path))}>
                  Take {way.path.join(', ')}
                </button>
              ) : (
                <span className="soft small">
                  {start === undefined || goal === undefined
                    ? 'One of its devices has no branch point: enter its length, or where the device sits.'
                    : start === goal
                      ? 'Both its devices sit at one branch point: enter its length.'
                      : 'No run leads from one end to the other.'}
                </span>
              )}
            </li>
          )
        })}
      </ul>
      {wires.length > MOST && <p className="soft">and {wires.length - MOST} more.</p>}
    </section>
  )
}
