/** One number to type: a bare one is in the unit that stands beside the field. */
import { useId, useState } from 'react'
import type { Test } from '../../assess/faults/faults.ts'
import { UNIT } from '../../assess/faults/typed.ts'
import { type MeterReading, meterReading } from '../../assess/testSheets/meterText.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'

interface Props {
  readonly test: Test
  readonly label: string
  readonly take: (test: Test, reading: MeterReading) => void
}

export function OneNumber({ test, label, take }: Props) {
  const [text, setText] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const wrong = useId()
  const unit = UNIT[test.quantity]
  const keep = (): void => {
    try {
      const reading = meterReading(test.quantity, text)
      setText('')
      setProblems([])
      take(test, reading)
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
      {test.quantity === 'volts' && (
        <p className="soft small">
          Every digit that it shows, on the finest range that holds it: 0.340 tells more than 0.34.
        </p>
      )}
      <Problems list={problems} id={wrong} />
    </form>
  )
}
