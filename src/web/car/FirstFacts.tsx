/** Nothing yet: the few facts anyone knows about their project, and what they leave open is the first finding. */
import { type FormEvent, useState } from 'react'
import { useLocation } from 'wouter'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { readMeasure } from '../parts/quantityText.ts'
import { bench } from '../workbench/bench.ts'

export function FirstFacts() {
  const [, go] = useLocation()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const keep = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault()
    const typed = new FormData(event.currentTarget)
    const text = (name: string): string => String(typed.get(name) ?? '').trim()
    try {
      const targetPower = readMeasure('power', text('power'))
      const kept = bench.edit({
        label: 'First facts',
        changes: [
          { name: text('car') },
          { sheet: 'vehicle', value: { name: text('car'), category: 'car' } },
          { sheet: 'engine', value: { name: text('engine'), ...(targetPower ? { targetPower } : {}) } },
          {
            sheet: 'fuel',
            value: {
              ...(text('fuel') === '' ? {} : { fuel: text('fuel') }),
              injectors: { devices: [], count: Number(text('injectors')) },
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
        The car
        <input name="car" required maxLength={160} />
      </label>
      <label className="field">
        The engine that goes in
        <input name="engine" required maxLength={160} />
      </label>
      <label className="field">
        Power you hope for, with its unit; leave it open if you do not know
        <input name="power" />
      </label>
      <label className="field">
        How many injectors it has
        <input name="injectors" required inputMode="numeric" pattern="[1-9][0-9]?" />
      </label>
      <label className="field">
        Fuel
        <select name="fuel" defaultValue="">
          <option value="">not settled</option>
          {['E0', 'E5', 'E10', 'E85', 'methanol'].map((fuel) => (
            <option key={fuel}>{fuel}</option>
          ))}
        </select>
      </label>
      <button type="submit" className="first">
        Keep, and see what is open
      </button>
    </form>
  )
}
