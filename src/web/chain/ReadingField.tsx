/** What a meter or gauge said, kept as a reading that stands in place of the reckoned figure. */
import { useId, useState } from 'react'
import { nextId } from '../../model/newId.ts'
import type { Kind } from '../../units/kinds.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { readMeasure } from '../parts/quantityText.ts'
import { bench } from '../workbench/bench.ts'
import './reading.css'

export interface Readable {
  readonly subject: string
  readonly kind: Kind
}

export function ReadingField({ subject, kind, name }: Readable & { readonly name: string }) {
  const [text, setText] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const id = useId()
  const keep = (): void => {
    try {
      const read = readMeasure(kind, text)
      if (read === undefined) return
      const reading = nextId(bench.read().build?.collections.readings ?? {}, 'M')
      const value = {
        id: reading,
        subject,
        quantity: kind,
        value: read.value,
        ...(read.plusMinus === undefined ? {} : { plusMinus: read.plusMinus }),
        when: new Date().toISOString(),
      }
      setProblems([])
      if (
        bench.edit({ label: `Reading ${reading}: ${name}`, changes: [{ collection: 'readings', id: reading, value }] })
      )
        setText('')
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <form
      className="reading"
      onSubmit={(event) => {
        event.preventDefault()
        keep()
      }}
    >
      <label htmlFor={id}>Measured, with its ±: {name}</label>
      <div className="row">
        <input id={id} value={text} autoComplete="off" onChange={(event) => setText(event.target.value)} />
        <button type="submit" disabled={text.trim() === ''}>
          Keep as a reading
        </button>
      </div>
      <Problems list={problems} />
    </form>
  )
}
