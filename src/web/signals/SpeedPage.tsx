/** A road speed: whether dial and controller are told the speed that the car has, and where their counts come from. */
import { type FormEvent, useState } from 'react'
import { Link, useLocation } from 'wouter'
import { couldCountSpeed, type SpeedTaker, speedTakers } from '../../assess/signals/speedTakers.ts'
import type { Build, Edit, Entity } from '../../model/build.ts'
import { freeId } from '../../model/newId.ts'
import type { Problem } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { parseNumber } from '../parts/parseNumber.ts'
import { VerdictMark } from '../parts/VerdictMark.tsx'
import { findingPlace } from '../search/placeOf.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { sheetPlace } from './LedgerList.tsx'

type Counted = NonNullable<Entity<'inputs'>['counted']>
const SHAFTS: readonly Counted['shaft'][] = ['gearbox output', 'driven wheel']

const madeFor = (taker: SpeedTaker): number | undefined =>
  taker.kind === 'gauges' ? taker.entity.constant : taker.entity.pulses

const speedEdit = (taker: SpeedTaker, counted: Counted | undefined, made: number | undefined): Edit => {
  const label = `Road speed of ${taker.entity.name}`
  if (taker.kind === 'gauges') {
    const { counted: _counted, constant: _constant, ...rest } = taker.entity
    const value = { ...rest, ...(counted ? { counted } : {}), ...(made === undefined ? {} : { constant: made }) }
    return { label, changes: [{ collection: 'gauges', id: value.id, value }] }
  }
  const { counted: _counted, pulses: _pulses, ...rest } = taker.entity
  const value = { ...rest, ...(counted ? { counted } : {}), ...(made === undefined ? {} : { pulses: made }) }
  return { label, changes: [{ collection: 'inputs', id: value.id, value }] }
}

export function SpeedPage({ kind, id }: { kind: SpeedTaker['kind']; id: string }) {
  const { build, assessment } = useBench()
  const taker = build && speedOf(build, kind, id)
  if (!build || !taker) return <p>There is no such road speed in this build.</p>
  const { vehicle } = build.sheets
  const finding = assessment?.findings.find(({ rule, subject }) => rule === 'road-speed' && subject === `${kind}/${id}`)
  return (
    <>
      <h1>{taker.entity.name}</h1>
      {finding && (
        <p className="answer">
          <VerdictMark verdict={finding.verdict} /> {finding.says}{' '}
          {finding.verdict !== 'sound' && <strong>{finding.todo}</strong>}{' '}
          <Link to={findingPlace(finding.key)}>Its working</Link>
        </p>
      )}
      <SpeedForm key={`${kind}/${id}`} taker={taker} />
      <p className="small">
        The rest is the car’s:{' '}
        {vehicle?.tyreRadius ? 'the rolling radius is entered' : 'the rolling radius is not entered'},{' '}
        {vehicle?.finalDrive === undefined
          ? 'the ratio of the final drive is not'
          : `the final drive is ${vehicle.finalDrive}`}
        . Both stand on the <Link to="/driveline">Driveline page</Link>.
      </p>
    </>
  )
}

const speedOf = (build: Build, kind: SpeedTaker['kind'], id: string): SpeedTaker | undefined => {
  const open = couldCountSpeed(build).map((entity): SpeedTaker => ({ kind: 'inputs', entity }))
  return [...speedTakers(build), ...open].find((taker) => taker.kind === kind && taker.entity.id === id)
}

