/** What has to be opened to reach things: how long each way takes, what it requires and excludes. */
import { useState } from 'react'
import type { Build, Entity } from '../../model/build.ts'
import { idFrom } from '../../model/newId.ts'
import { hoursText } from '../../plan/workTime.ts'
import type { Problem } from '../../units/problem.ts'
import { measureText } from '../parts/quantityText.ts'
import { isOpenJob, keepText, put, withField, workTime, write } from './edits.ts'
import { SelectField, SeveralField, TextField, Tick } from './Fields.tsx'
import { isStands, STANDS_CAUTION } from './stands.ts'

type Access = Entity<'accesses'>

/** What is wrong with one access by itself, said where it is mended; the planner names the circles. */
const wrongIn = ({ id, requires = [], excludes = [] }: Access, known: Readonly<Record<string, Access>>): string[] => [
  ...(excludes.includes(id) ? ['It excludes itself; the plan disregards that.'] : []),
  ...(requires.includes(id) ? ['It requires itself; the plan disregards that.'] : []),
  ...requires
    .filter((other) => excludes.includes(other))
    .map((other) => `It requires and excludes ${known[other]?.name ?? other}, so it can never be open.`),
  ...[...requires, ...excludes]
    .filter((other) => !Object.hasOwn(known, other))
    .map((other) => `It names ${other}, which is not listed.`),
]

export function Accesses({ build }: { build: Build }) {
  const { accesses, jobs, zones } = build.collections
  const [turn, setTurn] = useState(0)
  const open = Object.values(jobs).filter(isOpenJob)
  const groups = [...Object.values(zones), { id: undefined, name: 'No zone' }]
    .map(({ id, name }) => ({
      name,
      list: Object.values(accesses).filter(
        (access) => access.zone === id || (id === undefined && access.zone !== undefined && !zones[access.zone]),
      ),
    }))
    .filter(({ list }) => list.length > 0)
  return (
    <>
      <h1>Accesses</h1>
      <p className="soft">
        What is opened, taken off or lifted to reach things. The plan is made so that the least time goes into these.
      </p>
      {groups.map(({ name, list }) => (
        <section key={name}>
          <h2>{name}</h2>
          {list.map((access) => (
            <AccessItem
              key={access.id}
              build={build}
              access={access}
              jobs={open.filter((job) => job.accesses?.includes(access.id)).length}
            />
          ))}
        </section>
      ))}
      <h2>A new one</h2>
      <TextField
        key={turn}
        label="Name"
        text=""
        hint="such as front panel off"
        keep={(typed) => {
          const id = idFrom(typed, accesses)
          const found = put(build, 'accesses', { id, name: typed }, `New access: ${typed}`)
          if (found.length === 0) setTurn(turn + 1)
          return found
        }}
      />
    </>
  )
}

function AccessItem({ build, access, jobs }: { build: Build; access: Access; jobs: number }) {
  const { accesses, zones } = build.collections
  const { id, name } = access
  const set = <F extends keyof Access>(field: F, value: Access[F] | undefined, what: string): readonly Problem[] =>
    put(build, 'accesses', withField(access, field, value), `${what} of ${name}`)
  const others = Object.values(accesses)
    .filter((other) => other.id !== id)
    .map((other) => ({ value: other.id, name: other.name }))
  const wrong = wrongIn(access, accesses)
  const time = (field: 'open' | 'close', label: string) => (
    <TextField
      label={label}
      text={measureText('time', access[field])}
      hint="such as 20 min"
      keep={(text) =>
        keepText(
          text,
          // Nothing to do is a time as well, as for a bonnet that stands open.
          (typed) =>
            /^0+([.,]0+)?\s*(min|h|s)?$/.test(typed) ? ({ value: 0, unit: 'min' } as Access['open']) : workTime(typed),
          (value) => set(field, value, label),
        )
      }
    />
  )
  const short = (value: Access['open']): string => (value === undefined ? 'unknown' : hoursText(value.value))
  return (
    <details className="access" data-access={id}>
      <summary>
        <span>{name}</span>
        <span className="soft small">
          open {short(access.open)}, close {short(access.close)}
          {access.isOpen ? '; open now' : ''}; {jobs} {jobs === 1 ? 'job' : 'jobs'}
        </span>
        {wrong.length > 0 && <span className="wrong small">{wrong.join(' ')}</span>}
      </summary>
      {isStands(access) && <p className="stands">{STANDS_CAUTION}</p>}
      <div className="job-page">
        <div>
          <TextField label="Name" text={name} keep={(text) => set('name', text, 'Name')} />
          <SelectField
            label="Zone"
            value={access.zone ?? ''}
            empty="not said"
            choices={Object.values(zones).map((zone) => ({ value: zone.id, name: zone.name }))}
            keep={(zone) => set('zone', zone, 'Zone')}
          />
          {time('open', 'Time to open')}
          {time('close', 'Time to close')}
          <Tick checked={access.isOpen ?? false} change={(on) => void set('isOpen', on, 'Open now')}>
            Open now
          </Tick>
          <SelectField
            label="With it open the car"
            value={access.drivable === undefined ? '' : String(access.drivable)}
            empty="not said"
            choices={[
              { value: 'true', name: 'can be driven' },
              { value: 'false', name: 'cannot be driven' },
            ]}
            keep={(value) => set('drivable', value === '' ? undefined : value === 'true', 'Drivable')}
          />
        </div>
        <div>
          <SeveralField
            label="Requires open"
            nothing="Nothing else."
            chosen={access.requires ?? []}
            choices={others}
            keep={(list) => set('requires', [...list], 'What it requires')}
          />
          <SeveralField
            label="Cannot be open beside"
            nothing="Nothing stands against it."
            chosen={access.excludes ?? []}
            choices={others}
            keep={(list) => set('excludes', [...list], 'What it excludes')}
          />
          <TextField
            label="Cautions, one a line"
            lines={2}
            text={(access.cautions ?? []).join('\n')}
            keep={(text) =>
              set(
                'cautions',
                text
                  .split('\n')
                  .map((line) => line.trim())
                  .filter((line) => line !== ''),
                'Cautions',
              )
            }
          />
          <button
            type="button"
            aria-label={`Remove the access ${name}`}
            onClick={() =>
              void write(build, `Remove access ${name}`, () => [
                { collection: 'accesses', id, value: null },
                ...Object.values(accesses)
                  .filter((other) => other.id !== id && (other.requires?.includes(id) || other.excludes?.includes(id)))
                  .map((other) => ({
                    collection: 'accesses' as const,
                    id: other.id,
                    value: withField(
                      withField(
                        other,
                        'requires',
                        other.requires?.filter((each) => each !== id),
                      ),
                      'excludes',
                      other.excludes?.filter((each) => each !== id),
                    ),
                  })),
                ...Object.values(build.collections.jobs)
                  .filter((job) => job.accesses?.includes(id))
                  .map((job) => ({
                    collection: 'jobs' as const,
                    id: job.id,
                    value: withField(
                      job,
                      'accesses',
                      job.accesses?.filter((each) => each !== id),
                    ),
                  })),
              ])
            }
          >
            Remove it
          </button>
        </div>
      </div>
    </details>
  )
}
