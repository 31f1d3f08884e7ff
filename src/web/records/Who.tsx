/** The name under what is said here: typed once, kept on this device. */
import { useState } from 'react'
import { keepWho, whoHere } from './who.ts'

export function Who() {
  const [name, setName] = useState(whoHere)
  const [open, setOpen] = useState(name === '')
  // It stays open while it is typed in and after: what lies below must not move under a finger.
  if (!open)
    return (
      <p className="who">
        Said by <strong>{name}</strong>{' '}
        <button type="button" className="quiet" onClick={() => setOpen(true)}>
          Somebody else
        </button>
      </p>
    )
  return (
    <label className="who">
      Who looks and measures
      <input
        value={name}
        autoComplete="name"
        placeholder="your name"
        onChange={(event) => {
          setName(event.target.value)
          keepWho(event.target.value)
        }}
      />
    </label>
  )
}