function SpeedForm({ taker }: { taker: SpeedTaker }) {
  const { counted } = taker.entity
  const isDial = taker.kind === 'gauges'
  const [shaft, setShaft] = useState<Counted['shaft']>(counted?.shaft ?? 'gearbox output')
  const [counts, setCounts] = useState(String(counted?.counts ?? ''))
  const [turns, setTurns] = useState(String(counted?.turns ?? ''))
  const [made, setMade] = useState(String(madeFor(taker) ?? ''))
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const store = (event: FormEvent): void => {
    event.preventDefault()
    const found: Problem[] = []
    /** A number above 0; undefined where nothing is typed. */
    const read = (text: string, name: string): number | undefined => {
      const value = parseNumber(text)
      if (text.trim() !== '' && !(value !== undefined && value > 0))
        found.push({
          code: 'bad-number',
          path: taker.entity.id,
          says: `${name}: “${text}” is no number above 0.`,
          todo: 'Write it as in 8, or 17.5.',
        })
      return value
    }
    const [n, of, constant] = [read(counts, 'Counts'), read(turns, 'Turns'), read(made, 'A kilometre')]
    if (found.length === 0 && (n === undefined) !== (of === undefined))
      found.push({
        code: 'missing-input',
        path: taker.entity.id,
        says: 'Counts and turns belong together; one of them is empty.',
        todo: 'Enter both, or leave both empty.',
      })
    setProblems(found)
    if (found.length > 0) return
    bench.edit(
      speedEdit(taker, n !== undefined && of !== undefined ? { shaft, counts: n, turns: of } : undefined, constant),
    )
  }
  return (
    <section aria-label="Where its counts come from">
      <h2>Where its counts come from</h2>
      <form className="design" onSubmit={store}>
        <label>
          Counted at
          <select value={shaft} onChange={(event) => setShaft(event.target.value as Counted['shaft'])}>
            {SHAFTS.map((each) => (
              <option key={each} value={each}>
                the {each}
              </option>
            ))}
          </select>
        </label>
        <label>
          {isDial ? 'Turns of the cable, or teeth' : 'Teeth that pass'}
          <input
            inputMode="decimal"
            value={counts}
            placeholder="8"
            onChange={(event) => setCounts(event.target.value)}
          />
        </label>
        <label>
          In so many turns of that shaft
          <input inputMode="decimal" value={turns} placeholder="1" onChange={(event) => setTurns(event.target.value)} />
        </label>
        <label>
          {isDial ? 'A kilometre, as the dial says' : 'Pulses a kilometre the controller is set to'}
          <input
            inputMode="decimal"
            value={made}
            placeholder={isDial ? '620' : '4500'}
            onChange={(event) => setMade(event.target.value)}
          />
        </label>
        <button type="submit" className="first">
          Store where they come from
        </button>
      </form>
      <p className="small soft">
        A gear pair on the gearbox counts as its teeth: 7 teeth driving, 17 driven are 7 turns of the cable in 17 of the
        output shaft.
      </p>
      <Problems list={problems} />
    </section>
  )
}

/** A dial of the old car, or an input that is to count a road speed. */
export function NewSpeed() {
  const { build } = useBench()
  const [, go] = useLocation()
  const [name, setName] = useState('Speedometer')
  if (!build) return null
  const { collections } = build
  const open = couldCountSpeed(build)
  const addDial = (event: FormEvent): void => {
    event.preventDefault()
    const id = freeId('speedometer', collections.gauges)
    const value: Entity<'gauges'> = { id, name: name.trim(), shows: 'speed' }
    if (bench.edit({ label: `${value.name} added`, changes: [{ collection: 'gauges', id, value }] }))
      go(sheetPlace(`gauges/${id}`))
  }
  return (
    <>
      <h1>Road speed</h1>
      <p>
        Whether a speedometer, and the controller, are told the speed that the car has with its tyres and final drive.
      </p>
      <form className="design" onSubmit={addDial}>
        <label>
          A speedometer, called
          <input value={name} onChange={(event) => setName(event.target.value)} />
        </label>
        <button type="submit" className="first" disabled={name.trim() === ''}>
          Add it
        </button>
      </form>
      {open.length > 0 && (
        <p>
          Or the input of the controller that counts it, if it is one of{' '}
          {open.map((input, i) => (
            <span key={input.id}>
              {i > 0 && ', '}
              <Link to={sheetPlace(`inputs/${input.id}`)}>{input.name}</Link>
            </span>
          ))}
          .
        </p>
      )}
    </>
  )
}
