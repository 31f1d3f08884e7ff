/** Years of use: counters, what is watched, and the card for the glovebox. */
import { Link } from 'wouter'
import { counterAt, ENGINE_HOURS, ODOMETER } from '../../assess/lists/due.ts'
import { trendOf, WATCHED } from '../../assess/trends/trends.ts'
import { breakdownCard, cardPage } from '../../book/records/card.ts'
import type { Build } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import { today } from '../jobs/today.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { useBench } from '../workbench/useBench.ts'
import { openPage } from './openPage.ts'
import { TakeReading } from './TakeReading.tsx'
import { TrendDrawing } from './TrendDrawing.tsx'
import { Who } from './Who.tsx'
import './records.css'
import './use.css'

const COUNTERS = [
  [ENGINE_HOURS, 'Engine hours', 'time', 'h'],
  [ODOMETER, 'Odometer', 'length', 'km'],
] as const

export function Use() {
  const { build } = useBench()
  if (!build) return null
  return (
    <div className="use">
      <p className="no-print">
        <Link to="/records">Records</Link>
      </p>
      <h1>In use</h1>
      <Who />
      <section>
        <h2>Counters</h2>
        <p className="soft small">Services that fall due by hours or distance are reckoned from these.</p>
        {COUNTERS.map(([subject, title, kind, unit]) => {
          const now = counterAt(build, subject)
          return (
            <div key={subject}>
              <p>
                {title}:{' '}
                <strong>{now === undefined ? 'not read yet' : formatQuantity(kind, now as never, { unit })}</strong>
              </p>
              <TakeReading {...{ subject, title, kind, unit }} />
            </div>
          )
        })}
      </section>
      <h2>Watched</h2>
      {WATCHED.map((watched) => {
        const trend = trendOf(build, watched)
        return (
          <section key={watched.subject} aria-label={watched.title}>
            <h3>
              {watched.title} <VerdictMark verdict={trend.verdict} />
            </h3>
            <p>{trend.says}</p>
            {trend.missing !== undefined && <p>Missing: {trend.missing}.</p>}
            <TrendDrawing trend={trend} />
            <p className="small">
              {watched.how} <span className="soft">{watched.caution}</span>
            </p>
            <TakeReading {...watched} />
          </section>
        )
      })}
      <CardOf build={build} />
    </div>
  )
}

function CardOf({ build }: { build: Build }) {
  const { lacks } = breakdownCard(build)
  return (
    <section>
      <h2>Breakdown card</h2>
      <p>One sheet for the glovebox: what to do first, where things are, what each fuse feeds.</p>
      {lacks.length > 0 && (
        <p className="soft">
          Not entered, so not on it: {lacks.slice(0, 6).join('; ')}
          {lacks.length > 6 ? `; and ${lacks.length - 6} more` : ''}.
        </p>
      )}
      <button type="button" onClick={() => openPage(cardPage(build, today()))}>
        Open the card to print
      </button>
    </section>
  )
}
