/** One question of a pattern: a choice from this build where the build can offer one, else typed. */
import { useEffect, useId, useState } from 'react'
import type { Question } from '../../../assess/patterns/index.ts'
import type { Build } from '../../../model/build.ts'
import type { Problem } from '../../../units/problem.ts'
import { type Choices, choicesFor, takes } from './choices.ts'

interface Props {
  readonly build: Build
  readonly question: Question
  readonly answers: Readonly<Record<string, string>>
  readonly problems: readonly Problem[]
  readonly answer: (name: string, text: string) => void
}

export function Answer({ build, question, answers, problems, answer }: Props) {
  const id = useId()
  const { name, asks, title, hint, otherwise, optional } = question
  const text = answers[name] ?? ''
  const isTyped = asks.type === 'quantity' || asks.type === 'text'
  const choices = isTyped ? [] : choicesFor(build, question, answers)
  const [, most] = takes(question)
  const note = `${id}-note`
  return (
    <div className="pattern-question">
      {most > 1 ? (
        <Several {...{ id, note, question, choices, text, answer }} />
      ) : (
        <>
          <label htmlFor={id}>
            {title}
            {optional && <span className="soft"> (may be left out)</span>}
          </label>
          {isTyped ? (
            <Typed {...{ id, note, text }} hint={otherwise ?? ''} keep={(typed) => answer(name, typed)} />
          ) : (
            <Select
              {...{ id, note, choices, text }}
              empty={otherwise ?? NONE}
              choose={(value) => answer(name, value)}
            />
          )}
        </>
      )}
      <p id={note} className={problems.length > 0 ? 'small wrong' : 'small soft'}>
        {problems.length > 0
          ? problems.map(({ says, todo }) => `${says} ${todo}`).join(' ')
          : choices.length === 0 && !isTyped
            ? nothingFor(question)
            : `${hint.replace(/,? with commas between$/, '')}${otherwise === undefined ? '' : `; else ${otherwise}`}`}
      </p>
    </div>
  )
}

const NONE = 'not chosen'
const nothingFor = ({ asks }: Question): string => {
  switch (asks.type) {
    case 'branch point':
    case 'branch points':
      return 'The loom has no branch point yet; enter its runs and branch points first.'
    case 'controller pins':
      return 'Choose the controller first; it then offers its free pins.'
    case 'device':
      return `There is no ${asks.of.join(' or ')} in this build yet; enter it first.`
    default:
      return 'There is nothing in this build to choose from yet.'
  }
}

interface SelectProps {
  readonly id: string
  readonly note: string
  readonly label?: string
  readonly choices: readonly Choices[]
  readonly text: string
  readonly empty: string
  readonly choose: (value: string) => void
}
function Select({ id, note, label, choices, text, empty, choose }: SelectProps) {
  return (
    <select
      id={id}
      aria-describedby={note}
      aria-label={label}
      value={text}
      disabled={choices.length === 0}
      onChange={(event) => choose(event.target.value)}
    >
      <option value="">{empty}</option>
      {choices.map(({ group, choices: some }) => (
        <optgroup key={group} label={group}>
          {some.map(({ value, name }) => (
            <option key={value} value={value}>
              {name}
            </option>
          ))}
        </optgroup>
      ))}
    </select>
  )
}

/** Kept when it is left or Enter is pressed: a circuit is not sized again for every letter. */
function Typed({
  id,
  note,
  text,
  hint,
  keep,
}: {
  id: string
  note: string
  text: string
  hint: string
  keep: (typed: string) => void
}) {
  const [typed, setTyped] = useState(text)
  useEffect(() => setTyped(text), [text])
  return (
    <input
      id={id}
      aria-describedby={note}
      autoComplete="off"
      maxLength={120}
      placeholder={hint}
      value={typed}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={() => keep(typed.trim())}
      onKeyDown={(event) => {
        if (event.key === 'Enter') keep(typed.trim())
      }}
    />
  )
}

interface SeveralProps {
  readonly id: string
  readonly note: string
  readonly question: Question
  readonly choices: readonly Choices[]
  readonly text: string
  readonly answer: (name: string, text: string) => void
}
/** As many fields as are needed and one more, up to the most that the question takes. */
function Several({ id, note, question, choices, text, answer }: SeveralProps) {
  const [least, most] = takes(question)
  const chosen = text === '' ? [] : text.split(', ')
  const fields = Math.min(most, Math.max(least, chosen.length + 1))
  const put = (at: number, value: string): void => {
    const next = [...chosen]
    next[at] = value
    answer(question.name, next.filter((one) => one !== undefined && one !== '').join(', '))
  }
  return (
    <fieldset>
      <legend>
        {question.title}
        {question.optional && <span className="soft"> (may be left out)</span>}
      </legend>
      {Array.from({ length: fields }, (_, at) => (
        <Select
          // The fields have no name but their place.
          // biome-ignore lint/suspicious/noArrayIndexKey: see above.
          key={at}
          id={`${id}-${at}`}
          note={note}
          label={`${question.title}, ${at + 1}`}
          choices={choices}
          text={chosen[at] ?? ''}
          empty={at < least ? NONE : 'no further one'}
          choose={(value) => put(at, value)}
        />
      ))}
    </fieldset>
  )
}
