/** A wire from pin to pin, added to the circuit shown. */
import { type FormEvent, useState } from 'react'
import type { Build } from '../../../model/build.ts'
import type { Problem } from '../../../units/problem.ts'
import { Problems } from '../../parts/Problems.tsx'
import { addWire } from '../edits.ts'

export function AddWire({ build, circuit }: { build: Build; circuit: string | undefined }) {
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const pins = Object.values(build.collections.devices)
    .filter((device) => device.restricted === undefined)
    .flatMap((device) => Object.keys(device.pins).map((pin) => `${device.id}.${pin}`))
  const add = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault()
    const form = event.currentTarget
    const typed = new FormData(form)
    const found = addWire(build, circuit, String(typed.get('from')).trim(), String(typed.get('to')).trim())
    setProblems(found)
    if (found.length === 0) form.reset()
  }
  return (
    <form onSubmit={add} className="add-wire">
      <Problems list={problems} />
      <datalist id="pins">
        {pins.map((pin) => (
          <option key={pin} value={pin} />
        ))}
      </datalist>
      <label>
        New wire from
        <input name="from" list="pins" required />
      </label>
      <label>
        to
        <input name="to" list="pins" required />
      </label>
      <button type="submit">Add the wire</button>
    </form>
  )
}
