/** Slope and dead time from rows of pulse and caught mass, with their interval. */
import { useId, useMemo, useState } from 'react'
import { type BenchPoint, type BenchPulses, benchPulses } from '../../engineering/fuel/benchPulses.ts'
import { benchStaticFlow } from '../../engineering/fuel/benchStaticFlow.ts'
import { parseQuantity } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { showPreferred } from '../parts/units.ts'
import { CardFromBench } from './CardFromBench.tsx'

/** A row is a pulse and a mass with their units, apart by a semicolon or a tab. */
const readRows = (text: string): readonly BenchPoint[] => {
  const problems: Problem[] = []
  const points = text.split('\n').flatMap((line, index) => {
    if (line.trim() === '') return []
    const [pulse, mass, ...rest] = line.split(/[;\t]/)
    try {
      if (pulse === undefined || mass === undefined || rest.length > 0)
        throw new Refusal([
          {
            code: 'bad-row',
            says: `Row ${index + 1} is not a pulse and a mass.`,
            todo: 'Write rows such as 3 ms; 6.2 mg.',
          },
        ])
      return [{ pulse: parseQuantity('time', pulse).value, mass: parseQuantity('mass', mass).value }]
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems.push(...error.problems.map((problem) => ({ ...problem, line: index + 1 })))
      return []
    }
  })
  if (problems.length > 0) throw new Refusal(problems)
  return points
}

export function BenchTest() {
  const [text, setText] = useState('')
  const id = useId()
  const found = useMemo((): { readonly fit?: BenchPulses; readonly problems: readonly Problem[] } => {
    if (text.trim() === '') return { problems: [] }
    try {
      return { fit: benchPulses(readRows(text)), problems: [] }
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      return { problems: error.problems }
    }
  }, [text])
  return (
    <details className="bench-test">
      <summary>Slope and dead time from a bench test</summary>
      <ul className="small">
        {benchStaticFlow.cautions.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <label htmlFor={id}>One row a pulse width: pulse; mass caught per pulse</label>
      <textarea
        id={id}
        rows={6}
        placeholder={'3 ms; 6.2 mg\n5 ms; 12.3 mg'}
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      <Problems list={found.problems} />
      <div aria-live="polite">
        {found.fit && (
          <p>
            Slope <b>{showPreferred('massFlow', found.fit.slope.value, found.fit.slope.plusMinus)}</b>, dead time{' '}
            <b>{showPreferred('time', found.fit.deadTime.value, found.fit.deadTime.plusMinus)}</b> at that voltage and
            pressure, in that fluid, from {found.fit.used} rows.{' '}
            {found.fit.bendBelow !== undefined &&
              `Shorter than ${showPreferred('time', found.fit.bendBelow)} it leaves the straight line by more than 5 %.`}
          </p>
        )}
      </div>
      {found.fit && <CardFromBench fit={found.fit} />}
    </details>
  )
}
