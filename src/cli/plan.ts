/** The order to a milestone, one sitting, dates, and parts with their money: in words, or as JSON. */
import type { Command } from 'commander'
import { proposeJobs } from '../assess/proposedJobs.ts'
import type { Build } from '../model/build.ts'
import { dayAfter, daysBetween } from '../plan/arrival.ts'
import { type Forecast, forecastOf } from '../plan/forecast.ts'
import { paceOf } from '../plan/history.ts'
import { type PartLine, type PartsAndMoney, partsAndMoney } from '../plan/parts.ts'
import { type Plan, planTo } from '../plan/plan.ts'
import { ENDS, planSitting, type Sitting } from '../plan/sitting.ts'
import { loadSolver } from '../plan/solver.ts'
import type { PlanStep } from '../plan/steps.ts'
import { hoursText, readWorkTime } from '../plan/workTime.ts'
import { withClosings } from '../store/settle.ts'
import { type Problem, refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, problemText, wrap } from './print.ts'

const BUILD = ['-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo'] as const
const TODAY = ['--today <date>', 'count from this day, YYYY-MM-DD'] as const
const JSON_OUT = ['--json', 'print JSON; times in seconds'] as const
const WIDTH = 100

const dayOf = (given: string | undefined): string => {
  if (given === undefined) {
    const now = new Date()
    return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
  }
  const time = Date.parse(`${given}T00:00:00Z`)
  if (!/^\d{4}-\d{2}-\d{2}$/.test(given) || Number.isNaN(time) || dayAfter(given, 0) !== given)
    throw refuse('not-a-day', `“${given}” is not a day.`, 'Write it as 2025-06-30.')
  return given
}

const withBuild = async (folder: string | undefined, use: (build: Build) => Promise<void> | void): Promise<void> => {
  const store = await openNamed(folder, true)
  try {
    await use(store.read())
  } finally {
    store.close()
  }
}

const list = (problems: readonly Problem[], title: string): string =>
  problems.length === 0
    ? ''
    : `\n${title}\n${problems.map((problem) => wrap(`· ${problemText(problem)}`, WIDTH - 2, '  ')).join('\n')}\n`

const cautionsText = (cautions: readonly string[]): string =>
  cautions.length === 0
    ? ''
    : `\nBefore any of this work:\n${cautions.map((caution) => wrap(`· ${caution}`, WIDTH - 2, '  ')).join('\n')}\n`

const stepText = (step: PlanStep): string => {
  if (step.kind === 'wait') {
    const parts = step.parts.map(
      ({ name, due }) => `${name} (${due === undefined ? 'nobody knows when' : `due ${due}`})`,
    )
    return `    wait   for ${parts.join('; ')}`
  }
  const time = `${hoursText(step.time)}${step.known ? '' : ' (unknown, stands in)'}`
  return step.kind === 'job'
    ? `           ${step.id}  ${step.title}, ${time}`
    : `    ${step.kind.padEnd(6)} ${step.name}, ${time}`
}

const planText = (build: Build, plan: Plan): string => {
  const jobs = plan.steps.filter(({ kind }) => kind === 'job').length
  const name = plan.milestone?.name ?? 'All jobs'
  if (jobs === 0)
    return `${inert(build.name)}: ${inert(name)}: no open jobs.\n${list(plan.problems, 'Wrong in the build:')}`
  const judged = plan.proven
    ? 'No order has less.'
    : `No order has less than ${hoursText(plan.bound)}: this is within ${(plan.gap * 100).toFixed(1)} %.`
  return `${inert(build.name)}: ${inert(name)}, ${jobs} jobs, ${hoursText(plan.work)} of work.
${wrap(`Opening and closing: ${hoursText(plan.openings)}. ${judged} Done as listed it would be ${hoursText(plan.asListed)}.${plan.cancelled ? ' The search was stopped before its end.' : ''} The longest chain of needs, which a helper cannot shorten, is ${hoursText(plan.chain.time)}.`, WIDTH)}

${plan.steps.map((step) => inert(stepText(step))).join('\n')}
${cautionsText(plan.cautions)}${plan.setAside.length === 0 ? '' : `\nLeft out:\n${plan.setAside.map(({ id, title, why }) => wrap(`· ${id} ${title}: ${why}.`, WIDTH - 2, '  ')).join('\n')}\n`}${list(plan.problems, 'Wrong in the build:')}${list(plan.unknown, 'Unknown:')}`
}

