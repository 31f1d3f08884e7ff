/** The way of a case's currents home: from what returns at each earth stud, over body and engine, by the straps to the battery. */
import type { Build } from '../../model/build.ts'
import { circuitOf } from '../circuit.ts'
import { deviceIdOf, deviceName, own, restrictedDevice, restrictedWire } from '../make.ts'
import type { CaseSolution } from '../solveCases.ts'
import { negativePost } from './raised.ts'
import { type Metal, metalOf, strapsOf } from './strapsOf.ts'

interface Return {
  readonly wire: string
  readonly device: string
  readonly name: string
  /** A into the stud; null: not solved. */
  readonly current: number | null
}
export interface EarthPoint {
  readonly device: string
  readonly name: string
  /** Undefined: an insulated stud that joins wires only. */
  readonly metal: Metal | undefined
  /** V above the battery's negative post; null: floating or not solved. */
  readonly raised: number | null
  /** A that returns here, straps apart. */
  readonly current: number | null
  /** Largest first. */
  readonly returns: readonly Return[]
}
export interface StrapFlow {
  readonly wire: string
  readonly joins: readonly [Metal, Metal]
  /** A, without regard to direction; null: not solved. */
  readonly current: number | null
  /** V lost over it. */
  readonly drop: number | null
}
export interface ReturnTree {
  readonly points: readonly EarthPoint[]
  readonly straps: readonly StrapFlow[]
  /** Straps without their figures: how far any earth is raised is then not known. */
  readonly bare: readonly string[]
}

/** Airbag and anti-lock devices and their wires are left out. */
export const returnTreeOf = (build: Build, solution: CaseSolution): ReturnTree => {
  const context = { build, circuit: circuitOf(build) }
  const { devices, wires } = build.collections
  const { voltages, currents } = solution
  const zero = negativePost(build, solution)
  const straps = strapsOf(context)
  const isStrap = new Set(straps.map(({ wire }) => wire.id))
  // A wire without its figures is bridged by a stand-in: what it carries, and what stands beyond it, is a guess.
  const guessed = new Set(solution.missing.map(({ subject }) => subject))
  const currentOf = (id: string): number | null => (guessed.has(`wires/${id}`) ? null : (currents[id] ?? null))
  const bare = straps.map(({ wire }) => wire.id).filter((id) => guessed.has(`wires/${id}`))
  const points = Object.values(devices).flatMap((device): EarthPoint[] => {
    if (device.spec.kind !== 'earth-stud' || device.restricted) return []
    const ends = Object.keys(device.pins).map((pin) => `${device.id}.${pin}`)
    const returns = ends
      .flatMap((end) => (context.circuit.wiresAt.get(end) ?? []).map((id) => ({ end, wire: own(wires, id) })))
      .flatMap(({ end, wire }): Return[] => {
        if (!wire || isStrap.has(wire.id) || restrictedWire(build, wire.id)) return []
        const other = deviceIdOf(wire.from === end ? wire.to : wire.from)
        if (restrictedDevice(build, other)) return []
        const current = currentOf(wire.id)
        return [
          {
            wire: wire.id,
            device: other,
            name: deviceName(build, other),
            current: current === null ? null : wire.to === end ? current : -current,
          },
        ]
      })
      .sort((a, b) => Math.abs(b.current ?? 0) - Math.abs(a.current ?? 0))
    const volts = ends.map((end) => voltages[end]).find((each) => each != null)
    return [
      {
        device: device.id,
        name: device.name,
        metal: ends.map((end) => metalOf(context, end)).find((each) => each !== undefined),
        raised: volts == null || zero === undefined || bare.length > 0 ? null : volts - zero,
        current: returns.some(({ current }) => current === null)
          ? null
          : returns.reduce((sum, { current }) => sum + (current ?? 0), 0),
        returns,
      },
    ]
  })
  return {
    points,
    bare,
    straps: straps.map(({ wire, joins }) => {
      const [a, b] = [voltages[wire.from], voltages[wire.to]]
      const current = currentOf(wire.id)
      return {
        wire: wire.id,
        joins,
        current: current === null ? null : Math.abs(current),
        drop: a == null || b == null || guessed.has(`wires/${wire.id}`) ? null : Math.abs(a - b),
      }
    }),
  }
}
