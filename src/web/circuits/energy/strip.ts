/** Places along the load strip, px of a strip as wide as WIDE. Pure. */
import type { EnergyRow } from '../../../assess/energy/energy.ts'

export const WIDE = 1000

interface Strip {
  readonly parts: readonly { readonly circuit: string; readonly from: number; readonly to: number }[]
  readonly ticks: readonly { readonly x: number; readonly amps: number }[]
  /** Undefined: not entered, or no alternator turns. */
  readonly available: { readonly at: number; readonly from: number; readonly to: number } | undefined
  /** Where the current that the car takes ends. */
  readonly end: number
}

/** Steps of 1, 2 or 5 times a power of ten, five to ten of them. */
const stepFor = (most: number): number => {
  const power = 10 ** Math.floor(Math.log10(most / 5))
  return [1, 2, 5, 10].map((each) => each * power).find((step) => most / step <= 10) ?? 10 * power
}

export const stripOf = ({ byCircuit, load, available, availablePlusMinus }: EnergyRow): Strip => {
  const sum = byCircuit.reduce((total, { current }) => total + current, 0)
  const most = Math.max(sum, load, (available ?? 0) + availablePlusMinus, 1e-3)
  const step = stepFor(most)
  const span = Math.ceil(most / step) * step
  const x = (amps: number): number => (amps / span) * (WIDE - 40)
  let from = 0
  const parts = byCircuit.map(({ circuit, current }) => {
    const part = { circuit, from: x(from), to: x(from + current) }
    from += current
    return part
  })
  return {
    parts,
    ticks: Array.from({ length: Math.round(span / step) + 1 }, (_, at) => ({
      x: x(at * step),
      amps: Number((at * step).toPrecision(6)),
    })),
    available:
      available === null || available === 0
        ? undefined
        : {
            at: x(available),
            from: x(Math.max(0, available - availablePlusMinus)),
            to: x(available + availablePlusMinus),
          },
    end: x(load),
  }
}
