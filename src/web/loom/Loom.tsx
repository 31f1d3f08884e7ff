/** The loom: its runs laid flat to scale, what lies in the one that is chosen, its passages, and what can be printed. */
import { useMemo } from 'react'
import { useLocation } from 'wouter'
import { loomDrawing } from '../../book/loom/drawing.ts'
import { Empty } from '../parts/Empty.tsx'
import { useBench } from '../workbench/useBench.ts'
import { AddToLoom } from './AddToLoom.tsx'
import { LoomDrawing } from './LoomDrawing.tsx'
import { LoomSheet } from './LoomSheet.tsx'
import { Passages } from './Passages.tsx'
import { Printables } from './Printables.tsx'
import { LOOM_PLACE, runPlace } from './places.ts'
import { RunPanel } from './RunPanel.tsx'
import { Unrouted } from './Unrouted.tsx'
import './loom.css'

export function Loom({ chosen }: { readonly chosen?: string | undefined }) {
  const { build, assessment } = useBench()
  const [, go] = useLocation()
  const drawing = useMemo(() => build && loomDrawing(build), [build])
  if (!build || !drawing) return null
  const all = [...drawing.runs.map(({ lying }) => lying), ...drawing.missing.map(({ lying }) => lying)]
  const run = drawing.runs.find(({ lying }) => lying.run.id === chosen)
  const lost = drawing.missing.find(({ lying }) => lying.run.id === chosen)
  const findings = assessment?.findings ?? []
  const total = all.reduce((sum, { run: { length } }) => sum + (length?.value ?? 0), 0)
  const bare = all.filter(({ run: { length } }) => length === undefined).length
  const angle = Math.round((drawing.turned * 180) / Math.PI)
  return (
    <div className="loom">
      <h1>Loom</h1>
      {all.length === 0 ? (
        <Empty says="The loom has no run yet: a stretch of bundle between two branch points." />
      ) : (
        <>
          <p>
            {all.length} {all.length === 1 ? 'run' : 'runs'}, {total.toFixed(1)} m
            {bare > 0 && ` and ${bare} of unknown length`}. Laid flat as on a board, nose{' '}
            <span className="wide-only">to the left</span>
            <span className="narrow-only">up</span>, lengths and thicknesses to one scale
            {angle >= 1 && `; turned by up to ${angle}° so that its rings close`}. Dashed: length not known, or it does
            not close.
          </p>
          {drawing.runs.length > 0 && <LoomDrawing drawing={drawing} chosen={chosen} />}
          {drawing.missing.map(({ lying, lacks }) => (
            <p key={lying.run.id}>
              Run {lying.run.id}, {lying.fromName} to {lying.toName}, cannot be drawn: it lacks {lacks}.
            </p>
          ))}
          <div className="choose-run row">
            <label htmlFor="run">Run</label>
            <select
              id="run"
              value={run || lost ? chosen : ''}
              onChange={(event) => go(event.target.value === '' ? LOOM_PLACE : runPlace(event.target.value))}
            >
              <option value="">choose, here or on the drawing</option>
              {all.map(({ run: { id, name }, fromName, toName, wires }) => (
                <option key={id} value={id}>
                  {name === undefined ? id : `${id}, ${name}`}: {fromName} to {toName} ({wires.length})
                </option>
              ))}
            </select>
          </div>
          {run && <RunPanel build={build} lying={run.lying} dressed={run.dressed} findings={findings} runs={all} />}
          {lost && (
            <RunPanel
              build={build}
              lying={lost.lying}
              dressed={{ bundle: undefined, over: undefined, tubing: undefined, bend: undefined }}
              findings={findings}
              runs={all}
            />
          )}
        </>
      )}
      <Printables build={build} />
      <Unrouted build={build} />
      {all.length > 0 && <Passages build={build} runs={all} findings={findings} />}
      <LoomSheet build={build} />
      <AddToLoom build={build} />
    </div>
  )
}
