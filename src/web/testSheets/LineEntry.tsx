/** One line's answer: type what the meter shows, or tick; then what it means, and what is asked about. */
import { useId, useState } from 'react'
import { Link } from 'wouter'
import { UNIT } from '../../assess/faults/typed.ts'
import { figureOf, readText } from '../../assess/testSheets/figures.ts'
import { type MeterReading, meterReading, OPEN_OHMS } from '../../assess/testSheets/meterText.ts'
import type { LineStanding, TestSheet } from '../../assess/testSheets/testSheet.ts'
import { canUntake, mendReading, takeReading, tickLine, untake } from '../../assess/testSheets/testSheet.ts'
import type { SheetTest } from '../../assess/testSheets/types.ts'
import type { Build } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { readMeter } from '../faults/meter.ts'
import { howRead } from '../faults/newReading.ts'
import { Problems } from '../parts/Problems.tsx'
import { bench } from '../workbench/bench.ts'

interface Props {
  readonly build: Build
  readonly sheet: TestSheet
  readonly standing: LineStanding
  /** Called once something was kept: whether it needs no more attention. */
  readonly after?: (settled: boolean) => void
}

export function LineEntry({ build, sheet, standing, after }: Props) {
  const { line, reading } = standing
  const [again, setAgain] = useState(false)
  const settled = (isSettled: boolean): void => {
    setAgain(false)
    after?.(isSettled)
  }
  const tick = (): void => {
    const { by } = readMeter()
    const edit = tickLine(build, sheet, line, { when: new Date().toISOString(), ...(by === '' ? {} : { by }) })
    if (bench.edit(edit)) settled(true)
  }
  if (reading && !again)
    return (
      <div className="answer">
        <Answer {...{ build, standing }} />
        <p className="row no-print">
          {line.kind === 'test' && (
            <button type="button" className="quiet" onClick={() => setAgain(true)}>
              Read again
            </button>
          )}
          {canUntake(build, reading) && (
            <button type="button" className="quiet" onClick={() => void bench.edit(untake(build, reading))}>
              Take back
            </button>
          )}
        </p>
      </div>
    )
  return (
    <div className="no-print">
      {line.kind === 'test' && <Typed {...{ build, sheet, line }} after={settled} />}
      <button type="button" className={line.kind === 'do' ? 'first tick' : 'tick'} onClick={tick}>
        {line.kind === 'do' ? 'Done' : line.expect?.value === null ? 'It shows nothing, as it should' : 'As expected'}
      </button>
    </div>
  )
}

interface TypedProps {
  readonly build: Build
  readonly sheet: TestSheet
  readonly line: SheetTest
  readonly after: ((settled: boolean) => void) | undefined
}

function Typed({ build, sheet, line, after }: TypedProps) {
  const [text, setText] = useState('')
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const wrong = useId()
  const unit = UNIT[line.quantity]
  const keep = (typed: string | MeterReading): void => {
    try {
      const { value, ...unit } = typeof typed === 'string' ? meterReading(line.quantity, typed) : typed
      const how = { ...unit, ...howRead(line.quantity, new Date().toISOString()) }
      const { edit, verdict } = takeReading(build, sheet, line, value, how)
      setProblems([])
      if (!bench.edit(edit)) return
      setText('')
      after?.(verdict?.kind === 'in tolerance')
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      setProblems(error.problems)
    }
  }
  return (
    <form
      className="the-number"
      onSubmit={(event) => {
        event.preventDefault()
        keep(text)
      }}
    >
      <span className="row">
        <input
          inputMode="decimal"
          autoComplete="off"
          aria-label={`Reading: ${line.says}`}
          aria-describedby={problems.length > 0 ? wrong : undefined}
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
        <span className="unit">{unit}</span>
        <button type="submit">Keep</button>
        {line.quantity === 'ohms' && line.expect?.value !== null && (
          <button type="button" onClick={() => keep({ value: OPEN_OHMS })}>
            OL: no continuity
          </button>
        )}
      </span>
      <Problems list={problems} id={wrong} />
    </form>
  )
}

function Answer({ build, standing }: { build: Build; standing: LineStanding }) {
  const { line, reading, verdict } = standing
  if (!reading || line.kind === 'do' || verdict === undefined) return <p className="kept">Ticked.</p>
  const value = <strong className="figure">{readText(reading, line.quantity)}</strong>
  if (verdict.kind === 'in tolerance') return <p className="kept">{value} in tolerance.</p>
  if (verdict.kind === 'unknown')
    return (
      <p className="kept">
        {value} kept; whether it is right cannot be told without {verdict.missing}.
      </p>
    )
  if (verdict.kind === 'out of tolerance')
    return (
      <div className="kept out" role="status">
        <p>
          {value} is too {verdict.side}. {verdict.means}
        </p>
        {reading.search !== undefined && (
          <p className="no-print">
            <Link to={`/faults/${reading.search}`}>
              {build.collections.faultSearches[reading.search]?.status === 'open'
                ? 'Go on with the fault search'
                : 'The fault search'}
            </Link>
          </p>
        )}
      </div>
    )
  const answer = (given: number, unit?: string): void =>
    void bench.edit(mendReading(build, line, reading, given, unit).edit)
  return (
    <div className="question" role="status">
      <p>{verdict.question}</p>
      <div className="row no-print">
        {verdict.value !== undefined && (
          <button type="button" className="first" onClick={() => answer(verdict.value!, verdict.unit)}>
            Yes, take it as {figureOf(verdict.value, line.quantity, verdict.unit ?? reading.unit)}
          </button>
        )}
        {verdict.code !== 'unknown-point' && (
          <button type="button" onClick={() => answer(reading.value)}>
            It is right as it stands
          </button>
        )}
      </div>
    </div>
  )
}
