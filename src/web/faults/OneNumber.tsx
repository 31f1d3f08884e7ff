/** One number to type: a bare one is in the unit that stands beside the field. */
import { useId, useState } from 'react'
import type { Test } from '../../assess/faults/faults.ts'
import type { Kind } from '../../units/index.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { readMeasure } from '../parts/quantityText.ts'

const KINDS = {
  volts: ['voltage', 'V'],
  ohms: ['resistance', 'Ω'],
  amps: ['current', 'A'],
} as const satisfies Record<Test['quantity'], readonly [Kind, string]>

interface Props {
  readonly test: Test
  readonly label: string
  readonly take: (test: Test, value: number) => void
}

export function OneNumber({ test, label, take }: Props) {
  const [text, setText] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const wrong = useId()
  const [kind, unit] = KINDS[test.quantity]
  const keep = (): void => {
    try {
      // A number alone is in the unit that stands beside the field.
      const read = readMeasure(kind, /^[-+−]?[\d.,]+$/.test(text.trim()) ? `${text.trim()} ${unit}` : text)
      if (read === undefined)
        throw refuse('no-reading', 'No number was typed.', `Type what the meter shows, in ${unit}.`)
      setText('')
      setProblems([])
      take(test, read.value)
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <form
      className="the-number"
      onSubmit={(event) => {
        event.preventDefault()
        keep()
      }}
    >
      <label>
        {label}
        <span className="row">
          <input
            inputMode="decimal"
            autoComplete="off"
            value={text}
            aria-describedby={problems.length > 0 ? wrong : undefined}
            onChange={(event) => setText(event.target.value)}
          />
          <span className="unit">{unit}</span>
          <button type="submit" className="first">
            Take it
          </button>
        </span>
      </label>
      <Problems list={problems} id={wrong} />
    </form>
  )
}
