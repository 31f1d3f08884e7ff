/** What is known so far: every entry stays in sight, can be mended or taken back, and doubtful ones are asked about. */
import { useState } from 'react'
import { type Question, REMARKS, type StoredSearch } from '../../assess/faults/faults.ts'
import { asTyped, UNIT } from '../../assess/faults/typed.ts'
import { pointSays } from '../../assess/faults/words.ts'
import { figureOf } from '../../assess/testSheets/figures.ts'
import { type MeterReading, meterReading } from '../../assess/testSheets/meterText.ts'
import type { Build } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { Problems } from '../parts/Problems.tsx'
import { bench } from '../workbench/bench.ts'
import { mendEdit } from './faultEdits.ts'

type Evidence = StoredSearch['evidence'][number]
const nameOf = (build: Build, about: string): string => build.collections.devices[about]?.name ?? `wire ${about}`
export const remarkSays = (build: Build, remark: string, about: string | undefined): string => {
  const says = REMARKS.find(({ key }) => key === remark)?.says ?? remark
  return about === undefined ? says : says.replace('…', nameOf(build, about))
}
const evidenceSays = (build: Build, entry: Evidence): string =>
  entry.kind === 'remark'
    ? remarkSays(build, entry.remark, entry.about)
    : `${figureOf(entry.value, entry.quantity, entry.unit)} at ${pointSays(build, entry.at)}${
        entry.against === undefined ? ', to battery negative' : `, to ${pointSays(build, entry.against)}`
      }`

interface Props {
  readonly build: Build
  readonly search: StoredSearch
  readonly questions: readonly Question[]
}

export function EvidenceList({ build, search, questions }: Props) {
  if (search.evidence.length === 0) return null
  return (
    <section aria-labelledby="evidence">
      <h2 id="evidence">What is known</h2>
      <ol className="evidence">
        {search.evidence.map((entry, at) => (
          <Entry
            // biome-ignore lint/suspicious/noArrayIndexKey: an entry is known by its place; its text may come twice.
            key={`${at} ${JSON.stringify(entry)}`}
            {...{ build, search, entry, at }}
            question={questions.find(({ evidence }) => evidence === at)}
          />
        ))}
      </ol>
    </section>
  )
}

interface EntryProps {
  readonly build: Build
  readonly search: StoredSearch
  readonly entry: Evidence
  readonly at: number
  readonly question: Question | undefined
}

function Entry({ build, search, entry, at, question }: EntryProps) {
  const [mending, setMending] = useState(false)
  const says = evidenceSays(build, entry)
  const isOpen = search.status === 'open'
  const confirmed = entry.kind === 'reading' ? { ...entry, confirmed: true } : undefined
  return (
    <li>
      <p>
        {says}{' '}
        {isOpen && (
          <>
            {entry.kind === 'reading' && (
              <button type="button" className="quiet" aria-expanded={mending} onClick={() => setMending(!mending)}>
                Mend
              </button>
            )}
            <button
              type="button"
              className="quiet"
              onClick={() => bench.edit(mendEdit(search, at, undefined, `Taken back: ${says}`.slice(0, 160)))}
            >
              Take back
            </button>
          </>
        )}
      </p>
      {question && isOpen && (
        <div className="question" role="status">
          <p>{question.says}</p>
          <div className="row">
            {question.instead && (
              <button
                type="button"
                className="first"
                onClick={() => bench.edit(mendEdit(search, at, question.instead, `Mended: ${says}`.slice(0, 160)))}
              >
                Yes, take it as {figureOf(question.instead.value, question.instead.quantity, question.instead.unit)}
              </button>
            )}
            {confirmed && question.code !== 'unknown-point' && (
              <button
                type="button"
                onClick={() => bench.edit(mendEdit(search, at, confirmed, `Confirmed: ${says}`.slice(0, 160)))}
              >
                It is right as it stands
              </button>
            )}
          </div>
        </div>
      )}
      {mending && entry.kind === 'reading' && (
        <Mend
          entry={entry}
          keep={(read) => {
            const { unit: _, step: __, ...rest } = entry
            bench.edit(mendEdit(search, at, { ...rest, ...read }, `Mended: ${says}`.slice(0, 160)))
          }}
        />
      )}
    </li>
  )
}

interface MendProps {
  readonly entry: Extract<Evidence, { kind: 'reading' }>
  readonly keep: (read: MeterReading) => void
}

function Mend({ entry, keep }: MendProps) {
  const [text, setText] = useState(asTyped(entry.value, entry.quantity, entry.unit) ?? String(entry.value))
  const [problems, setProblems] = useState<readonly Problem[]>([])
  return (
    <form
      className="row"
      onSubmit={(event) => {
        event.preventDefault()
        try {
          keep(meterReading(entry.quantity, text))
        } catch (error) {
          if (!(error instanceof Refusal)) throw error
          setProblems(error.problems)
        }
      }}
    >
      <input aria-label="What it should have been" value={text} onChange={(event) => setText(event.target.value)} />
      <span className="unit">{UNIT[entry.quantity]}</span>
      <button type="submit">Keep</button>
      <Problems list={problems} />
    </form>
  )
}
