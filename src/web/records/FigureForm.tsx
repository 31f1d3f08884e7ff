/** The figures that one ask wants: typed with their ±, or taken from a reading that is in the build already. */
import { useId, useState } from 'react'
import { referTo, takeFigure } from '../../assess/commissioning/commissioning.ts'
import { figureText, readingFor } from '../../assess/commissioning/evidence.ts'
import type { Ask, FigureField, GateStanding } from '../../assess/commissioning/types.ts'
import type { Build } from '../../model/build.ts'
import type { Kind, Of } from '../../units/kinds.ts'
import { parseQuantity } from '../../units/parse.ts'
import { type Problem, refuse } from '../../units/problem.ts'
import { dayText } from '../jobs/today.ts'
import { Problems } from '../parts/Problems.tsx'
import { keep } from './keep.ts'
import { saidNow } from './who.ts'

interface Props {
  readonly build: Build
  readonly standing: GateStanding
  readonly ask: Ask
  readonly fields: readonly FigureField[]
}

export function FigureForm({ build, standing, ask, fields }: Props) {
  return fields.map((field) => <OneFigure key={field.id} {...{ build, standing, ask, field }} />)
}

interface One extends Omit<Props, 'fields'> {
  readonly field: FigureField
}

function OneFigure({ build, standing, ask, field }: One) {
  const id = useId()
  const [text, setText] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const there = readingFor(build, ask.id, field.id)
  const others = Object.values(build.collections.readings)
    .filter(({ quantity, id: other, test }) => quantity === field.kind && other !== there?.id && test === undefined)
    .slice(-8)
  const take = (): void => {
    const wrong = keep(() => {
      if (text.trim() === '')
        throw refuse('no-reading', 'No figure was typed.', `Type it in ${field.unit}, with its ± where you know it.`)
      const { value, plusMinus } = parseQuantity(field.kind as Kind, text, { unit: field.unit })
      return takeFigure(build, standing, ask, field, value as Of<Kind>, plusMinus, saidNow())
    })
    setProblems(wrong)
    if (wrong.length === 0) setText('')
  }
  return (
    <form
      className="figure-form no-print"
      onSubmit={(event) => {
        event.preventDefault()
        take()
      }}
    >
      <label htmlFor={id}>{field.says}</label>
      <div className="row the-figure">
        <input
          id={id}
          inputMode="decimal"
          autoComplete="off"
          placeholder={there ? figureText(there, field.unit) : ''}
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
        <span className="unit">{field.unit}</span>
        <button type="submit">{there ? 'Keep anew' : 'Keep'}</button>
      </div>
      {others.length > 0 && (
        <details className="small">
          <summary>or one that was read already</summary>
          <ul className="plain">
            {others.map((reading) => (
              <li key={reading.id}>
                <button
                  type="button"
                  className="quiet"
                  onClick={() => setProblems(keep(() => referTo(build, standing, ask, field, reading.id, saidNow())))}
                >
                  {figureText(reading, field.unit)}, {reading.subject.replace(/-/g, ' ')}
                  {reading.when ? `, ${dayText(reading.when.slice(0, 10))}` : ''}
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
      <Problems list={problems} />
    </form>
  )
}
