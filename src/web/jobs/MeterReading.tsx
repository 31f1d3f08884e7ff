/** A reading taken during a job: what was measured, and the figure with its unit. */
import { useState } from 'react'
import type { Build, Job } from '../../model/build.ts'
import { nextId } from '../../model/newId.ts'
import type { Kind } from '../../units/index.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { readMeasure } from '../parts/quantityText.ts'
import { write } from './edits.ts'
import { Wrong } from './Fields.tsx'

const METERS = [
  ['voltage', 'Voltmeter', '12.6 V'],
  ['resistance', 'Ohmmeter', '0.3 Ω'],
  ['current', 'Ammeter', '1.2 A'],
  ['pressureGauge', 'Pressure gauge', '3 bar'],
  ['temperature', 'Thermometer', '80 °C'],
  ['torque', 'Torque wrench', '25 N·m'],
] as const satisfies readonly (readonly [Kind, string, string])[]

export function MeterReading({ build, job }: { build: Build; job: Job }) {
  const [kind, setKind] = useState<(typeof METERS)[number][0]>('voltage')
  const [where, setWhere] = useState('')
  const [text, setText] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const meter = METERS.find(([name]) => name === kind)!
  const taken = Object.values(build.collections.readings).filter(({ remark }) => remark === `Job ${job.id}`)
  const keep = (): void => {
    let found: readonly Problem[] = []
    try {
      const read = readMeasure(kind, text)
      if (read === undefined)
        throw refuse('no-reading', 'No figure was typed.', `Type it with its unit, such as ${meter[2]}.`)
      const id = nextId(build.collections.readings, 'M')
      found = write(build, `Reading ${id}: ${where || job.title}`, () => [
        {
          collection: 'readings',
          id,
          value: {
            id,
            subject: where || job.title,
            quantity: kind,
            ...read,
            instrument: meter[1],
            when: new Date().toISOString(),
            remark: `Job ${job.id}`,
          },
        },
      ])
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      found = error.problems
    }
    setProblems(found)
    if (found.length === 0) setText('')
  }
  return (
    <form
      className="meter"
      onSubmit={(event) => {
        event.preventDefault()
        keep()
      }}
    >
      <div className="row">
        <select aria-label="Instrument" value={kind} onChange={(event) => setKind(event.target.value as typeof kind)}>
          {METERS.map(([value, name]) => (
            <option key={value} value={value}>
              {name}
            </option>
          ))}
        </select>
        <input
          aria-label="What was measured"
          value={where}
          maxLength={160}
          placeholder="what, where"
          autoComplete="off"
          onChange={(event) => setWhere(event.target.value)}
        />
        <input
          aria-label="Reading with its unit"
          value={text}
          placeholder={meter[2]}
          autoComplete="off"
          onChange={(event) => setText(event.target.value)}
        />
        <button type="submit" disabled={text.trim() === ''}>
          Keep the reading
        </button>
      </div>
      <Wrong list={problems} />
      {taken.length > 0 && (
        <p className="small soft" role="status">
          {taken.length === 1 ? 'One reading' : `${taken.length} readings`} kept for this job.
        </p>
      )}
    </form>
  )
}
