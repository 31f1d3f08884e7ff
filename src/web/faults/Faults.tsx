/** Find a fault: searches open and closed, and the complaint that opens another. */
import { useMemo, useState } from 'react'
import { Link, useLocation } from 'wouter'
import { isUsable, suitedCases } from '../../assess/faults/complaintCase.ts'
import type { ComplaintKind } from '../../assess/faults/faults.ts'
import { complaintSays } from '../../assess/faults/words.ts'
import { deviceName } from '../../assess/make.ts'
import { Empty } from '../parts/Empty.tsx'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { openSearchEdit } from './faultEdits.ts'
import './faults.css'

const KINDS: readonly ComplaintKind[] = ['dead', 'weak', 'on when it should be off', 'comes and goes']

/** `about`: the device that the form opens with. */
export function Faults({ about = '' }: { about?: string }) {
  const { build } = useBench()
  const [, go] = useLocation()
  const [device, setDevice] = useState(about)
  const [kind, setKind] = useState<ComplaintKind>('dead')
  const [kase, setCase] = useState('')
  const suited = useMemo(
    () => (build && device !== '' ? suitedCases(build, { device, kind }) : undefined),
    [build, device, kind],
  )
  if (!build) return null
  const { faultSearches, cases, devices } = build.collections
  const loads = Object.values(devices)
    .filter((one) => one.restricted === undefined && ((one.loads ?? []).length > 0 || one.spec.kind === 'starter'))
    .sort((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true }))
  const usable = Object.values(cases).filter(isUsable)
  const choices = suited ? suited.flatMap((id) => cases[id] ?? []) : usable
  const usual = choices[0]
  const chosenCase = (choices.find(({ id }) => id === kase) ?? usual)?.id ?? ''
  const searches = Object.values(faultSearches).reverse()
  const open = (): void => {
    const { id, edit } = openSearchEdit(build, { complaint: { device, kind }, case: chosenCase })
    if (bench.edit(edit)) go(`/faults/${id}`)
  }
  return (
    <>
      <h1>Find a fault</h1>
      <p>
        <Link to="/faults/sheets">Test sheets</Link>: what a meter should show, circuit by circuit, and at first power.
      </p>
      {loads.length === 0 || usable.length === 0 ? (
        <Empty
          says={
            loads.length === 0
              ? 'No consumer with what it draws is entered yet, so nothing can be told of a fault.'
              : 'There is no operating case yet in which something could be looked for.'
          }
        >
          <p>
            Enter it on <Link to="/circuits">Circuits</Link>, or{' '}
            <Link to="/circuits/from/patterns">add a circuit from a pattern</Link>.
          </p>
        </Empty>
      ) : (
        <form
          className="complaint"
          onSubmit={(event) => {
            event.preventDefault()
            open()
          }}
        >
          <label>
            What is wrong with
            <select value={device} onChange={(event) => setDevice(event.target.value)}>
              <option value="">choose a consumer</option>
              {loads.map((one) => (
                <option key={one.id} value={one.id}>
                  {one.name}
                </option>
              ))}
            </select>
          </label>
          <label>
            It is
            <select value={kind} onChange={(event) => setKind(event.target.value as ComplaintKind)}>
              {KINDS.map((one) => (
                <option key={one} value={one}>
                  {one}
                </option>
              ))}
            </select>
          </label>
          <label>
            The car stands as in
            <select value={chosenCase} onChange={(event) => setCase(event.target.value)}>
              {choices.map((one) => (
                <option key={one.id} value={one.id}>
                  {one.name}
                </option>
              ))}
            </select>
          </label>
          {suited && choices.length === 0 && (
            <p className="soft">
              {deviceName(build, device)} is {kind === 'on when it should be off' ? 'off' : 'on'} in no operating case,
              so there is nothing to hold a reading against. On{' '}
              <Link to={`/circuits/of/devices/${device}`}>Circuits</Link> set the switches as the car is found, and keep
              that as a case.
            </p>
          )}
          <button type="submit" className="first" disabled={device === '' || chosenCase === ''}>
            Look for it
          </button>
        </form>
      )}
      {searches.length > 0 && (
        <>
          <h2>Searches</h2>
          <ul>
            {searches.map((search) => (
              <li key={search.id}>
                <Link to={`/faults/${search.id}`}>{complaintSays(build, search.complaint)}</Link>{' '}
                <span className="soft">
                  {search.status}
                  {search.found ? `, found: ${search.found.name}` : ''}
                </span>
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  )
}
