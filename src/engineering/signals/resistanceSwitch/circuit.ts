/**
 * What a converter reads of a resistance to earth behind a pull-up, worst case.
 *
 *   V = (Vs·R + E·Rp − I·Rp·R) / (Rp + R),   reading = V / Vref ± (INL + ½) / 2^N
 *   Vs supply of the pull-up, Rp pull-up, R resistance from the wire to the switch's earth, E that earth above the
 *   controller's sensor earth, I current that leaks into the input, Vref full scale, N bits, INL in steps.
 *
 * Exact, not a margin on a margin: for fixed others the reading is linear or a fraction of two linear functions without
 * a pole in every single quantity, so it is monotone in each, and its extremes over the box of tolerances lie at corners.
 * Going to the better end of one quantity after another never worsens the value, which is the whole proof.
 *
 * Ideal converter: code = floor(V·2^N/Vref); the reading is taken at mid-step, hence the ½.
 */
import { type Problem, Refusal } from '../../../units/problem.ts'
import type { Interval } from '../interval.ts'

export interface InputCircuit {
  /** Ω */
  readonly pullUp: Interval
  /** V that feeds the pull-up. */
  readonly supply: Interval
  /** V of full scale; `supply` where pull-up and converter share one (ratiometric), so that its error cancels. */
  readonly reference: Interval | 'supply'
  /** V of the switch's earth above the controller's sensor earth. */
  readonly earthOffset: Interval
  /** A into the input; negative pushes current out of it. */
  readonly leakage: Interval
  readonly bits: number
  /** Integral non-linearity, ± steps. */
  readonly linearity: number
}

/** Reading as a share of full scale, 0 … 1 (a converter saturates there), against resistance to earth, Ω. */
export interface Envelope {
  lowest(resistance: number): number
  highest(resistance: number): number
  /** Least resistance whose lowest reading is at least `reading`; `Infinity` when no resistance reads so high. */
  resistanceFor(reading: number): number
  /** V by which a share of full scale is shown on the voltage axis: the middle of the reference. */
  readonly fullScale: number
  readonly steps: number
}

/** reading(R) = (a + b·R) / (p + R) at one corner of the box. */
interface Corner {
  readonly a: number
  readonly b: number
  readonly p: number
}

const ordered = ({ low, high }: Interval): boolean => Number.isFinite(low) && Number.isFinite(high) && low <= high
const ends = ({ low, high }: Interval): readonly number[] => (low === high ? [low] : [low, high])

function circuitProblems(circuit: InputCircuit): Problem[] {
  const found: Problem[] = []
  const ask = (holds: boolean, path: string, says: string, todo: string): void => {
    if (!holds) found.push({ code: 'out-of-range', path, says, todo })
  }
  ask(
    ordered(circuit.pullUp) && circuit.pullUp.low > 0,
    'pullUp',
    'The pull-up is zero or not a resistance.',
    'Measure between the input pin and the supply with the controller unplugged and unpowered, or read its data sheet.',
  )
  ask(
    ordered(circuit.supply) && circuit.supply.low > 0,
    'supply',
    'The supply of the pull-up is not above 0 V.',
    'Measure it at the controller, loaded, key on.',
  )
  if (circuit.reference !== 'supply')
    ask(
      ordered(circuit.reference) && circuit.reference.low > 0,
      'reference',
      'The converter’s reference is not above 0 V.',
      'Read it in the controller’s data sheet.',
    )
  ask(
    ordered(circuit.earthOffset),
    'earthOffset',
    'The earth offset is no interval.',
    'Take it from the solved circuits: lowest and highest over all cases.',
  )
  ask(ordered(circuit.leakage), 'leakage', 'The input leakage is no interval.', 'Read it in the data sheet, ± in A.')
  ask(
    Number.isInteger(circuit.bits) && circuit.bits >= 4 && circuit.bits <= 24,
    'bits',
    `A converter of ${circuit.bits} bits is outside 4 … 24.`,
    'Read the number of bits in the data sheet.',
  )
  ask(
    circuit.linearity >= 0 && Number.isFinite(circuit.linearity),
    'linearity',
    'The non-linearity is negative.',
    'Enter it in steps, 0 or more.',
  )
  return found
}

/** Throws `Refusal`: `out-of-range`; `overwhelmed` when leakage or earth offset turns the reading round. */
export function envelopeOf(circuit: InputCircuit): Envelope {
  const problems = circuitProblems(circuit)
  if (problems.length > 0) throw new Refusal(problems)
  const corners = (earth: number, leakage: number): Corner[] =>
    ends(circuit.pullUp).flatMap((p) =>
      ends(circuit.supply).flatMap((supply) =>
        (circuit.reference === 'supply' ? [supply] : ends(circuit.reference)).map((reference) => ({
          a: (earth * p) / reference,
          b: (supply - leakage * p) / reference,
          p,
        })),
      ),
    )
  // The reading rises with the earth's offset and falls with leakage at any other values, so only one end of each is needed.
  const low = corners(circuit.earthOffset.low, circuit.leakage.high)
  const high = corners(circuit.earthOffset.high, circuit.leakage.low)
  const turned = [...corners(circuit.earthOffset.high, circuit.leakage.high), ...low, ...high].some(
    ({ a, b, p }) => b * p <= a,
  )
  if (turned)
    throw new Refusal([
      {
        code: 'overwhelmed',
        path: 'pullUp',
        says: 'Leakage through this pull-up, or the earth offset, is as large as the supply: the reading no longer rises with resistance.',
        todo: 'Take a smaller pull-up, or mend the earth first.',
      },
    ])
  const steps = 2 ** circuit.bits
  const error = (circuit.linearity + 0.5) / steps
  const at = ({ a, b, p }: Corner, resistance: number): number =>
    resistance === Number.POSITIVE_INFINITY ? b : (a + b * resistance) / (p + resistance)
  const mid = circuit.reference === 'supply' ? circuit.supply : circuit.reference
  return {
    lowest(resistance) {
      let least = Number.POSITIVE_INFINITY
      for (const corner of low) least = Math.min(least, at(corner, resistance))
      return Math.min(1, Math.max(0, least - error))
    },
    highest(resistance) {
      let most = Number.NEGATIVE_INFINITY
      for (const corner of high) most = Math.max(most, at(corner, resistance))
      return Math.min(1, Math.max(0, most + error))
    },
    resistanceFor(reading) {
      if (reading > 1) return Number.POSITIVE_INFINITY
      if (reading <= 0) return 0
      let need = 0
      for (const { a, b, p } of low) {
        const target = reading + error
        if (target >= b) return Number.POSITIVE_INFINITY
        need = Math.max(need, (target * p - a) / (b - target))
      }
      return need
    },
    fullScale: (mid.low + mid.high) / 2,
    steps,
  }
}
