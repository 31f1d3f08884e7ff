/** One search field, always in sight: things and actions alike. Arrow keys, Enter, Escape. */
import { type KeyboardEvent, useEffect, useMemo, useState } from 'react'
import { useLocation } from 'wouter'
import { useBench } from '../workbench/useBench.ts'
import type { Thing } from './things.ts'
import './search.css'

export function SearchField() {
  const { build, assessment } = useBench()
  const [, go] = useLocation()
  const [typed, setTyped] = useState('')
  const [at, setAt] = useState(0)
  const [open, setOpen] = useState(false)
  // All that can be looked for is no part of the first paint.
  const [list, setList] = useState<typeof import('./things.ts')>()
  const opened = build !== undefined
  useEffect(() => {
    if (opened) void import('./things.ts').then(setList, () => undefined)
  }, [opened])
  const things = useMemo(() => list?.thingsOf(build, assessment?.findings ?? []) ?? [], [list, build, assessment])
  const found = useMemo(() => list?.look(things, typed) ?? [], [list, things, typed])
  const shown = open && typed.trim() !== ''

  const take = (thing: Thing | undefined): void => {
    if (thing === undefined) return
    setOpen(false)
    setTyped('')
    thing.run?.()
    if (thing.to !== undefined) go(thing.to)
  }
  const press = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') setOpen(false)
    else if (event.key === 'Enter') take(found[at])
    else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
      event.preventDefault()
      setOpen(true)
      const step = event.key === 'ArrowDown' ? 1 : -1
      setAt((before) => (found.length === 0 ? 0 : (before + step + found.length) % found.length))
    }
  }
  return (
    <div className="search-field">
      <label className="out-of-sight" htmlFor="search">
        Find a thing or an action
      </label>
      <input
        id="search"
        type="search"
        role="combobox"
        aria-expanded={shown}
        aria-controls="search-found"
        aria-autocomplete="list"
        aria-activedescendant={shown && found[at] ? `found-${at}` : undefined}
        autoComplete="off"
        placeholder="Find a thing or an action"
        value={typed}
        onChange={(event) => {
          setTyped(event.target.value)
          setAt(0)
          setOpen(true)
        }}
        onKeyDown={press}
        onBlur={() => setOpen(false)}
      />
      <div id="search-found" role="listbox" aria-label="Found" hidden={!shown || found.length === 0}>
        {found.map((thing, index) => (
          // The keyboard works the list from the field, as a combobox should.
          // biome-ignore lint/a11y/useKeyWithClickEvents: see above
          // biome-ignore lint/a11y/useFocusableInteractive: see above
          <div
            key={thing.id}
            id={`found-${index}`}
            role="option"
            aria-selected={index === at}
            onMouseDown={(event) => event.preventDefault()}
            onClick={() => take(thing)}
          >
            <span className="soft">{thing.what}</span> <span>{thing.name}</span>
            {thing.note && <span className="soft"> {thing.note}</span>}
          </div>
        ))}
      </div>
      {shown && list && found.length === 0 && (
        <p className="nothing" role="status">
          Nothing is called that.
        </p>
      )}
    </div>
  )
}
