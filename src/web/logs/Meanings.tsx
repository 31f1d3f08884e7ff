/** What each channel means: guessed with how sure, confirmed once, remembered for this logger. And which are drawn. */
import { useEffect, useState } from 'react'
import { Refusal } from '../../units/problem.ts'
import { ask } from '../workbench/api.ts'
import { bench } from '../workbench/bench.ts'
import type { Log } from './strips.ts'

interface Known {
  readonly roles: readonly { readonly id: string; readonly title: string }[]
  readonly guesses: readonly { readonly channel: string; readonly confidence: number; readonly reason: string }[]
}
type Channel = Log['channels'][number]

/** `channel` with another meaning or unit; a meaning belongs to one channel alone. */
const changed = (log: Log, name: string, put: { readonly role?: string; readonly unit?: string }): Channel[] =>
  log.channels.map((channel) => {
    const { role, confirmed: _confirmed, unit, ...rest } = channel
    if (channel.name === name) {
      const now = put.role ?? role ?? ''
      const symbol = put.unit ?? unit ?? ''
      return {
        ...rest,
        ...(symbol === '' ? {} : { unit: symbol }),
        ...(now === '' ? {} : { role: now, confirmed: true }),
      }
    }
    return put.role && role === put.role ? { ...rest, ...(unit === undefined ? {} : { unit }) } : channel
  })

interface Props {
  readonly log: Log
  readonly drawn: readonly string[]
  readonly onDrawn: (channels: readonly string[]) => void
}

export function Meanings({ log, drawn, onDrawn }: Props) {
  const [known, setKnown] = useState<Known>()
  useEffect(() => {
    let wanted = true
    ask<Known>(`/api/logs/${encodeURIComponent(log.id)}/meanings`)
      .then((found) => {
        if (wanted) setKnown(found)
      })
      .catch((error: unknown) => {
        // Without the server the meanings stay as they are; drawing channels still works.
        if (!(error instanceof Refusal)) throw error
      })
    return () => {
      wanted = false
    }
  }, [log.id])
  const edit = (channels: Channel[], label: string): void => {
    bench.edit({
      label: label.slice(0, 200),
      changes: [{ collection: 'logs', id: log.id, value: { ...log, channels } }],
    })
  }
  const open = log.channels.filter(({ role, confirmed }) => role && !confirmed)
  return (
    <details>
      <summary>
        Channels and what they mean{open.length > 0 && `: ${open.length} guessed, to be confirmed once`}
      </summary>
      <div className="meanings">
        {log.channels.map(({ name, unit, role, confirmed }) => {
          const guess = known?.guesses.find(({ channel }) => channel === name)
          return (
            <div key={name} className="meaning">
              <label className="choice">
                <input
                  type="checkbox"
                  checked={drawn.includes(name)}
                  onChange={() =>
                    onDrawn(drawn.includes(name) ? drawn.filter((one) => one !== name) : [...drawn, name])
                  }
                />
                {name}
              </label>
              <input
                aria-label={`Unit of ${name}`}
                placeholder="unit"
                defaultValue={unit ?? ''}
                key={unit ?? ''}
                onBlur={(event) => {
                  const symbol = event.target.value.trim()
                  if (symbol !== (unit ?? ''))
                    edit(changed(log, name, { unit: symbol }), `${name} is in ${symbol || 'no unit'}`)
                }}
              />
              <select
                aria-label={`Meaning of ${name}`}
                value={role ?? ''}
                onChange={(event) => {
                  const title =
                    known?.roles.find(({ id }) => id === event.target.value)?.title ?? 'nothing that is asked for'
                  edit(changed(log, name, { role: event.target.value }), `${name} is ${title}`)
                }}
              >
                <option value="">nothing that is asked for</option>
                {known?.roles.map(({ id, title }) => (
                  <option key={id} value={id}>
                    {title}
                  </option>
                ))}
              </select>
              <span className="soft small">
                {role === undefined
                  ? ''
                  : confirmed
                    ? 'confirmed'
                    : `guessed${guess ? `, ${Math.round(guess.confidence * 100)} % sure: ${guess.reason}` : ''}`}
              </span>
            </div>
          )
        })}
      </div>
      {open.length > 0 && (
        <button
          type="button"
          onClick={() =>
            edit(
              log.channels.map((each) => (each.role ? { ...each, confirmed: true } : each)),
              `Meanings of the channels of ${log.name}`,
            )
          }
        >
          The guessed meanings are right; remember them for this logger
        </button>
      )}
    </details>
  )
}