const sittingText = (sitting: Sitting): string => {
  const { ready } = sitting
  if (sitting.nothing !== undefined) {
    const behind = sitting.whileThere.length === 0 ? '' : `\n${whileThereText(sitting)}`
    return `${wrap(sitting.nothing, WIDTH)}\n${behind}${list(sitting.problems, 'Wrong in the build:')}`
  }
  const have = [
    ...ready.parts,
    ...ready.tools,
    ...(ready.person ? ['another person'] : []),
    ...(ready.dry ? ['dry weather'] : []),
    ...(ready.daylight ? ['daylight'] : []),
  ]
  return `${wrap(`${sitting.jobs.length} jobs, ${hoursText(sitting.time)} with times that are kept in 8 of 10 cases, ${hoursText(sitting.openings)} of it opening and closing.${sitting.proven ? ' Nothing better fits.' : ' The search was not finished: something better may fit.'}${sitting.dear ? ' Opening and closing take longer than the work: with more time, more would be done behind the same.' : ''}`, WIDTH)}

${sitting.steps.map((step) => inert(stepText(step.kind === 'job' ? { ...step, time: step.mostly } : step))).join('\n')}
${have.length === 0 ? '' : `\nHave ready: ${inert(have.join(', '))}.\n`}${sitting.left.length === 0 ? '' : `Stays open: ${inert(sitting.left.map(({ name }) => name).join(', '))}.\n`}${cautionsText(
  ready.cautions,
)}${sitting.whileThere.length === 0 ? '' : `\n${whileThereText(sitting)}`}${list(sitting.problems, 'Wrong in the build:')}${list(
  sitting.unknown.filter(
    ({ path, code }) => code === 'drivable-unknown' || sitting.jobs.some((id) => path?.startsWith(`jobs/${id}/`)),
  ),
  'Unknown:',
)}`
}

const whileThereText = (sitting: Sitting): string =>
  `While you are there, if there is time left:\n${sitting.whileThere
    .map(({ id, title, time, lacks }) =>
      wrap(
        `· ${id} ${title}, ${hoursText(time)}${lacks.length === 0 ? '' : `; lacks ${lacks.join(', ')}`}`,
        WIDTH - 2,
        '  ',
      ),
    )
    .join('\n')}\n`

const forecastText = (forecast: Forecast): string => {
  const { factor, pace } = forecast
  const learnt =
    factor.jobs === 0
      ? 'No job is over yet, so nothing is known of your estimates.'
      : `From ${factor.jobs === 1 ? 'one job that is' : `${factor.jobs} jobs that are`} over: jobs take ${factor.middle.toFixed(2)} times their estimate (${factor.low.toFixed(2)} to ${factor.high.toFixed(2)}).`
  return `${wrap(forecast.sentence, WIDTH)}
${pace === undefined ? '' : `${hoursText(pace.mean)} a week, ${pace.from === 'said' ? 'as said' : `from ${pace.weeks} weeks of sittings`}. `}${learnt}
${
  forecast.holds.length === 0
    ? ''
    : `\nWhat holds the date most:\n${forecast.holds.map(({ kind, id, name, days }) => inert(`  ${days.toFixed(1).padStart(6)} days  ${kind === 'part' ? 'part ' : ''}${id}  ${name}`)).join('\n')}\n`
}${
  forecast.supposed.length === 0
    ? ''
    : `\nParts without a date, supposed here when needed: ${inert(forecast.supposed.map(({ name }) => name).join(', '))}.\n`
}${list(forecast.unknown, 'Unknown:')}`
}

const moneyText = (line: PartLine): string =>
  line.price === undefined ? 'price unknown' : `${line.price} ${line.currency ?? '(currency unknown)'}`

const partsText = (parts: PartsAndMoney): string => {
  const blocks = [
    ...parts.shopping.map(
      ({ supplier, parts: lines }) =>
        `To buy${supplier === '' ? ', supplier not chosen' : ` from ${inert(supplier)}`}:\n${lines
          .map((line) =>
            inert(`  ${line.name}, ${moneyText(line)}${line.jobs.length === 0 ? '' : `; for ${line.jobs.join(', ')}`}`),
          )
          .join('\n')}`,
    ),
    parts.coming.length === 0
      ? ''
      : `Ordered:\n${parts.coming.map((line) => inert(`  ${line.name}, ${line.due === undefined ? 'no date' : `due ${line.due}`}`)).join('\n')}`,
    parts.toReturn.length === 0
      ? ''
      : `To give back:\n${parts.toReturn.map(({ name, from, backBy, overdue }) => inert(`  ${name}${from === undefined ? '' : `, to ${from}`}${backBy === undefined ? ', no date' : `, by ${backBy}`}${overdue ? ', overdue' : ''}`)).join('\n')}`,
    parts.ageing.length === 0
      ? ''
      : `Growing old:\n${parts.ageing.map(({ name, bestBefore, past }) => inert(`  ${name}, ${past ? 'past' : 'good until'} ${bestBefore}`)).join('\n')}`,
    parts.sums.length === 0
      ? ''
      : `Money:\n${parts.sums.map(({ currency, spent, toSpend }) => inert(`  ${spent.toFixed(2)} ${currency} spent, ${toSpend.toFixed(2)} ${currency} to spend`)).join('\n')}`,
    parts.unknown.length === 0 ? '' : `In no sum, for want of a price or its currency: ${parts.unknown.length} parts.`,
  ].filter((block) => block !== '')
  return blocks.length === 0 ? 'No parts are listed yet.\n' : `${blocks.join('\n\n')}\n`
}

