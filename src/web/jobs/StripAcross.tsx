/**
 * The plan across the page. The line on top is the car closed; each access is a trench beneath it, nested in those that
 * it requires; a job is a tick on the floor of the deepest trench that is open while it is done. Order, not dates.
 */
import { Link } from 'wouter'
import type { Plan } from '../../plan/plan.ts'
import { hoursText } from '../../plan/workTime.ts'
import type { Reached } from './ask.ts'
import { type Line, linesOf, type Trench } from './strip.ts'
import { dayText } from './today.ts'

/** px */
const STEP = { least: 34, most: 56 }
const LANE = 27
const HEAD = 186
const SLANT = 48
/** Mean width of a letter of 12 px. */
const LETTER = 6.1
const TITLE = 34
/** Titles of the last places lean out over the end of the line by so much. */
const LEAN = 140

const cut = (text: string, most: number): string =>
  text.length <= most ? text : `${text.slice(0, Math.max(1, most - 1)).trimEnd()}…`

interface Props {
  readonly plan: Plan
  readonly reached: readonly Reached[]
  readonly room: number
}
export function StripAcross({ plan, reached, room }: Props) {
  const lines = linesOf(plan.steps, plan.brackets, Math.floor((room - LEAN) / STEP.least))
  const longest = Math.max(1, ...lines.map(({ jobs }) => jobs.length))
  const step = Math.min(STEP.most, Math.floor((room - LEAN) / longest))
  return (
    <div className="strip-across">
      {lines.map((line) => (
        <LineAcross key={line.start} {...{ line, reached, room, step }} />
      ))}
    </div>
  )
}

interface LineProps {
  readonly line: Line
  readonly reached: readonly Reached[]
  readonly room: number
  readonly step: number
}
function LineAcross({ line, reached, room, step }: LineProps) {
  const ends = reached.filter(({ after }) => after >= line.start && after < line.start + line.jobs.length)
  const low = HEAD + line.depth * LANE + 6
  const height = low + 4 + (ends.length > 0 ? 38 : 0)
  const x = (place: number): number => place * step
  const floor = (at: number): number => HEAD + line.depths[at]! * LANE
  return (
    <svg width={room} height={height} className="strip">
      <title>{`Jobs ${line.start + 1} to ${line.start + line.jobs.length} of the order`}</title>
      {line.trenches.map((trench) => (
        <TrenchShape key={`${trench.bracket.id} ${trench.bracket.from}`} {...{ trench, step }} />
      ))}
      <line x1={0} x2={x(line.jobs.length)} y1={HEAD} y2={HEAD} className="surface" />
      {line.jobs.map((job, at) => (
        <line key={job.id} x1={x(at) + step / 2} x2={x(at) + step / 2} y1={HEAD - 6} y2={floor(at)} className="stem" />
      ))}
      {line.trenches.map(({ bracket, first, room: free, before }) => (
        <text
          key={`${bracket.id} ${bracket.from}`}
          x={x(first) + 8}
          y={HEAD + bracket.depth * LANE + 14}
          className="trench-name"
        >
          {cut(`${before ? '… ' : ''}${bracket.name}`, Math.floor((free * step - 12) / LETTER))}
          <title>{bracket.name}</title>
        </text>
      ))}
      {line.jobs.map((job, at) => {
        const middle = x(at) + step / 2
        const words = `${job.id} ${job.title}, ${hoursText(job.time)}${job.known ? '' : ' (unknown, stands in)'}`
        const waits = line.waits[at]!
        return (
          <Link key={job.id} href={`/jobs/of/${encodeURIComponent(job.id)}`} aria-label={words} className="job">
            <rect x={x(at)} y={HEAD - 12} width={step} height={floor(at) - HEAD + 14} fill="transparent" />
            <line
              x1={middle}
              x2={middle}
              y1={floor(at) - 9}
              y2={floor(at)}
              className={job.known ? 'tick' : 'tick guess'}
            />
            {waits.length > 0 && <line x1={x(at) + 1} x2={x(at) + 1} y1={HEAD - 26} y2={HEAD - 2} className="waits" />}
            <text transform={`translate(${middle + 4} ${HEAD - 11}) rotate(-${SLANT})`} className="job-title">
              {cut(job.title, TITLE)}
              <title>{waits.length === 0 ? words : `${words}; waits for ${waits.join(', ')}`}</title>
            </text>
          </Link>
        )
      })}
      {ends.map(({ id, name, after, dates }, index) => {
        const at = x(after - line.start + 1)
        const left = at > room / 2
        const same = ends.slice(0, index).filter((other) => other.after === after).length
        return (
          <g key={id} className="milestone">
            <line x1={at} x2={at} y1={HEAD - 8} y2={low + 36} />
            <text x={left ? at - 6 : at + 6} y={low + 14 + same * 34} textAnchor={left ? 'end' : 'start'}>
              <tspan className="milestone-name">{name}</tspan>
              <tspan x={left ? at - 6 : at + 6} dy={16}>
                {dates === undefined
                  ? 'no date: hours a week unknown'
                  : `8 in 10 by ${dayText(dates.in80)}, even odds by ${dayText(dates.in50)}`}
              </tspan>
            </text>
          </g>
        )
      })}
    </svg>
  )
}

function TrenchShape({ trench, step }: { trench: Trench; step: number }) {
  const { bracket, first, last, before, after } = trench
  const left = first * step + (before ? 0 : 3)
  const right = (last + 1) * step - (after ? 0 : 3)
  const top = HEAD + bracket.depth * LANE
  const floor = top + LANE
  // A wall is drawn only where it is dug or filled: what comes from the line before, or goes on in the next, has none.
  const outline = `${before ? `M${left} ${floor}` : `M${left} ${top}V${floor}`}H${right}${after ? '' : `V${top}`}`
  return (
    <>
      <rect x={left} y={top} width={right - left} height={LANE} className="ground" />
      <path d={outline} className={bracket.already ? 'trench standing' : 'trench'} />
    </>
  )
}
