/** What was seen or heard, as evidence: a list of remarks in plain words, some about a thing. */
import { useState } from 'react'
import { REMARKS, type StoredSearch } from '../../assess/faults/faults.ts'
import type { Build } from '../../model/build.ts'
import { bench } from '../workbench/bench.ts'
import { remarkSays } from './EvidenceList.tsx'
import { remarkEdit } from './faultEdits.ts'
import type { ShownSearch } from './searchEngine.ts'

interface Props {
  readonly build: Build
  readonly search: StoredSearch
  readonly ready: ShownSearch
}
type Choice = readonly [id: string, name: string]

const choicesFor = (build: Build, ready: ShownSearch, about: string): readonly Choice[] => {
  const { devices, wires } = build.collections
  const mine = new Set([...ready.parts.values()].flatMap((part) => [...part.devices, ...part.wires]))
  const things = Object.values(devices)
    .filter(({ restricted }) => restricted === undefined)
    .filter((device) =>
      about === 'relay' || about === 'fuse'
        ? device.spec.kind === about
        : about === 'device with a load'
          ? (device.loads ?? []).length > 0
          : mine.has(device.id),
    )
    .map(({ id, name }): Choice => [id, name])
  return about === 'wire or device'
    ? [
        ...things,
        ...Object.keys(wires)
          .filter((id) => mine.has(id))
          .map((id): Choice => [id, `Wire ${id}`]),
      ]
    : things
}

export function RemarkForm({ build, search, ready }: Props) {
  const [key, setKey] = useState('')
  const [about, setAbout] = useState('')
  const remark = REMARKS.find((one) => one.key === key)
  const choices = remark?.about === undefined ? [] : choicesFor(build, ready, remark.about)
  const complete = remark !== undefined && (remark.about === undefined || choices.some(([id]) => id === about))
  return (
    <form
      className="remark"
      onSubmit={(event) => {
        event.preventDefault()
        if (!remark || !complete) return
        const thing = remark.about === undefined ? undefined : about
        if (bench.edit(remarkEdit(search, key, thing, remarkSays(build, key, thing)))) setKey('')
      }}
    >
      <label>
        Seen or heard
        <select
          value={key}
          onChange={(event) => {
            setKey(event.target.value)
            setAbout('')
          }}
        >
          <option value="">choose a remark</option>
          {REMARKS.map((one) => (
            <option key={one.key} value={one.key}>
              {one.says}
            </option>
          ))}
        </select>
      </label>
      {remark?.about !== undefined && (
        <label>
          Which one
          <select value={about} onChange={(event) => setAbout(event.target.value)}>
            <option value="">choose</option>
            {choices.map(([id, name]) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      {remark && <p className="small soft">{remark.why}</p>}
      <button type="submit" disabled={!complete}>
        Take it as evidence
      </button>
    </form>
  )
}
