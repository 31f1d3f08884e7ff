/** What the binders of the device kinds share while one case is bound: where parts go and how gaps are told. */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build, OperatingCase } from '../../model/build.ts'
import { deviceIdOf, own } from '../make.ts'
import type { BoundWire, Missing, Reckoned } from './bound.ts'

export interface Binder {
  readonly build: Build
  readonly kase: OperatingCase
  readonly elements: NetworkElement[]
  readonly missing: Missing[]
  readonly assumed: string[]
  readonly unsure: Set<string>
  readonly loads: Set<string>
  readonly wires: BoundWire[]
  readonly reckoned: Reckoned[]
  readonly put: (element: NetworkElement) => void
  readonly resistor: (id: string, a: string, b: string, ohm: number) => void
  readonly lack: (subject: string, datum: string, across?: readonly [string, string]) => void
  /** As `lack`, of what would switch others between those nodes. */
  readonly lackSwitching: (subject: string, datum: string, across: readonly [string, string]) => void
  /** `what` rests on common practice without a published source. */
  readonly assume: (id: string, what: string) => void
  readonly nodeOf: (endpoint: string) => string
  /** Ω of a contact: as entered, else the common one, told as assumed. */
  readonly contact: (id: string, ohm: { readonly value: number } | undefined) => number
}

/** Ω. Common practice, no published source. */
export const CONTACT = 10e-3
/** Ω between a bolted case and the engine. Common practice, no published source. */
export const BOLTED_CASE = 0.2e-3
/** Ω. Stands in for a wire or fuse of unknown resistance, so that the rest can be solved; what it feeds is judged unknown. */
export const STAND_IN = 1e-3

export const runs = (kase: OperatingCase): boolean => kase.engine !== 'off' && kase.engine !== 'cranking'
export const loadElement = (device: string, load: string): string => `${device}#${load}`

export const binderFor = (build: Build, kase: OperatingCase): Binder => {
  const elements: NetworkElement[] = []
  const missing: Missing[] = []
  const assumed: string[] = []
  const put = (element: NetworkElement): void => {
    if (element.a !== element.b) elements.push(element)
  }
  const assume = (id: string, what: string): void => {
    assumed.push(`${id}: ${what} (common practice, no published source)`)
  }
  return {
    build,
    kase,
    elements,
    missing,
    assumed,
    unsure: new Set(),
    loads: new Set(),
    wires: [],
    reckoned: [],
    put,
    resistor: (id, a, b, ohm) => put({ id, type: 'resistor', a, b, ohm }),
    lack: (subject, datum, across) => {
      missing.push(across === undefined ? { subject, datum } : { subject, datum, across })
    },
    lackSwitching: (subject, datum, across) => {
      missing.push({ subject, datum, across, switches: true })
    },
    assume,
    nodeOf: (endpoint) => {
      const id = deviceIdOf(endpoint)
      return own(build.collections.devices, id)?.spec.kind === 'splice' ? id : endpoint
    },
    contact: (id, ohm) => {
      if (ohm) return ohm.value
      assume(id, 'contact of 10 mΩ')
      return CONTACT
    },
  }
}
