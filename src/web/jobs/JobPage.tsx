/** One job: what it is, how long it takes, what it needs and what has to be open for it. */
import { useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Build, Job } from '../../model/build.ts'
import { idFrom } from '../../model/newId.ts'
import { hoursText } from '../../plan/workTime.ts'
import type { Problem } from '../../units/problem.ts'
import { Empty } from '../parts/Empty.tsx'
import { measureText } from '../parts/quantityText.ts'
import { Photos } from '../phone/Photos.tsx'
import { findingPlace } from '../search/placeOf.ts'
import { useBench } from '../workbench/useBench.ts'
import { isOpenJob, keepText, put, threeTimes, withField, workTime, write } from './edits.ts'
import { SelectField, SeveralField, TextField, Tick, Wrong } from './Fields.tsx'
import { STANDS_CAUTION, wantsStands } from './stands.ts'

type Needs = NonNullable<Job['needs']>
const linesIn = (text: string): string[] =>
  text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
const listIn = (text: string): string[] =>
  text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '')
const named = (records: Readonly<Record<string, { id: string; name: string }>>) =>
  Object.values(records).map(({ id, name }) => ({ value: id, name }))

export function JobPage({ build, id }: { build: Build; id: string }) {
  const { assessment } = useBench()
  const [, go] = useLocation()
  const { jobs, zones, milestones, accesses, parts } = build.collections
  const job = Object.hasOwn(jobs, id) ? jobs[id] : undefined
  if (job === undefined)
    return (
      <Empty says={`There is no job ${id}; it may have been removed, and Undo brings it back.`}>
        <Link to="/jobs/list">All jobs</Link>
      </Empty>
    )
  const keep = (next: Job, what: string): readonly Problem[] => put(build, 'jobs', next, `${what} of job ${id}`)
  const set = <F extends keyof Job>(field: F, value: Job[F] | undefined, what: string): readonly Problem[] =>
    keep(withField(job, field, value), what)
  const need = <F extends keyof Needs>(field: F, value: Needs[F] | undefined, what: string): readonly Problem[] =>
    set('needs', withField(job.needs ?? {}, field, value), what)
  const waiting = Object.values(jobs).filter(({ needs }) => needs?.jobs?.includes(id))
  const finding = assessment?.findings.find(({ key }) => key === job.finding)
  const remove = (): void => {
    const gone = write(build, `Remove job ${id}: ${job.title}`, () => [
      { collection: 'jobs', id, value: null },
      ...waiting.map((other) => ({
        collection: 'jobs' as const,
        id: other.id,
        value: withField(
          other,
          'needs',
          withField(
            other.needs ?? {},
            'jobs',
            other.needs?.jobs?.filter((each) => each !== id),
          ),
        ),
      })),
    ])
    if (gone.length === 0) go('/jobs/list')
  }
  return (
    <>
      <h1>{job.title}</h1>
      <p className="soft">
        {id}, {job.status}
        {job.spent === undefined ? '' : `, ${hoursText(job.spent.value)} spent`}
      </p>
      {isOpenJob(job) && <Blocks build={build} job={job} />}
      {wantsStands(build, job) && <p className="stands">{STANDS_CAUTION}</p>}
      {job.finding !== undefined && (
        <p>
          It answers a finding and closes when that goes:{' '}
          <Link to={findingPlace(job.finding)}>{finding?.about ?? job.finding}</Link>
          {finding === undefined && '; the check does not find it any more.'}
        </p>
      )}
      <div className="job-page">
        <section aria-labelledby="what">
          <h2 id="what">What it is</h2>
          <TextField label="Title" text={job.title} keep={(text) => set('title', text, 'Title')} />
          <SelectField
            label="Zone"
            value={job.zone ?? ''}
            empty="not said"
            choices={named(zones)}
            keep={(zone) => set('zone', zone, 'Zone')}
          />
          <SelectField
            label="For the milestone"
            value={job.milestone ?? ''}
            empty="none"
            choices={Object.values(milestones)
              .sort((a, b) => a.order - b.order)
              .map(({ id: value, name }) => ({ value, name }))}
            keep={(milestone) => set('milestone', milestone, 'Milestone')}
          />
          <NewMilestone build={build} job={job} />
          <SelectField
            label="State"
            value={job.status}
            choices={(['to do', 'doing', 'done', 'closed'] as const).map((value) => ({ value, name: value }))}
            keep={(status) => set('status', status as Job['status'], 'State')}
          />
          <ThreeTimes key={JSON.stringify(job.time)} job={job} keep={(time) => set('time', time, 'Time')} />
          <TextField
            label="Spent so far"
            text={measureText('time', job.spent)}
            hint="nothing yet"
            keep={(text) => keepText(text, workTime, (spent) => set('spent', spent, 'Time spent'))}
          />
          <TextField
            label="Steps, one a line"
            lines={Math.max(3, (job.steps?.length ?? 0) + 1)}
            text={(job.steps ?? []).join('\n')}
            keep={(text) => set('steps', linesIn(text), 'Steps')}
          />
          <TextField
            label="Cautions, one a line"
            lines={Math.max(2, (job.cautions?.length ?? 0) + 1)}
            text={(job.cautions ?? []).join('\n')}
            keep={(text) => set('cautions', linesIn(text), 'Cautions')}
          />
          <TextField label="Remark" lines={2} text={job.remark ?? ''} keep={(text) => set('remark', text, 'Remark')} />
        </section>
        <section aria-labelledby="needs">
          <h2 id="needs">What it needs</h2>
          <SeveralField
            label="Open for it"
            nothing="Nothing has to be opened."
            chosen={job.accesses ?? []}
            choices={named(accesses)}
            keep={(list) => set('accesses', [...list], 'Accesses')}
          />
          <SeveralField
            label="Jobs before it"
            nothing="No other job."
            chosen={job.needs?.jobs ?? []}
            choices={Object.values(jobs)
              .filter((other) => other.id !== id)
              .map((other) => ({ value: other.id, name: `${other.id} ${other.title}` }))}
            keep={(list) => need('jobs', [...list], 'Jobs before')}
          />
          <SeveralField
            label="Parts"
            nothing="No part."
            chosen={job.needs?.parts ?? []}
            choices={Object.values(parts).map(({ id: value, name, status, supplier, price, currency }) => ({
              value,
              name: [name, status, supplier, price === undefined ? undefined : `${price.toFixed(2)} ${currency ?? ''}`]
                .filter((word) => word !== undefined)
                .join(', ')
                .trim(),
            }))}
            keep={(list) => need('parts', [...list], 'Parts')}
          />
          <NewPart build={build} job={job} />
          <TextField
            label="Tools, with commas between"
            text={(job.needs?.tools ?? []).join(', ')}
            keep={(text) => need('tools', listIn(text), 'Tools')}
          />
          <Tick
            checked={job.needs?.person ?? false}
            change={(on) => void need('person', on || undefined, 'Another person')}
          >
            Another person
          </Tick>
          <Tick checked={job.needs?.dry ?? false} change={(on) => void need('dry', on || undefined, 'Dry weather')}>
            Dry weather
          </Tick>
          <Tick
            checked={job.needs?.daylight ?? false}
            change={(on) => void need('daylight', on || undefined, 'Daylight')}
          >
            Daylight
          </Tick>
          {waiting.length > 0 && (
            <>
              <h3>Waiting for it</h3>
              <ul>
                {waiting.map((other) => (
                  <li key={other.id}>
                    <Link to={`/jobs/of/${encodeURIComponent(other.id)}`}>{other.title}</Link>
                  </li>
                ))}
              </ul>
            </>
          )}
          <h3>Photographs</h3>
          <Photos about={`jobs/${id}`} name={job.title} />
          <p className="row remove">
            <button type="button" onClick={remove}>
              Remove this job
            </button>
          </p>
        </section>
      </div>
    </>
  )
}

