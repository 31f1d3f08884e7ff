/** Jobs: the order, the sitting, the jobs themselves, accesses, the forecast, parts and money. */
import { Link } from 'wouter'
import { useBench } from '../workbench/useBench.ts'
import { Accesses } from './Accesses.tsx'
import { Forecasting } from './Forecasting.tsx'
import { JobList } from './JobList.tsx'
import { JobPage } from './JobPage.tsx'
import { Order } from './Order.tsx'
import { PartsMoney } from './PartsMoney.tsx'
import { Sitting } from './Sitting.tsx'
import './jobs.css'

const VIEWS = [
  ['', 'Order'],
  ['sitting', 'Sitting'],
  ['list', 'All jobs'],
  ['accesses', 'Accesses'],
  ['forecast', 'Forecast'],
  ['parts', 'Parts and money'],
] as const
const SCREENS = {
  '': Order,
  sitting: Sitting,
  list: JobList,
  accesses: Accesses,
  forecast: Forecasting,
  parts: PartsMoney,
} as const

export function Jobs({ view = '', job }: { view?: string | undefined; job?: string | undefined }) {
  const { build } = useBench()
  if (!build) return null
  const Screen = Object.hasOwn(SCREENS, view) ? SCREENS[view as keyof typeof SCREENS] : Order
  return (
    <>
      <nav aria-label="Jobs" className="job-views">
        <ul className="plain">
          {VIEWS.map(([key, name]) => (
            <li key={key}>
              <Link
                to={key === '' ? '/jobs' : `/jobs/${key}`}
                aria-current={job === undefined && key === view ? 'page' : undefined}
              >
                {name}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      {job === undefined ? <Screen build={build} /> : <JobPage key={job} build={build} id={job} />}
    </>
  )
}
