/** The fit of a bench test kept as an injector card: what the rows do not say is asked for here. */
import { useId, useState } from 'react'
import type { BenchPulses } from '../../engineering/fuel/benchPulses.ts'
import { INJECTOR_CARD_FORMAT } from '../../model/injectorCard.ts'
import { readInjectorCard } from '../../model/readInjectorCard.ts'
import { type Kind, parseQuantity } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { bench } from '../workbench/bench.ts'

const ASKED = [
  ['name', 'Name of these injectors', 'Four from the bench', undefined],
  ['fluid', 'Test fluid, never petrol', 'n-heptane', undefined],
  ['density', 'Its density at the test', '684 kg/m³', 'density'],
  ['pressure', 'Pressure across the injector', '3 bar', 'pressureDifference'],
  ['volts', 'Voltage at the injector', '13.5 V', 'voltage'],
] as const satisfies readonly (readonly [string, string, string, Kind | undefined])[]
type Asked = (typeof ASKED)[number][0]

/** Throws `Refusal`, all problems told at once. */
const cardOf = (fit: BenchPulses, typed: Partial<Record<Asked, string>>) => {
  const problems: Problem[] = []
  const text = (key: Asked, label: string): string => {
    const found = typed[key]?.trim() ?? ''
    if (found === '') problems.push({ code: 'missing', says: `${label} is empty.`, todo: 'Enter it; a card needs it.' })
    return found
  }
  const quantity = (key: Asked, label: string, kind: Kind): number => {
    const found = text(key, label)
    if (found === '') return Number.NaN
    try {
      return parseQuantity(kind, found).value
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems.push(...error.problems.map((problem) => ({ ...problem, says: `${label}: ${problem.says}` })))
      return Number.NaN
    }
  }
  const read = Object.fromEntries(
    ASKED.map(([key, label, , kind]) => [key, kind ? quantity(key, label, kind) : text(key, label)]),
  ) as { readonly [K in Asked]: K extends 'name' | 'fluid' ? string : number }
  if (problems.length > 0) throw new Refusal(problems)
  return readInjectorCard(
    JSON.stringify({
      format: INJECTOR_CARD_FORMAT,
      name: read.name,
      fluid: { name: read.fluid, density: { value: read.density } },
      pressure: { value: read.pressure },
      slope: fit.slope,
      deadTime: [[{ value: read.volts }, fit.deadTime]],
      ...(fit.bendBelow === undefined ? {} : { shortPulse: { below: { value: fit.bendBelow } } }),
      coverage: 0.95,
      method: 'bench test',
      provenance: {
        from: 'own bench',
        when: new Date().toISOString().slice(0, 10),
        remark: `straight line through ${fit.used} pulse widths`,
      },
    }),
  )
}

export function CardFromBench({ fit }: { fit: BenchPulses }) {
  const [typed, setTyped] = useState<Partial<Record<Asked, string>>>({})
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const id = useId()
  const keep = (): void => {
    const fuel = bench.read().build?.sheets.fuel
    if (!fuel?.injectors) {
      setProblems([
        {
          code: 'no-injectors',
          says: 'No injectors are entered on the fuel sheet.',
          todo: 'Enter them first; a card belongs to them.',
        },
      ])
      return
    }
    try {
      const card = cardOf(fit, typed)
      setProblems([])
      bench.edit({
        label: `Injector card ${card.name}, from the bench`,
        changes: [{ sheet: 'fuel', value: { ...fuel, injectors: { ...fuel.injectors, card } } }],
      })
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <form
      className="card-from-bench"
      onSubmit={(event) => {
        event.preventDefault()
        keep()
      }}
    >
      {ASKED.map(([key, label, example]) => (
        <div className="try" key={key}>
          <label htmlFor={`${id}-${key}`}>{label}</label>
          <input
            id={`${id}-${key}`}
            value={typed[key] ?? ''}
            placeholder={example}
            autoComplete="off"
            onChange={(event) => setTyped((before) => ({ ...before, [key]: event.target.value }))}
          />
        </div>
      ))}
      <button type="submit">Keep as the injector card</button>
      <Problems list={problems} />
    </form>
  )
}
