/** What a bound case is: the network, how its parts are called, and what it lacked or assumed. */
import type { Network } from '../../engineering/electrical/network/network.ts'
import type { Wire } from '../../model/build.ts'
import type { ConductorFacts } from '../wireData.ts'

export interface Missing {
  /** `collection/id`. */
  readonly subject: string
  readonly datum: string
  /** Nodes between which it would stand: with volts across them, current that it would draw or switch is hidden. */
  readonly across?: readonly [string, string]
  /** It would switch others, so that what is hidden has no bound. */
  readonly switches?: true
}
/** A wire whose resistance is known, and what is needed to know it at another temperature. */
export interface BoundWire {
  readonly wire: Wire
  /** Element id. */
  readonly element: string
  readonly facts: ConductorFacts
  /** m. */
  readonly length: number
  /** Ω of both ends, not counted as warming. */
  readonly joints: number
  /** K, of the hottest place on its way, in this case; the conductor's own while it carries nothing. */
  readonly ambient: number
}
/** A battery's charging current that is reckoned from its charge, for the builder gave none. */
export interface Reckoned {
  /** Element id. */
  readonly element: string
  /** A; ± half-width of a 95 % interval. */
  readonly acceptance: number
  readonly plusMinus: number
}
export interface Bound {
  readonly network: Network
  readonly missing: readonly Missing[]
  readonly assumed: readonly string[]
  /** Elements that stand in for something whose figure is missing. */
  readonly unsure: ReadonlySet<string>
  /** Node of an endpoint: all pins of a splice are one. */
  readonly nodeOf: (endpoint: string) => string
  /** Element ids of the loads. */
  readonly loads: ReadonlySet<string>
  /** Element id of each load: `device#load`. */
  readonly loadElement: (device: string, load: string) => string
  readonly wires: readonly BoundWire[]
  readonly reckoned: readonly Reckoned[]
}
