/** Fields that keep when they are left or Enter is pressed, and say what is wrong beside themselves. */
import { type ReactNode, useEffect, useId, useState } from 'react'
import type { Problem } from '../../units/problem.ts'

interface TextProps {
  readonly label: string
  readonly text: string
  /** The problems, when the text is refused. */
  readonly keep: (text: string) => readonly Problem[]
  readonly hint?: string
  readonly note?: string
  /** Several lines: kept when it is left. */
  readonly lines?: number
  readonly type?: 'text' | 'date' | 'number'
  /** The label is for those who hear the page; the eye has the table's head. */
  readonly quiet?: boolean
}

export function Wrong({ list, id }: { readonly list: readonly Problem[]; readonly id?: string }) {
  if (list.length === 0) return null
  return (
    <p className="small wrong" role="alert" id={id}>
      {list.map(({ says, todo }) => `${says} ${todo}`).join(' ')}
    </p>
  )
}

export function TextField({ label, text, keep, hint, note, lines, type = 'text', quiet }: TextProps) {
  const id = useId()
  const [typed, setTyped] = useState(text)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  useEffect(() => {
    setTyped(text)
    setProblems([])
  }, [text])
  const settle = (): void => {
    if (typed.trim() === text.trim()) {
      setTyped(text)
      setProblems([])
    } else setProblems(keep(typed.trim()))
  }
  const shared = {
    id,
    value: typed,
    placeholder: hint,
    autoComplete: 'off',
    'aria-invalid': problems.length > 0,
    'aria-describedby': problems.length > 0 ? `${id}-wrong` : note ? `${id}-note` : undefined,
    onBlur: settle,
  }
  return (
    <div className="job-field">
      <label htmlFor={id} className={quiet ? 'out-of-sight' : undefined}>
        {label}
      </label>
      {lines === undefined ? (
        <input
          {...shared}
          type={type === 'number' ? 'text' : type}
          inputMode={type === 'number' ? 'decimal' : undefined}
          onChange={(event) => setTyped(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') {
              event.preventDefault()
              settle()
            } else if (event.key === 'Escape') {
              setTyped(text)
              setProblems([])
            }
          }}
        />
      ) : (
        <textarea {...shared} rows={lines} onChange={(event) => setTyped(event.target.value)} />
      )}
      {note && problems.length === 0 && (
        <p className="small soft" id={`${id}-note`}>
          {note}
        </p>
      )}
      <Wrong list={problems} id={`${id}-wrong`} />
    </div>
  )
}

export interface Choice {
  readonly value: string
  readonly name: string
}
export function SelectField({
  label,
  value,
  choices,
  keep,
  empty,
  quiet,
}: {
  readonly label: string
  readonly value: string
  readonly choices: readonly Choice[]
  readonly keep: (value: string) => void
  readonly empty?: string
  readonly quiet?: boolean
}) {
  const id = useId()
  return (
    <div className="job-field">
      <label htmlFor={id} className={quiet ? 'out-of-sight' : undefined}>
        {label}
      </label>
      <select id={id} value={value} onChange={(event) => keep(event.target.value)}>
        {empty !== undefined && <option value="">{empty}</option>}
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.name}
          </option>
        ))}
        {value !== '' && !choices.some((choice) => choice.value === value) && (
          <option value={value}>{value}, not listed</option>
        )}
      </select>
    </div>
  )
}

export function Tick({
  checked,
  change,
  children,
}: {
  readonly checked: boolean
  readonly change: (checked: boolean) => void
  readonly children: ReactNode
}) {
  return (
    <label className="choice">
      <input type="checkbox" checked={checked} onChange={(event) => change(event.target.checked)} />
      <span>{children}</span>
    </label>
  )
}

/** Chosen things with a way to let each go, and a list of the rest to choose from. */
export function SeveralField({
  label,
  chosen,
  choices,
  keep,
  nothing,
}: {
  readonly label: string
  readonly chosen: readonly string[]
  readonly choices: readonly Choice[]
  readonly keep: (chosen: readonly string[]) => void
  readonly nothing: string
}) {
  const id = useId()
  const nameOf = (value: string): string =>
    choices.find((choice) => choice.value === value)?.name ?? `${value}, which nobody lists`
  const rest = choices.filter(({ value }) => !chosen.includes(value))
  return (
    <fieldset className="job-field several">
      <legend>{label}</legend>
      {chosen.length === 0 ? (
        <p className="small soft">{nothing}</p>
      ) : (
        <ul className="plain">
          {chosen.map((value) => (
            <li key={value}>
              <span>{nameOf(value)}</span>
              <button
                type="button"
                aria-label={`Remove ${nameOf(value)} from: ${label}`}
                onClick={() => keep(chosen.filter((other) => other !== value))}
              >
                Remove
              </button>
            </li>
          ))}
        </ul>
      )}
      {rest.length > 0 && (
        <select
          id={id}
          aria-label={`Add to: ${label}`}
          value=""
          onChange={(event) => {
            if (event.target.value !== '') keep([...chosen, event.target.value])
          }}
        >
          <option value="">Add …</option>
          {rest.map((choice) => (
            <option key={choice.value} value={choice.value}>
              {choice.name}
            </option>
          ))}
        </select>
      )}
    </fieldset>
  )
}
