/** Circuits: a circuit's devices and wires as tables to edit, with what the chosen operating case makes of them. */
import { useEffect, useState } from 'react'
import { useLocation } from 'wouter'
import type { Build, Device, Wire } from '../../model/build.ts'
import { Empty } from '../parts/Empty.tsx'
import { circuitPlace } from '../search/things.ts'
import { useBench } from '../workbench/useBench.ts'
import { AddWire } from './AddWire.tsx'
import { DeviceTable } from './DeviceTable.tsx'
import { WireTable } from './WireTable.tsx'
import './circuits.css'

const UNSORTED = 'unsorted'
const byId = (a: { id: string }, b: { id: string }): number => a.id.localeCompare(b.id, 'en', { numeric: true })

/** Devices belong to a circuit by their own word or by a wire of it that ends at them. */
const contents = (build: Build, circuit: string | undefined): { devices: Device[]; wires: Wire[] } => {
  const wires = Object.values(build.collections.wires).filter((wire) => wire.circuit === circuit)
  const touched = new Set(wires.flatMap(({ from, to }) => [from, to].map((end) => end.slice(0, end.lastIndexOf('.')))))
  const devices = Object.values(build.collections.devices).filter(
    (device) => device.circuit === circuit || touched.has(device.id),
  )
  return { devices: devices.sort(byId), wires: wires.sort(byId) }
}

/** The circuit that a wire or device named elsewhere belongs to, with that row marked. */
export function CircuitOf({ collection, id }: { collection: string; id: string }) {
  const { build } = useBench()
  const owner =
    collection === 'circuits'
      ? id
      : collection === 'wires'
        ? build?.collections.wires[id]?.circuit
        : build?.collections.devices[id]?.circuit
  useEffect(() => {
    document.getElementById(`${collection}-${id}`)?.scrollIntoView({ block: 'center' })
  }, [collection, id])
  return <Circuits chosen={owner ?? UNSORTED} shown={id} />
}

export function Circuits({ chosen, shown }: { chosen?: string | undefined; shown?: string }) {
  const { build, assessment } = useBench()
  const [, go] = useLocation()
  const [caseId, setCase] = useState<string>()
  if (!build) return null
  const circuits = Object.values(build.collections.circuits)
  const loose = contents(build, undefined)
  if (circuits.length === 0 && loose.devices.length === 0)
    return (
      <>
        <h1>Circuits</h1>
        <Empty says="There is no circuit yet. Take one in from a wire list on the Car page." />
      </>
    )
  const known = chosen !== undefined && (chosen === UNSORTED || Object.hasOwn(build.collections.circuits, chosen))
  const current = known ? chosen : (circuits[0]?.id ?? UNSORTED)
  const circuit = current === UNSORTED ? undefined : current
  const { devices, wires } = contents(build, circuit)
  const cases = Object.values(build.collections.cases)
  // Full load is where wires are tried hardest.
  const inCase = caseId ?? (cases.find(({ engine }) => engine === 'full load') ?? cases[0])?.id
  const solution = inCase === undefined ? undefined : assessment?.cases[inCase]
  return (
    <>
      <h1>{circuit === undefined ? 'In no circuit' : build.collections.circuits[circuit]!.name}</h1>
      <div className="choose">
        <label>
          Circuit
          <select value={current} onChange={(event) => go(circuitPlace(event.target.value))}>
            {circuits.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
            <option value={UNSORTED}>In no circuit</option>
          </select>
        </label>
        <label>
          Volts and amps in the case
          <select value={inCase ?? ''} onChange={(event) => setCase(event.target.value)}>
            {cases.length === 0 && <option value="">no operating case yet</option>}
            {cases.map((one) => (
              <option key={one.id} value={one.id}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
      </div>
      {solution && !solution.solved && (
        <p role="status">
          This case has no solution{solution.notes[0] === undefined ? '.' : `: ${solution.notes[0]}`} Its figures are
          unknown.
        </p>
      )}
      <WireTable
        build={build}
        wires={wires}
        voltages={solution?.voltages ?? {}}
        currents={solution?.currents ?? {}}
        shown={shown}
      />
      <AddWire build={build} circuit={circuit} />
      <DeviceTable build={build} devices={devices} voltages={solution?.voltages ?? {}} shown={shown} />
    </>
  )
}
