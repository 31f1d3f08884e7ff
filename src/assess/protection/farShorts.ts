/** A bolted short at the far end of every protected conductor, from the weakest source; at each fuse, from the strongest. */
import { BODY } from '../circuit.ts'
import type { Context } from '../context.ts'
import { reachOf } from './reach.ts'
import { returnsOf } from './returns.ts'
import { type Shorts, shortsOf } from './shortNetwork.ts'

const weakest = new WeakMap<Context['circuit'], Shorts>()
const strongest = new WeakMap<Context['circuit'], Shorts>()

/** Places: wires. */
export const weakShorts = ({ build, circuit, ...rest }: Context): Shorts => {
  const before = weakest.get(circuit)
  if (before) return before
  const backOf = returnsOf(build, circuit)
  const places = reachOf({ build, circuit, ...rest }).flatMap(({ below }) =>
    below.map(({ wire, far }) => ({ id: wire, at: far, back: backOf(far) })),
  )
  const shorts = shortsOf(build, 'weak', places)
  weakest.set(circuit, shorts)
  return shorts
}

/** Places: fuses, at their load side to the body beside them. */
export const strongShorts = ({ build, circuit, ...rest }: Context): Shorts => {
  const before = strongest.get(circuit)
  if (before) return before
  const places = reachOf({ build, circuit, ...rest }).map(({ fuse, load }) => ({ id: fuse, at: load, back: BODY }))
  const shorts = shortsOf(build, 'strong', places)
  strongest.set(circuit, shorts)
  return shorts
}

/** Share of a short's current from which a stand-in for an unknown resistance decides its figure. */
const DECIDES = 0.05
/** Names of the data that the figure of a short hangs on and the build lacks. */
export const lackedBy = (shorts: Shorts, current: (element: string) => number, total: number): string[] =>
  [...shorts.unsure].flatMap(([element, datum]) => (current(element) > DECIDES * total ? [datum] : []))
