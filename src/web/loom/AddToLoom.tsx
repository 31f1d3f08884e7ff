/** A branch point, and a run between two of them, added to the loom. */
import { type FormEvent, useState } from 'react'
import type { Build } from '../../model/build.ts'
import type { Problem } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { addPoint, addRun } from './edits.ts'

const field = (typed: FormData, name: string): string => String(typed.get(name) ?? '').trim()

export function AddToLoom({ build }: { readonly build: Build }) {
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const zones = Object.values(build.collections.zones)
  const points = Object.values(build.collections.branchPoints)
  const send = (event: FormEvent<HTMLFormElement>, add: (typed: FormData) => readonly Problem[]): void => {
    event.preventDefault()
    const form = event.currentTarget
    const found = add(new FormData(form))
    setProblems(found)
    if (found.length === 0) form.reset()
  }
  if (zones.length === 0) return <p>Enter the zones of the car first: a branch point lies in one of them.</p>
  return (
    <section aria-labelledby="add-loom">
      <h2 id="add-loom">Add to the loom</h2>
      <Problems list={problems} />
      <form
        className="add-loom"
        onSubmit={(event) =>
          send(event, (typed) =>
            addPoint(build, {
              name: field(typed, 'name'),
              zone: field(typed, 'zone'),
              x: field(typed, 'x'),
              y: field(typed, 'y'),
            }),
          )
        }
      >
        <label>
          New branch point
          <input name="name" required maxLength={120} placeholder="its name" />
        </label>
        <label>
          Zone
          <select name="zone">
            {zones.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <label>
          Aft of the nose
          <input name="x" placeholder="1.2 m" />
        </label>
        <label>
          Right of the middle
          <input name="y" placeholder="−0.4 m" />
        </label>
        <button type="submit">Add the point</button>
      </form>
      {points.length > 1 && (
        <form
          className="add-loom"
          onSubmit={(event) =>
            send(event, (typed) =>
              addRun(build, {
                from: field(typed, 'from'),
                to: field(typed, 'to'),
                length: field(typed, 'length'),
                sleeve: field(typed, 'sleeve'),
              }),
            )
          }
        >
          {(['from', 'to'] as const).map((end) => (
            <label key={end}>
              {end === 'from' ? 'New run from' : 'to'}
              <select name={end} defaultValue={points[end === 'from' ? 0 : 1]!.id}>
                {points.map(({ id, name }) => (
                  <option key={id} value={id}>
                    {name}
                  </option>
                ))}
              </select>
            </label>
          ))}
          <label>
            Length
            <input name="length" placeholder="0.65 m" />
          </label>
          <label>
            Sleeve
            <input name="sleeve" placeholder="split conduit" />
          </label>
          <button type="submit">Add the run</button>
        </form>
      )}
    </section>
  )
}
