/** The form of one calculation. It answers as soon as every input is there. */
import { useId, useMemo, useState } from 'react'
import {
  type Calculation,
  citation,
  readInputs,
  type Show,
  type UncertainValues,
  type Working,
  working,
} from '../../engineering/calculation.ts'
import { EXAMPLES, KINDS } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { rememberTyped, showPreferred } from '../parts/units.ts'

const show: Show = showPreferred

interface Answer {
  readonly shown?: Working
  readonly problems: readonly Problem[]
}
const answerTo = (calc: Calculation, typed: Readonly<Record<string, string>>): Answer => {
  const given = Object.fromEntries(Object.entries(typed).filter(([, text]) => text.trim() !== ''))
  try {
    const read = readInputs(calc, given)
    if (Object.keys(given).length < Object.keys(calc.inputs).length) return { problems: [] }
    return { shown: working(calc, read as UncertainValues<typeof calc.inputs>, show), problems: [] }
  } catch (error) {
    if (error instanceof Refusal) return { problems: error.problems }
    throw error
  }
}

/** The inputs of the first published check, so that the printed figure can be seen to come out. */
const printedInputs = (calc: Calculation): Record<string, string> | undefined => {
  const check = calc.checks[0]
  if (check === undefined) return undefined
  return Object.fromEntries(
    Object.entries(calc.inputs).map(([name, input]) => {
      const value = check.inputs[name]
      return [
        name,
        input.type === 'choice'
          ? String(value)
          : `${typeof value === 'number' ? Number(value.toPrecision(7)) : value} ${KINDS[input.kind].si === '1' ? '' : KINDS[input.kind].si}${input.kind === 'pressureAbsolute' ? ' abs' : ''}`.trim(),
      ]
    }),
  )
}

export function CalculationForm({ calc }: { calc: Calculation }) {
  const [typed, setTyped] = useState<Record<string, string>>({})
  const { shown, problems } = useMemo(() => answerTo(calc, typed), [calc, typed])
  const printed = printedInputs(calc)
  const prefix = useId()
  const set = (name: string, text: string): void => setTyped((before) => ({ ...before, [name]: text }))
  return (
    <section>
      <h2>{calc.title}</h2>
      <form onSubmit={(event) => event.preventDefault()}>
        {Object.entries(calc.inputs).map(([name, input]) => {
          const id = `${prefix}${name}`
          const wrong = problems.some((problem) => problem.path === name)
          return (
            <div key={name} className="field">
              <label htmlFor={id}>
                {input.about} <i>{input.symbol}</i>
              </label>
              {input.type === 'choice' ? (
                <select id={id} value={typed[name] ?? ''} onChange={(event) => set(name, event.target.value)}>
                  <option value="">not chosen</option>
                  {input.options.map((option) => (
                    <option key={option}>{option}</option>
                  ))}
                </select>
              ) : (
                <>
                  <input
                    id={id}
                    value={typed[name] ?? ''}
                    aria-invalid={wrong}
                    aria-describedby={`${id}-hint`}
                    autoComplete="off"
                    onChange={(event) => {
                      rememberTyped(input.kind, event.target.value)
                      set(name, event.target.value)
                    }}
                  />
                  <span id={`${id}-hint`} className="soft small">
                    {show(input.kind, input.min)} to {show(input.kind, input.max)}
                    {input.whole ? ', a whole number' : `; such as ${EXAMPLES[input.kind][0]}, with ± if you know it`}
                  </span>
                </>
              )}
            </div>
          )
        })}
        {printed && (
          <button type="button" onClick={() => setTyped(printed)}>
            Put in the figures of its check
          </button>
        )}
      </form>
      <Problems list={problems} />
      <div aria-live="polite">
        {shown && (
          <>
            <h3>Result</h3>
            {shown.results.map((line) => (
              <p key={line} className="result">
                {line}
              </p>
            ))}
            {shown.warnings.map((line) => (
              <p key={line}>{line}</p>
            ))}
            <h3>Working</h3>
            <pre className="working">{`${shown.formula}\n${shown.withNumbers}`}</pre>
          </>
        )}
      </div>
      {calc.cautions.length > 0 && (
        <>
          <h3>Take care</h3>
          <ul>
            {calc.cautions.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      )}
      <h3>Where it holds</h3>
      <ul>
        {calc.limits.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <h3>Sources</h3>
      <ul>
        {calc.sources.map((source) => (
          <li key={citation(source)}>{citation(source)}</li>
        ))}
      </ul>
    </section>
  )
}
