/** How likely a complaint is under a fault, from what the load then gets. Limits common practice, no published source. */
import type { ComplaintKind } from './types.ts'

export interface Outcome {
  /** Volts across the load over those of the healthy car, signed. For a load that should be off: over the supply's. */
  readonly share: number
  /** The load itself is at fault, and what it gets says nothing: it does nothing, or too little. */
  readonly own?: 'dead' | 'weak' | undefined
  readonly comesAndGoes: boolean
  /** The fault leaves a resistance. */
  readonly resistive: boolean
}

const steps = (share: number, rows: readonly (readonly [below: number, likelihood: number])[]): number =>
  rows.find(([below]) => share < below)?.[1] ?? 0

/** What a motor that drags does is as weak as one with so little of its volts. Common practice, no published source. */
const DRAGS = 0.6

/** 0: the fault cannot make this complaint. People call a dim lamp dead, and hardly dim what has lost a fiftieth. */
export const complaintLikelihood = (kind: ComplaintKind, { share, own, comesAndGoes, resistive }: Outcome): number => {
  const gets = own === 'dead' ? 0 : own === 'weak' ? DRAGS : share
  switch (kind) {
    case 'dead':
      return steps(gets, [
        [0.3, 1],
        [0.5, 0.3],
        [0.7, 0.05],
      ])
    case 'weak':
      return steps(gets, [
        [0.1, 0],
        [0.3, 0.3],
        [0.93, 1],
        [0.97, 0.2],
      ])
    case 'on when it should be off':
    case 'alive when it should be dead':
      return own ? 0 : share > 0.3 ? 1 : share > 0.1 ? 0.3 : 0
    case 'comes and goes':
      // A poor contact that still conducts shows its drop; a clean break does not come and go.
      if (comesAndGoes) return gets < 0.7 ? 1 : 0
      return resistive && share < 0.99 ? 0.3 : 0
  }
}
