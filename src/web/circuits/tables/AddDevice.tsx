/** A device of a kind, with the pins its kind starts with, added to the circuit shown. */
import { type FormEvent, useState } from 'react'
import type { Build } from '../../../model/build.ts'
import type { Problem } from '../../../units/problem.ts'
import { Problems } from '../../parts/Problems.tsx'
import { addDevice, NEW_KINDS } from '../edits.ts'

export function AddDevice({ build, circuit }: { build: Build; circuit: string | undefined }) {
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const add = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault()
    const form = event.currentTarget
    const typed = new FormData(form)
    const kind = NEW_KINDS.find((one) => one === typed.get('kind')) ?? NEW_KINDS[0]!
    const found = addDevice(build, circuit, String(typed.get('name')).trim(), kind)
    setProblems(found)
    if (found.length === 0) form.reset()
  }
  return (
    <form onSubmit={add} className="add-wire">
      <Problems list={problems} />
      <label>
        New device
        <input name="name" required maxLength={120} placeholder="its name" />
      </label>
      <label>
        Kind
        <select name="kind">
          {NEW_KINDS.map((kind) => (
            <option key={kind}>{kind}</option>
          ))}
        </select>
      </label>
      <button type="submit">Add the device</button>
    </form>
  )
}
