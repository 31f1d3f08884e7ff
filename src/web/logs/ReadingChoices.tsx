/** How a file is to be read where the guess was wrong: only what is said here overrules it. */
import { type FormEvent, useId, useState } from 'react'

/** By the names that the server's guesses carry. */
export type Choices = Readonly<Record<string, string | number | boolean | null>>

const YES_NO: readonly (readonly [string, string])[] = [
  ['yes', 'yes'],
  ['no', 'no'],
]
const PICKS: Readonly<Record<string, readonly [label: string, options: readonly (readonly [string, string])[]]>> = {
  delimiter: [
    'Columns are divided by',
    [
      [',', 'commas'],
      [';', 'semicolons'],
      ['\t', 'tabs'],
      ['|', 'pipes'],
      [' ', 'blanks'],
      ['one', 'nothing: one value a line'],
    ],
  ],
  decimal: [
    'The decimal sign is',
    [
      ['.', 'a point'],
      [',', 'a comma'],
    ],
  ],
  encoding: [
    'Letters are written as',
    [
      ['utf-8', 'UTF-8'],
      ['utf-16le', 'UTF-16, little end first'],
      ['utf-16be', 'UTF-16, big end first'],
      ['windows-1252', 'Latin-1'],
    ],
  ],
  timeForm: [
    'Time is given in',
    [
      ['seconds', 'seconds'],
      ['milliseconds', 'milliseconds'],
      ['microseconds', 'microseconds'],
      ['minutes', 'minutes'],
      ['hours', 'hours'],
      ['clock', 'clock time'],
      ['date-time', 'date and clock in one cell'],
      ['date-and-clock', 'date and clock in two columns'],
      ['epoch', 'seconds since 1970'],
      ['epoch-milliseconds', 'milliseconds since 1970'],
      ['sample-number', 'samples, counted'],
      ['none', 'there is none'],
    ],
  ],
  dayFirst: [
    'Dates such as 03/04 are',
    [
      ['yes', 'day first'],
      ['no', 'month first'],
    ],
  ],
  sentinels: ['Values such as -9999 stand for a missing one', YES_NO],
  hexadecimal: ['Cells such as 0A and 1F are hexadecimal figures', YES_NO],
  spread: ['A column of names beside one of values is spread over channels', YES_NO],
}
const FIELDS: Readonly<Record<string, readonly [label: string, such: string]>> = {
  timeColumn: ['The time column', 'its name or number; none'],
  rate: ['Samples a second', 'such as 50'],
  nameLine: ['Line of the names', 'from 1; 0 for none'],
  unitLine: ['Line of the units', 'from 1; 0 for none'],
  dataLine: ['First line of values', 'from 1'],
}

function meant(key: string, text: string): string | number | boolean | null {
  if (key === 'delimiter') return text === 'one' ? '' : text
  if (key in PICKS) return text === 'yes' ? true : text === 'no' ? false : text
  const plain = text.trim()
  if (key === 'timeColumn') return plain === 'none' ? null : /^\d+$/.test(plain) ? Number(plain) : plain
  return /^[\d.,]+$/.test(plain) ? Number(plain.replace(',', '.')) : plain
}

interface Props {
  readonly guessed: readonly string[]
  readonly busy: boolean
  readonly act: string
  readonly onRead: (choices: Choices) => void
}

export function ReadingChoices({ guessed, busy, act, onRead }: Props) {
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>({})
  const id = useId()
  const said = Object.entries(texts).filter(([, text]) => text !== '')
  const submit = (event: FormEvent): void => {
    event.preventDefault()
    onRead(Object.fromEntries(said.map(([key, text]) => [key, meant(key, text)])))
  }
  const keys = [...Object.keys(PICKS), ...Object.keys(FIELDS)]
  const control = (key: string) => {
    const pick = PICKS[key]
    const put = (text: string): void => setTexts({ ...texts, [key]: text })
    return (
      <label key={key} htmlFor={`${id}-${key}`}>
        {pick?.[0] ?? FIELDS[key]![0]}
        {pick ? (
          <select id={`${id}-${key}`} value={texts[key] ?? ''} onChange={(event) => put(event.target.value)}>
            <option value="">as it was taken</option>
            {pick[1].map(([value, title]) => (
              <option key={value} value={value}>
                {title}
              </option>
            ))}
          </select>
        ) : (
          <input
            id={`${id}-${key}`}
            placeholder={FIELDS[key]![1]}
            value={texts[key] ?? ''}
            onChange={(event) => put(event.target.value)}
          />
        )}
      </label>
    )
  }
  const asked = keys.filter((key) => guessed.includes(key))
  return (
    <form className="field ask" onSubmit={submit}>
      {asked.map(control)}
      <details open={asked.length === 0}>
        <summary>{asked.length === 0 ? 'How it is to be read' : 'More about how it is to be read'}</summary>
        <div className="ask">{keys.filter((key) => !guessed.includes(key)).map(control)}</div>
      </details>
      <button type="submit" disabled={busy || said.length === 0}>
        {act}
      </button>
    </form>
  )
}
