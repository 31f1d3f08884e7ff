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
      } else if (question === 'injectors') {
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
            ...(changed.length > 0 ? { changed } : {}),
          },
        })
      } else onAsk(question === 'compare' ? { other } : {})
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  const pair = question === 'compare' || question === 'injectors'
  return (
    <div className="field ask">
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
      {question === 'injectors' && (
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
        {pair ? 'Answer from both logs' : 'Answer from this log'}
      </button>
    </div>
  )
}
