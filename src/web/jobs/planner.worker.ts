/** Plans, sittings and forecasts beside the page, so that it never stands still. */
import { forecastOf } from '../../plan/forecast.ts'
import { type Plan, planTo } from '../../plan/plan.ts'
import { planSitting } from '../../plan/sitting.ts'
import { loadSolver } from '../../plan/solver.ts'
import { Refusal } from '../../units/problem.ts'
import type { Answers, Ask, FromWorker, Planned, Reached, ToWorker } from './ask.ts'

const scope = self as unknown as {
  postMessage(message: FromWorker): void
  onmessage: ((event: { readonly data: ToWorker }) => void) | null
}
const running = new Map<number, AbortController>()
let solver: ReturnType<typeof loadSolver> | undefined

/** The plan as far as the last job that a milestone asks for: what stands behind it does not hold its date. */
const reachedIn = (ask: Extract<Ask, { kind: 'plan' }>, plan: Plan): readonly Reached[] => {
  const { jobs, milestones } = ask.build.collections
  const last = new Map<string, { at: number; steps: number }>()
  let at = -1
  plan.steps.forEach((step, index) => {
    if (step.kind !== 'job') return
    at++
    const milestone = Object.hasOwn(jobs, step.id) ? jobs[step.id]?.milestone : undefined
    if (milestone !== undefined) last.set(milestone, { at, steps: index + 1 })
  })
  const inOrder = Object.values(milestones)
    .filter(({ id }) => last.has(id))
    .sort((a, b) => a.order - b.order)
  return inOrder.map(({ id, name }, index) => {
    // A milestone is reached with the last job of it and of those before it.
    const ends = inOrder.slice(0, index + 1).map((each) => last.get(each.id)!)
    const end = ends.reduce((later, each) => (each.at > later.at ? each : later))
    const { dates } = forecastOf(
      ask.build,
      // The last one has the car closed up behind it, as the plan's own date has.
      { ...plan, milestone: { id, name }, steps: end.at === at ? plan.steps : plan.steps.slice(0, end.steps) },
      { today: ask.options.today, ...(ask.said === undefined ? {} : { pace: ask.said }) },
    )
    return { id, name, after: end.at, ...(dates === undefined ? {} : { dates }) }
  })
}

const work = async (id: number, ask: Ask): Promise<Answers[keyof Answers]> => {
  if (ask.kind === 'forecast') return forecastOf(ask.build, ask.plan, ask.options)
  if (ask.kind === 'sitting') {
    solver ??= loadSolver(ask.solver)
    // A phone that lost its signal while fetching must be able to try again.
    solver.catch(() => {
      solver = undefined
    })
    return planSitting(ask.build, ask.options, await solver)
  }
  const stop = new AbortController()
  running.set(id, stop)
  const plan = await planTo(ask.build, {
    ...ask.options,
    signal: stop.signal,
    progress: (progress) => scope.postMessage({ id, progress }),
  })
  const forecast = forecastOf(ask.build, plan, {
    today: ask.options.today,
    ...(ask.said === undefined ? {} : { pace: ask.said }),
  })
  return { plan, forecast, reached: reachedIn(ask, plan) } satisfies Planned
}

scope.onmessage = ({ data }) => {
  if ('stop' in data) {
    running.get(data.id)?.abort()
    return
  }
  const { id, ask } = data
  work(id, ask)
    .then((answer) => scope.postMessage({ id, answer }))
    .catch((error: unknown) =>
      scope.postMessage(
        error instanceof Refusal
          ? { id, problems: error.problems }
          : { id, broke: error instanceof Error ? error.message : String(error) },
      ),
    )
    .finally(() => running.delete(id))
}
