/** The reading at the chosen moment along the chain, station by station; and notes pinned to it. */
import { lazy, Suspense, useEffect, useState } from 'react'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { ask } from '../workbench/api.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { type MomentReading, valueText } from './momentPlaces.ts'
import type { Log } from './strips.ts'
import { placeOf } from './systems.ts'

const Unfetched: typeof import('./MomentChains.tsx').MomentChains = () => (
  <p className="small soft">The drawings could not be fetched; the readings stand above.</p>
)
const MomentChains = lazy(async () => ({
  default: await import('./MomentChains.tsx').then(
    (found) => found.MomentChains,
    () => Unfetched,
  ),
}))

interface At {
  readonly t: number
  readonly readings: readonly MomentReading[]
}

export const notePlace = (log: string, t: number): string => `logs/${log}@${Number(t.toFixed(3))}`

export function Moment({ log, t, onMoment }: { log: Log; t: number | undefined; onMoment: (t: number) => void }) {
  const { build } = useBench()
  const [found, setFound] = useState<At>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [text, setText] = useState('')
  useEffect(() => {
    if (t === undefined) return setFound(undefined)
    let wanted = true
    ask<At>(`/api/logs/${encodeURIComponent(log.id)}/at?t=${t}`)
      .then((answer) => {
        if (!wanted) return
        setFound(answer)
        setProblems([])
      })
      .catch((error: unknown) => {
        if (!(error instanceof Refusal)) throw error
        if (wanted) setProblems(error.problems)
      })
    return () => {
      wanted = false
    }
  }, [log.id, t])
  const notes = Object.values(build?.collections.notes ?? {})
    .flatMap((note) => {
      const at = note.about?.startsWith(`logs/${log.id}@`) ? Number(note.about.split('@').at(-1)) : Number.NaN
      return Number.isFinite(at) ? [{ ...note, at }] : []
    })
    .sort((a, b) => a.at - b.at)
  const pin = (): void => {
    if (t === undefined || text.trim() === '') return
    let number = 1
    while (`note-${number}` in (build?.collections.notes ?? {})) number += 1
    const id = `note-${number}`
    const kept = bench.edit({
      label: `Note at ${t.toFixed(1)} s of ${log.name}`.slice(0, 200),
      changes: [
        {
          collection: 'notes',
          id,
          value: { id, text: text.trim(), about: notePlace(log.id, t), when: new Date().toISOString() },
        },
      ],
    })
    if (kept) setText('')
  }
  const stations = [...(found?.readings ?? [])].sort((a, b) => {
    const [[s1, p1], [s2, p2]] = [placeOf(log, a.channel), placeOf(log, b.channel)]
    return s1 - s2 || p1 - p2
  })
  return (
    <section aria-label="The chosen moment">
      <Problems list={problems} />
      {t === undefined ? (
        <p className="soft">Click a strip to read every channel at that moment, and to pin a note to it.</p>
      ) : (
        <>
          <h3>At {t.toFixed(2)} s</h3>
          <ol className="moment">
            {stations.map((reading) => (
              <li key={reading.channel}>
                <span className="soft small">{reading.channel}</span>
                <span className="reading">{valueText(reading)}</span>
                {reading.t !== null && t - reading.t > 1 && (
                  <span className="soft small">{(t - reading.t).toFixed(1)} s old</span>
                )}
              </li>
            ))}
          </ol>
          {build && found && (
            <Suspense>
              <MomentChains build={build} readings={found.readings} />
            </Suspense>
          )}
          <div className="row pin">
            <label>
              Note at this moment
              <input value={text} onChange={(event) => setText(event.target.value)} />
            </label>
            <button type="button" disabled={text.trim() === ''} onClick={pin}>
              Pin the note
            </button>
          </div>
        </>
      )}
      {notes.length > 0 && (
        <ul>
          {notes.map(({ id, at, text: words }) => (
            <li key={id}>
              <button type="button" onClick={() => onMoment(at)}>
                {at.toFixed(1)} s
              </button>{' '}
              {words}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
