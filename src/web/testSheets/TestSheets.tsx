/** Test sheets: one for each circuit, and first power. */
import { Link } from 'wouter'
import { Empty } from '../parts/Empty.tsx'
import { useBench } from '../workbench/useBench.ts'
import { sheetPlace } from './sheetPlace.ts'

export function TestSheets() {
  const { build } = useBench()
  if (!build) return null
  const circuits = Object.values(build.collections.circuits)
  const { readings } = build.collections
  const taken = (sheet: string): number =>
    new Set(Object.values(readings).flatMap(({ test }) => (test?.startsWith(`${sheet}/`) ? [test] : []))).size
  const said = (sheet: string): string => {
    const count = taken(sheet)
    return count === 0 ? 'nothing read yet' : `${count} line${count === 1 ? '' : 's'} read`
  }
  return (
    <>
      <p>
        <Link to="/faults">Find a fault</Link>
      </p>
      <h1>Test sheets</h1>
      <p>
        What a meter should show at each point, with the limits that the model, the meter and the parts’ own spread
        leave. A reading outside them opens a fault search; after the repair the same sheet confirms it.
      </p>
      <ul className="sheets">
        <li>
          <Link to={sheetPlace('first-power')}>First power</Link>{' '}
          <span className="soft">before the battery is first connected, {said('first-power')}</span>
        </li>
        {circuits.map(({ id, name }) => (
          <li key={id}>
            <Link to={sheetPlace(id)}>{name}</Link> <span className="soft">{said(id)}</span>
          </li>
        ))}
      </ul>
      {circuits.length === 0 && (
        <Empty says="No circuit is entered yet, so there is a sheet for first power only.">
          <p>
            Enter circuits on <Link to="/circuits">Circuits</Link>.
          </p>
        </Empty>
      )}
    </>
  )
}
