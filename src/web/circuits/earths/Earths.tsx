/** Earths of the whole car in one case: what returns where, what that does to the sensors, and each strap thought open. */
import { useMemo, useState } from 'react'
import { Link } from 'wouter'
import { returnTreeOf } from '../../../assess/earths/returnTree.ts'
import { deviceName, list } from '../../../assess/make.ts'
import { Empty } from '../../parts/Empty.tsx'
import { VerdictMark } from '../../parts/VerdictMark.tsx'
import { findingPlace } from '../../search/placeOf.ts'
import { useBench } from '../../workbench/useBench.ts'
import { CaseField } from '../CaseField.tsx'
import { CircuitsNav } from '../CircuitsNav.tsx'
import { ampsText, voltsText } from '../drawing/live.ts'
import { useCase } from '../useCase.ts'
import { EarthsDrawing } from './EarthsDrawing.tsx'
import './earths.css'

export function Earths() {
  const { build, assessment } = useBench()
  const { kase, cases, choose } = useCase(build, ({ battery }) => battery !== 'reversed')
  const [open, setOpen] = useState<string>()
  const solution = kase && assessment?.cases[kase.id]
  const tree = useMemo(
    () => (build === undefined || solution === undefined ? undefined : returnTreeOf(build, solution)),
    [build, solution],
  )
  if (!build) return null
  const heading = (
    <>
      <h1>Earths</h1>
      <CircuitsNav />
    </>
  )
  if (kase === undefined || assessment === undefined || solution === undefined || tree === undefined)
    return (
      <>
        {heading}
        <Empty says="There is no operating case yet, so nothing is known of what returns where. Enter a case, a battery and an earth stud." />
      </>
    )
  const rows = assessment.earths.filter((row) => row.case === kase.id)
  const sensors = assessment.sensorErrors.filter((row) => row.case === kase.id)
  const opened = assessment.findings.filter(({ rule }) => rule === 'strap-open')
  const shown = opened.find(({ subject }) => subject === `wires/${open}`)
  // Opened only where a strap was; another build may have come meanwhile.
  const isOpen = tree.straps.some(({ wire }) => wire === open) ? open : undefined
  const isUnsure = tree.bare.length > 0
  return (
    <>
      {heading}
      <CaseField {...{ cases, kase, choose }} />
      {!solution.solved && (
        <p role="status">This case has no solution, so its earths are unknown. {solution.notes[0] ?? ''}</p>
      )}
      {isUnsure && (
        <p role="status">
          How far the earths are raised is unknown: {list(tree.bare)} {tree.bare.length === 1 ? 'lacks' : 'lack'} the
          figures of {tree.bare.length === 1 ? 'a conductor' : 'conductors'}.{' '}
          <Link to={`/circuits/of/wires/${tree.bare[0]}`}>Enter those of {tree.bare[0]}</Link>
        </p>
      )}
      {tree.points.length === 0 ? (
        <Empty says="No earth stud is entered yet, so nothing has a place to return to." />
      ) : (
        <EarthsDrawing build={build} tree={tree} caseName={kase.name} open={isOpen} />
      )}
      {tree.straps.length > 0 && (
        <section aria-labelledby="straps">
          <h2 id="straps">Each strap thought open</h2>
          <fieldset className="row">
            <legend className="out-of-sight">Strap thought open</legend>
            <button type="button" aria-pressed={isOpen === undefined} onClick={() => setOpen(undefined)}>
              All whole
            </button>
            {tree.straps.map(({ wire, joins }) => (
              <button key={wire} type="button" aria-pressed={isOpen === wire} onClick={() => setOpen(wire)}>
                {wire}: {joins.join(' to ')}
              </button>
            ))}
          </fieldset>
          {isOpen !== undefined &&
            (shown === undefined ? (
              <p role="status">
                {isOpen} carries no current worth the name while cranking or at full load; opening it changes nothing
                that is known.
              </p>
            ) : (
              <div role="status" className="strap-answer">
                <p>
                  <VerdictMark verdict={shown.verdict} /> {shown.says}
                </p>
                <ul className="small">
                  {shown.working.map((line) => (
                    <li key={line}>{line}</li>
                  ))}
                </ul>
                {shown.verdict !== 'sound' && (
                  <p>
                    {shown.todo} <Link to={findingPlace(shown.key)}>Open the finding</Link>
                  </p>
                )}
              </div>
            ))}
        </section>
      )}
      {rows.length > 0 && (
        <table className="folds earth-points">
          <caption>Earth points in “{kase.name}”, farthest from the battery’s negative first</caption>
          <thead>
            <tr>
              <th scope="col">Point</th>
              <th scope="col">Returns there</th>
              <th scope="col" className="figure">
                Current
              </th>
              <th scope="col" className="figure">
                Raised
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => {
              const point = tree.points.find(({ device }) => device === row.earth)
              return (
                <tr key={row.earth}>
                  <th scope="row" data-label="Point">
                    <Link to={`/circuits/of/devices/${row.earth}`}>{row.name}</Link>
                  </th>
                  <td data-label="Returns">{row.returns.join('; ') || 'nothing'}</td>
                  <td data-label="Current" className="figure">
                    {point === undefined ? 'its own wires' : ampsText(point.current)}
                  </td>
                  <td data-label="Raised" className="figure">
                    {voltsText(isUnsure ? null : row.raised, false)}
                  </td>
                </tr>
              )
            })}
          </tbody>
        </table>
      )}
      <table className="folds">
        <caption>What that does to the sensors, in their own units</caption>
        {sensors.length > 0 && (
          <>
            <thead>
              <tr>
                <th scope="col">Sensor</th>
                <th scope="col" className="figure">
                  Its return stands off by
                </th>
                <th scope="col" className="figure">
                  It then reads wrong by
                </th>
              </tr>
            </thead>
            <tbody>
              {sensors.map((row) => (
                <tr key={row.sensor}>
                  <th scope="row" data-label="Sensor">
                    <Link to={`/circuits/of/devices/${row.device}`}>
                      {build.collections.sensors[row.sensor]?.name ?? deviceName(build, row.device)}
                    </Link>
                  </th>
                  <td data-label="Return off" className="figure">
                    {voltsText(isUnsure ? null : row.offset, false)}
                  </td>
                  <td data-label="Reads" className="figure">
                    {isUnsure ? 'unknown' : row.error === 0 ? 'nothing' : row.words}
                  </td>
                </tr>
              ))}
            </tbody>
          </>
        )}
      </table>
      {sensors.length === 0 && <p>No sensor has both its curve and its input entered, so none can be told.</p>}
    </>
  )
}