/** How far the later of the two dates moves. */
const moved = (before: Forecast, after: Forecast): string => {
  if (before.dates === undefined || after.dates === undefined) return ''
  const change = daysBetween(before.dates.in80, after.dates.in80)
  if (change === 0) return 'The date does not move.'
  return `That is ${Math.abs(change)} ${Math.abs(change) === 1 ? 'day' : 'days'} ${change > 0 ? 'later' : 'sooner'}.`
}

const days = (entries: readonly string[]): Record<string, number> =>
  Object.fromEntries(
    entries.map((entry) => {
      const match = /^(.+)=(\d+)$/.exec(entry)
      if (match === null)
        throw refuse(
          'not-late',
          `“${entry}” does not say which part is how late.`,
          'Write it as propshaft=14, in days.',
        )
      return [match[1]!, Number(match[2])]
    }),
  )

export const addPlan = (program: Command, out: Out): void => {
  const json = (value: unknown): void => out.write(`${JSON.stringify(value, null, 2)}\n`)

  program
    .command('plan')
    .description('the order of all jobs to a milestone with the fewest hours of opening and closing')
    .option(...BUILD)
    .option('--to <milestone>', 'which milestone; else the first with open jobs')
    .option('--all', 'all open jobs, whatever they are for')
    .option('--hours <a week>', 'your hours in a week, such as 6 h; else from the sittings recorded')
    .option(...TODAY)
    .option(...JSON_OUT)
    .action(
      async (options: {
        build?: string
        to?: string
        all?: boolean
        hours?: string
        today?: string
        json?: boolean
      }) => {
        const today = dayOf(options.today)
        const said = options.hours === undefined ? undefined : readWorkTime(options.hours).value
        await withBuild(options.build, async (build) => {
          const stop = new AbortController()
          const abort = () => stop.abort()
          // One break stops the search and prints the best so far; a second one ends the command as usual.
          process.once('SIGINT', abort)
          try {
            const pace = said ?? paceOf(build, today)
            const plan = await planTo(build, {
              today,
              signal: stop.signal,
              ...(options.all ? { milestone: null } : options.to === undefined ? {} : { milestone: options.to }),
              ...(pace === undefined ? {} : { pace }),
            })
            if (options.json) json({ build: build.name, ...plan })
            else out.write(planText(build, plan))
          } finally {
            process.removeListener('SIGINT', abort)
          }
        })
      },
    )

  program
    .command('sitting')
    .description('what to do in the time there is')
    .requiredOption('--hours <time>', 'how long, such as 2.5 or "90 min"')
    .option(...BUILD)
    .option('--apart <access...>', 'what is open now; else as the build says')
    .option('--here <part...>', 'parts that are here besides those the build knows of')
    .option('--end <state>', `the car at the end: ${ENDS.join(', ')}`, 'apart')
    .option('--alone', 'nobody can help')
    .option('--wet', 'no dry weather')
    .option('--dark', 'no daylight')
    .option(...TODAY)
    .option(...JSON_OUT)
    .action(
      async (options: {
        build?: string
        hours: string
        apart?: string[]
        here?: string[]
        end: string
        alone?: boolean
        wet?: boolean
        dark?: boolean
        today?: string
        json?: boolean
      }) => {
        const time = readWorkTime(options.hours).value
        const today = dayOf(options.today)
        const end = ENDS.find((name) => name === options.end)
        if (end === undefined)
          throw refuse(
            'no-end',
            `“${options.end}” is no state the car can be left in.`,
            `Choose from: ${ENDS.join(', ')}.`,
          )
        const solve = await loadSolver()
        await withBuild(options.build, (build) => {
          for (const part of options.here ?? [])
            if (!Object.hasOwn(build.collections.parts, part))
              throw refuse('no-part', `There is no part “${part}”.`, 'Name a part of the build by its id.')
          const sitting = planSitting(
            build,
            {
              time,
              today,
              end,
              ...(options.apart === undefined ? {} : { apart: options.apart }),
              ...(options.here === undefined ? {} : { here: options.here }),
              ...(options.alone ? { person: false } : {}),
              ...(options.wet ? { dry: false } : {}),
              ...(options.dark ? { daylight: false } : {}),
            },
            solve,
          )
          if (options.json) json({ build: build.name, ...sitting })
          else out.write(sittingText(sitting))
        })
      },
    )

  program
    .command('proposed')
    .description('jobs that the loom asks for, circuit by circuit; with a circuit, takes its jobs into the build')
    .argument('[circuit]', 'the id of the circuit whose jobs are taken in')
    .option(...BUILD)
    .option(...JSON_OUT)
    .action(async (circuit: string | undefined, options: { build?: string; json?: boolean }) => {
      const store = await openNamed(options.build, circuit === undefined)
      try {
        const build = store.read()
        const proposals = proposeJobs(build)
        const chosen = proposals.filter((proposal) => circuit === undefined || proposal.circuit === circuit)
        if (circuit !== undefined) {
          const [taken] = chosen
          if (taken === undefined)
            throw refuse(
              'nothing-proposed',
              `Nothing is proposed for a circuit “${circuit}”.`,
              'See what is proposed with "swapwright proposed".',
            )
          const changes = taken.jobs.map((job) => ({ collection: 'jobs', id: job.id, value: job }) as const)
          store.edit(withClosings(build, { label: `Jobs for the wiring: ${taken.name}`.slice(0, 160), changes }))
        }
        if (options.json) json({ build: build.name, taken: circuit !== undefined, proposed: chosen })
        else
          out.write(
            chosen.length === 0
              ? 'The loom asks for no jobs: no circuit has wires that are not fitted or planned.\n'
              : chosen
                  .map(({ circuit: id, name, jobs }) =>
                    inert(
                      `${name} (${id}):\n${jobs.map((job) => `  ${job.title}, ${hoursText(job.time!.likely.value)}`).join('\n')}\n`,
                    ),
                  )
                  .join(''),
          )
      } finally {
        store.close()
      }
    })

  program
    .command('forecast')
    .description('when a milestone will be reached, with two dates and their chance')
    .option(...BUILD)
    .option('--to <milestone>', 'which milestone; else the first with open jobs')
    .option('--hours <a week>', 'your hours in a week, such as 6 h; else from the sittings recorded')
    .option('--late <part=days...>', 'what if a part comes so many days later')
    .option('--drop <job...>', 'what if a job is not done')
    .option('--seed <number>', 'another run of chance', '1')
    .option(...TODAY)
    .option(...JSON_OUT)
    .action(
      async (options: {
        build?: string
        to?: string
        hours?: string
        late?: string[]
        drop?: string[]
        seed: string
        today?: string
        json?: boolean
      }) => {
        const today = dayOf(options.today)
        const pace = options.hours === undefined ? undefined : readWorkTime(options.hours).value
        const seed = Number(options.seed)
        if (!Number.isInteger(seed))
          throw refuse('not-a-seed', `“${options.seed}” is not a whole number.`, 'Leave --seed out.')
        const late = days(options.late ?? [])
        await withBuild(options.build, async (build) => {
          const order = pace ?? paceOf(build, today)
          const plan = await planTo(build, {
            today,
            within: 2,
            ...(options.to === undefined ? {} : { milestone: options.to }),
            ...(order === undefined ? {} : { pace: order }),
          })
          const said = { today, seed, ...(pace === undefined ? {} : { pace }) }
          const forecast = forecastOf(build, plan, said)
          const asked = options.late !== undefined || options.drop !== undefined
          const other = asked ? forecastOf(build, plan, { ...said, late, drop: options.drop ?? [] }) : undefined
          if (options.json) json({ build: build.name, ...forecast, ...(other === undefined ? {} : { whatIf: other }) })
          else {
            out.write(forecastText(forecast))
            if (other !== undefined)
              out.write(`\n${wrap(`What if: ${other.sentence} ${moved(forecast, other)}`, WIDTH)}\n`)
          }
        })
      },
    )

  program
    .command('parts')
    .description('what to buy and where, what is coming, what to give back, what it costs')
    .option(...BUILD)
    .option(...TODAY)
    .option('--json', 'print JSON')
    .action(async (options: { build?: string; today?: string; json?: boolean }) => {
      const today = dayOf(options.today)
      await withBuild(options.build, (build) => {
        const parts = partsAndMoney(build, today)
        if (options.json) json({ build: build.name, ...parts })
        else out.write(partsText(parts))
      })
    })
}
