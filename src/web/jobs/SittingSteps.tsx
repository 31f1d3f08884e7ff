/** The steps of a sitting to be read, not yet ticked; and what to have at hand. */
import type { Sitting as Answer } from '../../plan/sitting.ts'
import type { PlanStep } from '../../plan/steps.ts'
import { hoursText } from '../../plan/workTime.ts'

export const stepName = (step: PlanStep): string => {
  if (step.kind === 'wait') return `Wait for ${step.parts.map(({ name }) => name).join(', ')}`
  if (step.kind === 'job') return step.title
  return `${step.kind === 'open' ? 'Open' : 'Close'}: ${step.name}`
}

export const stepTime = (step: PlanStep): string => {
  if (step.kind === 'wait') return ''
  const time = hoursText(step.kind === 'job' ? step.mostly : step.time)
  return step.known ? time : `${time}, stands in`
}

export function SittingSteps({ steps }: { steps: readonly PlanStep[] }) {
  return (
    <ol className="plain sitting-steps">
      {steps.map((step, at) => (
        // The same access may open and close twice: a step has no name but its place.
        // biome-ignore lint/suspicious/noArrayIndexKey: see above.
        <li key={at} className={step.kind}>
          <span>{stepName(step)}</span>
          <span className="soft">{stepTime(step)}</span>
        </li>
      ))}
    </ol>
  )
}

export function Ready({ answer }: { answer: Answer }) {
  const { ready } = answer
  const have = [
    ...ready.parts,
    ...ready.tools,
    ...(ready.person ? ['another person'] : []),
    ...(ready.dry ? ['dry weather'] : []),
    ...(ready.daylight ? ['daylight'] : []),
  ]
  return (
    <>
      {have.length > 0 && (
        <>
          <h2>Have ready</h2>
          <ul>
            {have.map((thing) => (
              <li key={thing}>{thing}</li>
            ))}
          </ul>
        </>
      )}
      {ready.cautions.length > 0 && (
        <>
          <h2>Before any of this work</h2>
          <ul>
            {ready.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </>
      )}
      {answer.left.length > 0 && <p className="soft">Stays open: {answer.left.map(({ name }) => name).join(', ')}.</p>}
    </>
  )
}