/** The three figures are kept together: one alone says nothing of chance. */
function ThreeTimes({ job, keep }: { readonly job: Job; readonly keep: (time: Job['time']) => readonly Problem[] }) {
  const before = (['least', 'likely', 'most'] as const).map((which) => measureText('time', job.time?.[which]))
  const [texts, setTexts] = useState(before)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const settle = (): void => {
    if (texts.every((text, at) => text === before[at])) return
    setProblems(keepText(texts, threeTimes, keep))
  }
  return (
    <fieldset
      className="job-field three"
      onBlur={(event) => {
        if (!event.currentTarget.contains(event.relatedTarget)) settle()
      }}
    >
      <legend>Time</legend>
      {['Least', 'Likely', 'Most'].map((name, at) => (
        <label key={name}>
          {name}
          <input
            value={texts[at]}
            autoComplete="off"
            placeholder={['1 h', '90 min', '3 h'][at]}
            aria-invalid={problems.length > 0}
            onChange={(event) => setTexts(texts.map((text, index) => (index === at ? event.target.value : text)))}
            onKeyDown={(event) => {
              if (event.key === 'Enter') settle()
            }}
          />
        </label>
      ))}
      <Wrong list={problems} />
    </fieldset>
  )
}

function NewPart({ build, job }: { build: Build; job: Job }) {
  const [turn, setTurn] = useState(0)
  return (
    <TextField
      key={turn}
      label="A part that nobody lists yet"
      text=""
      hint="its name; it is then wanted"
      keep={(name) => {
        const id = idFrom(name, build.collections.parts)
        const found = write(build, `Part for job ${job.id}: ${name}`, () => [
          { collection: 'parts', id, value: { id, name, status: 'wanted' } },
          {
            collection: 'jobs',
            id: job.id,
            value: { ...job, needs: { ...job.needs, parts: [...(job.needs?.parts ?? []), id] } },
          },
        ])
        if (found.length === 0) setTurn(turn + 1)
        return found
      }}
    />
  )
}

