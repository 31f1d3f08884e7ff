/** Says that what is shown was tried and is not stored, with the way back and the way to keep it. */
import { type FormEvent, useState } from 'react'
import type { Build, OperatingCase } from '../../../model/build.ts'
import type { Problem } from '../../../units/problem.ts'
import { Problems } from '../../parts/Problems.tsx'
import { write } from '../edits.ts'
import { caseFromTried, isTried, type WhatIf } from './live.ts'

interface Props {
  readonly build: Build
  readonly kase: OperatingCase
  readonly tried: WhatIf
  readonly back: () => void
  /** The id of the case that was made of it. */
  readonly kept: (id: string) => void
}

export function WhatIfNote({ build, kase, tried, back, kept }: Props) {
  const [isNaming, setNaming] = useState(false)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  if (!isTried(tried)) return null
  const { devices, outputs } = build.collections
  const words = [
    ...Object.entries(tried.switches).map(([id, position]) => `${devices[id]?.name ?? id} at “${position}”`),
    ...Object.entries(tried.outputs).map(
      ([id, duty]) =>
        `${outputs[id]?.name ?? id} ${duty === 0 ? 'off' : `on ${Number((duty * 100).toPrecision(4))} %`}`,
    ),
  ]
  const keep = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault()
    const name = String(new FormData(event.currentTarget).get('name')).trim()
    const changes = caseFromTried(build, kase, tried, name)
    const found = write(build, `Case “${name}” added`, () => changes)
    setProblems(found)
    if (found.length > 0) return
    setNaming(false)
    const [first] = changes
    if (first && 'collection' in first) kept(first.id)
  }
  return (
    <div className="what-if">
      <p role="status">
        <strong>What if: not stored.</strong> {kase.name}, but {words.join(', ')}.
      </p>
      <Problems list={problems} />
      {isNaming ? (
        <form onSubmit={keep}>
          <label>
            Name of the new case
            <input
              name="name"
              required
              maxLength={120}
              defaultValue={`${kase.name}, ${words[0] ?? 'changed'}`.slice(0, 120)}
            />
          </label>
          <button type="submit" className="first">
            Keep it
          </button>
          <button type="button" onClick={() => setNaming(false)}>
            Not now
          </button>
        </form>
      ) : (
        <p className="row">
          <button type="button" onClick={back}>
            Back to the case as stored
          </button>
          <button type="button" onClick={() => setNaming(true)}>
            Keep as a new case
          </button>
        </p>
      )}
    </div>
  )
}
