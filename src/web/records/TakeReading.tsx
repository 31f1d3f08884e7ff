/** One figure of a named thing, kept as a reading with day and name. */
import { useId, useState } from 'react'
import type { Entity } from '../../model/build.ts'
import { nextId } from '../../model/newId.ts'
import type { Kind, Of } from '../../units/kinds.ts'
import { parseQuantity } from '../../units/parse.ts'
import { type Problem, refuse } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { bench } from '../workbench/bench.ts'
import { keep } from './keep.ts'
import { saidNow } from './who.ts'

interface Props {
  readonly subject: string
  readonly title: string
  readonly kind: Kind
  readonly unit: string
}

export function TakeReading({ subject, title, kind, unit }: Props) {
  const id = useId()
  const [text, setText] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const take = (): void => {
    const wrong = keep(() => {
      if (text.trim() === '') throw refuse('no-reading', 'No figure was typed.', `Type it in ${unit}.`)
      const { value, plusMinus } = parseQuantity(kind, text, { unit })
      const { by, when } = saidNow()
      const reading: Entity<'readings'> = {
        id: nextId(bench.read().build?.collections.readings ?? {}, 'M'),
        subject,
        quantity: kind,
        value: value as Of<Kind>,
        ...(plusMinus === undefined ? {} : { plusMinus }),
        when,
        ...(by.trim() === '' ? {} : { by: by.trim() }),
      }
      return { label: `Reading: ${title}`, changes: [{ collection: 'readings', id: reading.id, value: reading }] }
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
      <label htmlFor={id}>{title}, today</label>
      <div className="row the-figure">
        <input
          id={id}
          inputMode="decimal"
          autoComplete="off"
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
        <span className="unit">{unit}</span>
        <button type="submit">
          Keep<span className="out-of-sight">: {title}</span>
        </button>
      </div>
      <Problems list={problems} />
    </form>
  )
}
