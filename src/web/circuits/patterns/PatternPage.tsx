/** One pattern: what it asks, and beside it the circuit as it would be drawn into this car, with its reasons. */
import { useMemo, useState } from 'react'
import { Link, useLocation } from 'wouter'
import { type Applied, applyPattern, type Pattern } from '../../../assess/patterns/index.ts'
import type { Build } from '../../../model/build.ts'
import { type Problem, Refusal } from '../../../units/problem.ts'
import { Problems } from '../../parts/Problems.tsx'
import { VerdictMark } from '../../parts/VerdictMark.tsx'
import { circuitPlace } from '../../search/placeOf.ts'
import { bench } from '../../workbench/bench.ts'
import { CircuitDrawing } from '../drawing/CircuitDrawing.tsx'
import { laidOver, liveOf, NOTHING_TRIED, nextPosition, type WhatIf } from '../drawing/live.ts'
import { Answer } from './Answer.tsx'
import { reasonable } from './choices.ts'
import { patternPlace } from './groups.ts'

interface Made {
  readonly applied?: Applied
  readonly problems: readonly Problem[]
}
const make = (build: Build, pattern: Pattern, answers: Readonly<Record<string, string>>): Made => {
  try {
    return { applied: applyPattern(build, pattern.id, answers), problems: [] }
  } catch (error) {
    if (error instanceof Refusal) return { problems: error.problems }
    throw error
  }
}

/** The circuit that the edit makes, or draws into. */
const circuitIn = ({ edit }: Applied): string | undefined => {
  for (const change of edit.changes) if ('collection' in change && change.collection === 'circuits') return change.id
  for (const change of edit.changes)
    if ('collection' in change && change.collection === 'wires') {
      const { circuit } = change.value as { readonly circuit?: string }
      if (circuit !== undefined) return circuit
    }
  return undefined
}

export function PatternPage({ build, pattern }: { build: Build; pattern: Pattern }) {
  const [answers, setAnswers] = useState<Readonly<Record<string, string>>>(() =>
    Object.fromEntries(pattern.questions.map((question) => [question.name, reasonable(build, question)])),
  )
  const [, go] = useLocation()
  const { applied, problems } = useMemo(() => make(build, pattern, answers), [build, pattern, answers])
  const answer = (name: string, text: string): void =>
    setAnswers((before) => (before[name] === text ? before : { ...before, [name]: text }))
  const waiting = problems.filter(({ code }) => code === 'no-answer')
  const asked = new Set(pattern.questions.map(({ name }) => name))
  const wrong = problems.filter(({ code }) => code !== 'no-answer')
  const circuit = applied && circuitIn(applied)
  const add = (): void => {
    if (applied && bench.edit(applied.edit)) go(circuitPlace(circuit))
  }
  return (
    <>
      <p className="small">
        <Link to={patternPlace()}>All patterns</Link>
      </p>
      <h1>{pattern.name}</h1>
      <p>{pattern.purpose}</p>
      <div className="pattern-page">
        <section aria-labelledby="answers">
          <h2 id="answers">What it needs to know</h2>
          {pattern.questions.map((question) => (
            <Answer
              key={question.name}
              {...{ build, question, answers, answer }}
              problems={wrong.filter(({ path }) => path === question.name)}
            />
          ))}
        </section>
        <div aria-live="polite" className="pattern-answer">
          {waiting.length > 0 && (
            <>
              <h2>Still to be answered</h2>
              <ul>
                {waiting.map(({ path, says }) => (
                  <li key={path}>{says.replace(/ is not answered\.$/, '')}</li>
                ))}
              </ul>
            </>
          )}
          <Problems list={wrong.filter(({ path }) => path === undefined || !asked.has(path))} />
          {applied && <Preview {...{ applied, circuit }} name={pattern.name} add={add} />}
          <h2>Before any of this work</h2>
          <ul className="small">
            {pattern.cautions.map((caution) => (
              <li key={caution}>{caution}</li>
            ))}
          </ul>
        </div>
      </div>
    </>
  )
}

const countsIn = ({ edit }: Applied): string => {
  const count = (collection: string): number =>
    edit.changes.filter((change) => 'collection' in change && change.collection === collection).length
  const [devices, wires] = [count('devices'), count('wires')]
  return `${devices} ${devices === 1 ? 'device' : 'devices'} and ${wires} ${wires === 1 ? 'wire' : 'wires'}`
}

interface PreviewProps {
  readonly applied: Applied
  readonly circuit: string | undefined
  readonly name: string
  readonly add: () => void
}
function Preview({ applied, circuit, name, add }: PreviewProps) {
  const [chosen, choose] = useState<string>()
  const { build, explains, problems } = applied
  const [tried, setTried] = useState<WhatIf>(NOTHING_TRIED)
  const live = useMemo(() => {
    const cases = Object.values(build.collections.cases)
    const kase = cases.find(({ engine }) => engine === 'full load') ?? cases[0]
    return kase === undefined ? undefined : liveOf(build, laidOver(kase, tried))
  }, [build, tried])
  const touch = (subject: string): void => {
    choose(subject)
    const device = build.collections.devices[subject.replace('devices/', '')]
    const position = device && live && device.restricted === undefined ? nextPosition(device, live) : undefined
    if (device && position !== undefined)
      setTried((before) => ({ ...before, switches: { ...before.switches, [device.id]: position } }))
  }
  const id = chosen?.slice(chosen.indexOf('/') + 1)
  const isAbout = (line: string): boolean => id !== undefined && line.split(/[^\w-]+/).some((word) => word === id)
  const worst = problems.some(({ verdict }) => verdict === 'no-go')
  return (
    <>
      <h2>As it would be drawn</h2>
      <CircuitDrawing
        {...{ build, circuit, name, live, chosen, choose }}
        touch={touch}
        worstOf={(subject) => problems.find(({ path }) => path === subject)?.verdict}
      />
      {live && (
        <p className="small soft">
          Figures in “{live.kase.name}”. {countsIn(applied)}; nothing is stored yet.
        </p>
      )}
      <div className="row">
        <button type="button" className="first" onClick={add}>
          Add it
        </button>
        {worst && <span className="small">The check has a no-go against it: see below.</span>}
      </div>
      <h2>What the check says of it</h2>
      {problems.length === 0 ? (
        <p>
          <VerdictMark verdict="sound" /> Nothing against it.
        </p>
      ) : (
        <ul className="plain pattern-problems">
          {problems.map(({ path, code, says, todo, verdict }) => (
            <li key={`${code}${path}${says}`}>
              <VerdictMark verdict={verdict} /> {says} <span className="soft">{todo}</span>
            </li>
          ))}
        </ul>
      )}
      <h2>Why so</h2>
      <ul className="why">
        {explains.map((line) => (
          <li key={line} className={isAbout(line) ? 'meant' : undefined}>
            {line}
          </li>
        ))}
      </ul>
    </>
  )
}
