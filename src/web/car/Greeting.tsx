/** A first evening: whatever the builder has leads to a first finding. */
import { useState } from 'react'
import { useLocation } from 'wouter'
import { FirstFacts } from './FirstFacts.tsx'
import { FirstReading } from './FirstReading.tsx'
import { WireList } from './WireList.tsx'
import './car.css'

type Have = 'list' | 'reading' | 'nothing'

export function Greeting() {
  const [have, setHave] = useState<Have>()
  const [, go] = useLocation()
  return (
    <section className="greeting">
      <h1>What have you today?</h1>
      <div className="row">
        <button type="button" aria-pressed={have === 'list'} onClick={() => setHave('list')}>
          A list
        </button>
        <button type="button" onClick={() => go('/logs')}>
          A log
        </button>
        <button type="button" aria-pressed={have === 'reading'} onClick={() => setHave('reading')}>
          A reading
        </button>
        <button type="button" aria-pressed={have === 'nothing'} onClick={() => setHave('nothing')}>
          Nothing yet
        </button>
      </div>
      {have === undefined && (
        <p className="soft">
          A list of wires, a log from the car, something you measured: begin with what lies nearest.
        </p>
      )}
      {have === 'list' && <WireList />}
      {have === 'reading' && <FirstReading />}
      {have === 'nothing' && <FirstFacts />}
    </section>
  )
}