function NewMilestone({ build, job }: { build: Build; job: Job }) {
  const [turn, setTurn] = useState(0)
  const { milestones } = build.collections
  return (
    <TextField
      key={turn}
      label="A new milestone, after the others"
      text=""
      hint="its name"
      keep={(name) => {
        const id = idFrom(name, milestones)
        const order = Math.max(0, ...Object.values(milestones).map((each) => each.order)) + 1
        const found = write(build, `Milestone: ${name}`, () => [
          { collection: 'milestones', id, value: { id, name, order } },
          { collection: 'jobs', id: job.id, value: { ...job, milestone: id } },
        ])
        if (found.length === 0) setTurn(turn + 1)
        return found
      }}
    />
  )
}

/** The first milestone that cannot be reached without the job, and by way of which other job. */
function Blocks({ build, job }: { build: Build; job: Job }) {
  const { jobs, milestones } = build.collections
  const orderOf = ({ milestone }: Job): number =>
    (milestone === undefined ? undefined : milestones[milestone]?.order) ?? Number.POSITIVE_INFINITY
  const behind = new Set<Job>([job])
  for (const one of behind)
    for (const other of Object.values(jobs))
      if (isOpenJob(other) && other.needs?.jobs?.includes(one.id)) behind.add(other)
  const first = [...behind].reduce((best, other) => (orderOf(other) < orderOf(best) ? other : best))
  const name = first.milestone === undefined ? undefined : milestones[first.milestone]?.name
  if (name === undefined) return <p>No milestone waits for it.</p>
  const others = behind.size - 1
  return (
    <p>
      {name} waits for it
      {first === job ? (
        ', being one of its jobs'
      ) : (
        <>
          , because <Link to={`/jobs/of/${encodeURIComponent(first.id)}`}>{first.title}</Link> cannot be done before
        </>
      )}
      {others > 0 && `; ${others === 1 ? 'one other job comes' : `${others} other jobs come`} after it`}.
    </p>
  )
}
