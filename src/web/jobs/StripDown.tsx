/** The plan down the page: one step a line, the accesses that are open as rails beside it. Also the strip in words. */
import { Link } from 'wouter'
import type { Plan } from '../../plan/plan.ts'
import type { PlanStep } from '../../plan/steps.ts'
import { hoursText } from '../../plan/workTime.ts'
import type { Reached } from './ask.ts'
import { dayText } from './today.ts'

const RAIL = 11

interface Row {
  readonly key: string
  readonly step: PlanStep
  /** Depths with an access open beside this line. */
  readonly rails: readonly number[]
  readonly ends: readonly Reached[]
}

/** Which depths are open beside each step; what the plan opens and closes lies on its own bracket's depth. */
const rowsOf = ({ steps, brackets }: Plan, reached: readonly Reached[]): readonly Row[] => {
  let job = -1
  const now = new Map<string, number>()
  for (const { id, already, depth } of brackets) if (already) now.set(id, depth)
  return steps.map((step, index) => {
    if (step.kind === 'job') job++
    if (step.kind === 'open')
      now.set(step.id, brackets.find(({ id, from }) => id === step.id && from === job + 1)?.depth ?? 0)
    const rails = [...now.values()]
    if (step.kind === 'close') now.delete(step.id)
    return {
      key: `${index} ${step.kind}`,
      step,
      rails,
      ends: step.kind === 'job' ? reached.filter(({ after }) => after === job) : [],
    }
  })
}

export function StripDown({ plan, reached }: { plan: Plan; reached: readonly Reached[] }) {
  const deepest = Math.max(0, ...plan.brackets.map(({ depth }) => depth + 1))
  const standing = plan.brackets.filter(({ already }) => already)
  return (
    <>
      {standing.length > 0 && (
        <p className="small soft">Apart already: {standing.map(({ name }) => name).join(', ')}.</p>
      )}
      <ol className="plain strip-down">
        {rowsOf(plan, reached).map(({ key, step, rails, ends }) => (
          <li key={key}>
            <div className={`step ${step.kind}`} style={{ paddingLeft: deepest * RAIL + 8 }}>
              {rails.map((depth) => (
                <span key={depth} className="rail" style={{ left: depth * RAIL }} />
              ))}
              <StepWords step={step} />
            </div>
            {ends.map(({ id, name, dates }) => (
              <p key={id} className="reached">
                <strong>{name}</strong>
                {dates === undefined
                  ? ': no date, hours a week unknown'
                  : `: 8 in 10 by ${dayText(dates.in80)}, even odds by ${dayText(dates.in50)}`}
              </p>
            ))}
          </li>
        ))}
      </ol>
    </>
  )
}

function StepWords({ step }: { step: PlanStep }) {
  if (step.kind === 'wait')
    return (
      <>
        Wait for{' '}
        {step.parts
          .map(({ name, due }) => `${name} (${due === undefined ? 'nobody knows when' : `due ${dayText(due)}`})`)
          .join('; ')}
      </>
    )
  const time = `${hoursText(step.time)}${step.known ? '' : ', stands in'}`
  if (step.kind === 'job')
    return (
      <>
        <Link to={`/jobs/of/${encodeURIComponent(step.id)}`}>{step.title}</Link>{' '}
        <span className="soft small">{time}</span>
      </>
    )
  return (
    <>
      {step.kind === 'open' ? 'Open' : 'Close'}: {step.name} <span>{time}</span>
    </>
  )
}
