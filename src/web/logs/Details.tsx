/** What a question needs besides the log: the other log, a target, a card. */
import { useId, useState } from 'react'
import type { Kind } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { readMeasure } from '../parts/quantityText.ts'
import type { Question } from './questions.ts'
import type { Log } from './strips.ts'

export interface AskDetails {
  readonly other?: string
  readonly headroom?: object
  readonly injectors?: object
  readonly bench?: object
}
interface Props {
  readonly question: Question['id']
  readonly log: Log
  readonly logs: readonly Log[]
  readonly hasCard: boolean
  readonly busy: boolean
  readonly onAsk: (details: AskDetails) => void
}

export function Details({ question, log, logs, hasCard, busy, onAsk }: Props) {
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>({})
  const [other, setOther] = useState('')
  const [card, setCard] = useState<string>()
  const [trimMissing, setTrimMissing] = useState(false)
  const [weighed, setWeighed] = useState(false)
  const [narrowBand, setNarrowBand] = useState(false)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const id = useId()
  const others = logs.filter((each) => each.id !== log.id)
  const read = (name: string, kind: Kind): number | undefined => readMeasure(kind, texts[name] ?? '')?.value
  const field = (name: string, label: string, such: string) => (
    <label htmlFor={`${id}-${name}`}>
      {label}
      <input
        id={`${id}-${name}`}
        placeholder={such}
        value={texts[name] ?? ''}
        onChange={(event) => setTexts({ ...texts, [name]: event.target.value })}
      />
    </label>
  )
  const pulses = (name: string, label: string) => (
    <label>
      {label}
      <select value={texts[name] ?? ''} onChange={(event) => setTexts({ ...texts, [name]: event.target.value })}>
        <option value="">not said: one pulse a cycle</option>
        <option value="1">sequential: one pulse a cycle</option>
        <option value="2">banked: two pulses a cycle</option>
      </select>
    </label>
  )
  const whole = (name: string): number | undefined => (texts[name] ? Number(texts[name]) : undefined)
  const ask = (): void => {
    try {
      setProblems([])
      if (question === 'headroom') {
        const [targetSpeed, targetPressure, limit] = [
          read('speed', 'angularSpeed'),
          read('pressure', 'pressureAbsolute'),
          read('limit', 'ratio'),
        ]
        const pulsesPerCycle = whole('pulses')
        onAsk({
          headroom: {
            ...(targetSpeed === undefined ? {} : { targetSpeed }),
            ...(targetPressure === undefined ? {} : { targetPressure }),
            ...(limit === undefined ? {} : { limit }),
            ...(pulsesPerCycle === undefined ? {} : { pulsesPerCycle }),
          },
        })
      } else if (question === 'injectors' && weighed) {
        const [density, across] = [read('density', 'density'), read('across', 'pressureDifference')]
        const fluid = texts.fluid?.trim()
        if (!fluid || density === undefined || across === undefined) {
          setProblems([
            {
              code: 'missing-figures',
              says: 'Without the fluid, its density and the pressure across the injectors the weighings belong to nothing.',
              todo: 'Fill in all three.',
            },
          ])
          return
        }
        onAsk({ bench: { name: texts.name?.trim() || log.name, fluid, density, across } })
      } else if (question === 'injectors') {
        const lambdaTolerance = read('lambda', 'ratio')
        const across = read('across', 'pressureDifference')
        const [pulsesKnown, pulsesUnknown] = [whole('known'), whole('unknown')]
        const changed = (texts.changed ?? '')
          .split(/[,;]/)
          .map((each) => each.trim())
          .filter(Boolean)
        onAsk({
          other,
          injectors: {
            ...(card === undefined ? {} : { card }),
            ...(texts.name?.trim() ? { name: texts.name.trim() } : {}),
            ...(across === undefined ? {} : { across }),
            ...(pulsesKnown === undefined ? {} : { pulsesKnown }),
            ...(pulsesUnknown === undefined ? {} : { pulsesUnknown }),
            ...(trimMissing ? { trimMissing } : {}),
            ...(narrowBand ? { narrowBand } : {}),
            ...(lambdaTolerance === undefined ? {} : { lambdaTolerance }),
            ...(changed.length > 0 ? { changed } : {}),
          },
        })
      } else onAsk(question === 'compare' ? { other } : {})
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  const pair = question === 'compare' || (question === 'injectors' && !weighed)
  return (
    <div className="field ask">
      {question === 'injectors' && (
        <fieldset>
          <legend>What there is</legend>
          <label className="choice">
            <input type="radio" name={`${id}-from`} checked={!weighed} onChange={() => setWeighed(false)} />
            this log and one with known injectors, of the same engine
          </label>
          <label className="choice">
            <input type="radio" name={`${id}-from`} checked={weighed} onChange={() => setWeighed(true)} />
            this is a table of weighings from a bench test
          </label>
        </fieldset>
      )}
      {question === 'injectors' && weighed && (
        <>
          {field('name', 'Name of the injectors', 'such as green, from the donor')}
          {field('fluid', 'Fluid that was weighed', 'such as n-heptane')}
          {field('density', 'Its density', 'such as 684 kg/m³')}
          {field('across', 'Pressure across the injectors', 'such as 300 kPa')}
        </>
      )}
      {pair && (
        <label>
          {question === 'compare' ? 'The log before the change' : 'The log with the known injectors'}
          <select value={other} onChange={(event) => setOther(event.target.value)}>
            <option value="">{others.length === 0 ? 'take it in first, above' : 'choose a log'}</option>
            {others.map((each) => (
              <option key={each.id} value={each.id}>
                {each.name}
              </option>
            ))}
          </select>
        </label>
      )}
      {question === 'headroom' && (
        <>
          {field('speed', 'Target speed', 'the build’s, such as 6500 rpm')}
          {field('pressure', 'Target manifold pressure', 'such as 180 kPa absolute')}
          {field('limit', 'Duty allowed', '85 %')}
          {pulses('pulses', 'Injection')}
        </>
      )}
      {question === 'injectors' && !weighed && (
        <>
          <label>
            {hasCard ? 'Card of the known injectors; else the fuel sheet’s' : 'Card of the known injectors'}
            <input
              type="file"
              accept=".json,application/json"
              onChange={(event) => void event.target.files?.[0]?.text().then(setCard)}
            />
          </label>
          <details>
            <summary>More about the two logs</summary>
            {field('name', 'Name of the unknown injectors', 'such as green, from the donor')}
            {field('across', 'Pressure across the injectors, where not logged', 'such as 300 kPa')}
            {field('lambda', 'How differently lambda may read in the two logs', '1 %')}
            {field('changed', 'What of exhaust, camshafts or boost changed between them', 'nothing')}
            {pulses('known', 'Injection in the log of the known set')}
            {pulses('unknown', 'Injection in the log of the unknown set')}
            <label className="choice">
              <input type="checkbox" checked={trimMissing} onChange={() => setTrimMissing(!trimMissing)} />
              The pulse width was logged without the closed-loop trim
            </label>
            <label className="choice">
              <input type="checkbox" checked={narrowBand} onChange={() => setNarrowBand(!narrowBand)} />
              Only a narrow-band lambda sensor was fitted
            </label>
          </details>
        </>
      )}
      <Problems list={problems} />
      <button type="button" className="first" disabled={busy || (pair && other === '')} onClick={ask}>
        {pair
          ? 'Answer from both logs'
          : weighed && question === 'injectors'
            ? 'Answer from the weighings'
            : 'Answer from this log'}
      </button>
    </div>
  )
}
