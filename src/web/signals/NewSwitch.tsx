/** A switch that is to be made: its resistors chosen and proven, then drawn into the circuits by its pattern. */
import { useState } from 'react'
import { useLocation } from 'wouter'
import { type Applied, applyPattern, patterns } from '../../assess/patterns/index.ts'
import { knownOf } from '../../assess/signals/known.ts'
import { ageingWords, readAgain, switchSheet } from '../../assess/signals/switches.ts'
import type { Build } from '../../model/build.ts'
import { parseQuantity } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { showPreferred } from '../parts/units.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { BandAxis, millivolts } from './BandAxis.tsx'
import { sheetPlace } from './LedgerList.tsx'
import { SolderDrawing } from './SolderDrawing.tsx'
import { SwitchRows } from './SwitchPage.tsx'

const PATTERN = 'resistance-switch'
/** Asked here by other means, or answered by a design. */
const NOT_HERE = new Set(['buttons', 'resistors', 'idle'])

const freePins = (build: Build, controller: string): string[] => {
  const taken = new Set(Object.values(build.collections.wires).flatMap(({ from, to }) => [from, to]))
  const held = new Set(
    [...Object.values(build.collections.inputs), ...Object.values(build.collections.outputs)]
      .filter(({ device }) => device === controller)
      .map(({ pin }) => pin),
  )
  return Object.entries(build.collections.devices[controller]?.pins ?? {})
    .filter(
      ([pin, { name }]) => !taken.has(`${controller}.${pin}`) && !held.has(pin) && !/supply|earth/i.test(name ?? ''),
    )
    .map(([pin]) => pin)
}

export function NewSwitch() {
  const { build } = useBench()
  const [, go] = useLocation()
  const controllers = build
    ? Object.values(build.collections.devices).filter(
        ({ spec, restricted }) => spec.kind === 'controller' && !restricted,
      )
    : []
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({
    names: 'Up, Down, Set',
    controller: controllers[0]?.id ?? '',
  })
  const [applied, setApplied] = useState<Applied>()
  const [problems, setProblems] = useState<readonly Problem[]>([])
  if (!build) return null
  const pattern = patterns.find(({ id }) => id === PATTERN)!
  const set = (name: string, text: string): void => {
    setTyped((before) => ({ ...before, [name]: text }))
    setApplied(undefined)
  }
  const choose = (): void => {
    const names = (typed.names ?? '').split(',').filter((name) => name.trim() !== '')
    const answers = Object.fromEntries(Object.entries(typed).filter(([, text]) => text.trim() !== ''))
    try {
      setApplied(applyPattern(build, PATTERN, { ...answers, buttons: String(names.length) }))
      setProblems([])
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setApplied(undefined)
      setProblems(error.problems)
    }
  }
  const made = applied?.edit.changes.find(
    (change): change is Extract<typeof change, { collection: unknown }> =>
      'collection' in change && change.collection === 'resistanceSwitches',
  )
  const asked = pattern.questions.find(({ name }) => name === 'offset')
  const offset = applied ? parseQuantity('voltage', typed.offset?.trim() || (asked?.otherwise ?? '')).value : 0
  return (
    <>
      <h1>A new switch on one wire</h1>
      <p>Which resistors keep its buttons furthest apart? Say what there is; nothing is stored until you add it.</p>
      <form
        className="design"
        onSubmit={(event) => {
          event.preventDefault()
          choose()
        }}
      >
        {pattern.questions
          .filter(({ name }) => !NOT_HERE.has(name))
          .map((question) => {
            const { asks, name } = question
            const options =
              asks.type === 'choice'
                ? asks.options.map((each) => [each, each] as const)
                : asks.type === 'branch point'
                  ? Object.values(build.collections.branchPoints).map((each) => [each.id, each.name] as const)
                  : asks.type === 'device'
                    ? controllers.map((each) => [each.id, each.name] as const)
                    : asks.type === 'controller pins'
                      ? freePins(build, typed.controller ?? '').map((pin) => [pin, pin] as const)
                      : undefined
            return (
              <div key={name} className={name === 'names' || name === 'from' ? 'wide' : undefined}>
                <label htmlFor={`new-${name}`}>{question.title}</label>
                {options ? (
                  <select
                    id={`new-${name}`}
                    value={typed[name] ?? ''}
                    onChange={(event) => set(name, event.target.value)}
                  >
                    <option value="">{question.otherwise ?? (question.optional ? 'left open' : 'not chosen')}</option>
                    {options.map(([value, text]) => (
                      <option key={value} value={value}>
                        {text}
                      </option>
                    ))}
                  </select>
                ) : (
                  <input
                    id={`new-${name}`}
                    value={typed[name] ?? ''}
                    placeholder={question.otherwise ?? question.hint}
                    onChange={(event) => set(name, event.target.value)}
                  />
                )}
              </div>
            )
          })}
        <button type="submit" className="first">
          Choose
        </button>
      </form>
      <Problems list={problems} />
      <div aria-live="polite">
        {applied && made && (
          <Preview
            applied={applied}
            id={made.id}
            offset={offset}
            add={() => {
              if (bench.edit(applied.edit)) go(sheetPlace(`resistanceSwitches/${made.id}`))
            }}
          />
        )}
      </div>
    </>
  )
}

function Preview({ applied, id, offset, add }: { applied: Applied; id: string; offset: number; add: () => void }) {
  const record = applied.build.collections.resistanceSwitches[id]
  if (!record) return null
  const bare = switchSheet(knownOf(applied.build, { cases: {} }), record)
  // The bands stand for the offset that was answered; the solved one is known once it is in the build.
  const sheet = bare.circuit
    ? readAgain({ ...bare, circuit: { ...bare.circuit, earthOffset: { low: -offset, high: offset } } })
    : bare
  return (
    <section aria-label="The switch chosen">
      <h2>Chosen</h2>
      {sheet.reading && (
        <p className="answer">
          <strong>Narrowest gap {millivolts(sheet.reading.smallest.gap)}</strong>, between{' '}
          {sheet.reading.smallest.below} and {sheet.reading.smallest.above}; no other choice of these parts has a wider
          one. {sheet.ageing && ageingWords(sheet.ageing, (value) => showPreferred('resistance', value))}
        </p>
      )}
      {sheet.reading && sheet.circuit && (
        <div className="two">
          <SolderDrawing sheet={sheet} />
          <BandAxis reading={sheet.reading} fullScale={sheet.circuit.supply.high} title="Bands of the switch chosen" />
        </div>
      )}
      <SwitchRows sheet={sheet} />
      <details>
        <summary>How it was chosen, and every wire of it</summary>
        <ul className="small">
          {applied.explains.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </details>
      <Problems list={applied.problems} />
      <h2>Take care</h2>
      <ul>
        {applied.cautions.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <button type="button" className="first" onClick={add}>
        Add it to the circuits
      </button>
    </section>
  )
}
