/** Something measured: kept with its unit and ±, so that a figure can rest on it. */
import { type FormEvent, useState } from 'react'
import { useLocation } from 'wouter'
import { nextId } from '../../model/newId.ts'
import { EXAMPLES, KINDS, type Kind } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { readMeasure } from '../parts/quantityText.ts'
import { bench } from '../workbench/bench.ts'

const MEASURED: readonly Kind[] = [
  'voltage',
  'current',
  'resistance',
  'temperature',
  'pressureGauge',
  'ratio',
  'length',
  'volumeFlow',
]

export function FirstReading() {
  const [, go] = useLocation()
  const [kind, setKind] = useState<Kind>('voltage')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const keep = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault()
    const typed = new FormData(event.currentTarget)
    const text = (name: string): string => String(typed.get(name) ?? '').trim()
    try {
      const measure = readMeasure(kind, text('value'))
      if (measure === undefined) return
      const id = nextId(bench.read().build?.collections.readings ?? {}, 'M')
      const kept = bench.edit({
        label: `Reading: ${text('subject')}`,
        changes: [
          {
            collection: 'readings',
            id,
            value: {
              id,
              subject: text('subject'),
              quantity: kind,
              ...measure,
              when: new Date().toISOString(),
            },
          },
        ],
      })
      if (kept) go('/findings')
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <form onSubmit={keep}>
      <Problems list={problems} />
      <label className="field">
        What was measured
        <input name="subject" required maxLength={120} />
      </label>
      <label className="field">
        Kind
        <select value={kind} onChange={(event) => setKind(event.target.value as Kind)}>
          {MEASURED.map((one) => (
            <option key={one} value={one}>
              {KINDS[one].title}
            </option>
          ))}
        </select>
      </label>
      <label className="field">
        Reading <span className="soft small">such as {EXAMPLES[kind].join(' or ')}; ± if you know it</span>
        <input name="value" required />
      </label>
      <button type="submit" className="first">
        Keep it
      </button>
    </form>
  )
}
