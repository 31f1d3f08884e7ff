/**
 * What age does to a switch: closed contacts that showed nothing when new show more every year, and the gaps close.
 *
 * Only the upper end of a button's resistance rises with its contact, and a reading rises with resistance: every gap falls
 * steadily, so that the contact at which the first one closes is found by halving.
 */
import { readLevels, type Threshold } from './bands.ts'
import type { InputCircuit } from './circuit.ts'
import { levelsOf, type Surroundings, type Switch } from './levels.ts'

export interface Ageing {
  /** V, the narrowest gap with contacts of 0 Ω. */
  readonly gapNew: number
  /** Ω of a contact up to which all states are told apart; 0 when they are not even as new. */
  readonly until: number
  /** The states that then read alike first. */
  readonly first: Threshold
}

/** Ω at which a contact is as good as broken, well above any insulation that is reckoned with. */
const BROKEN = 1e9

/** `around.contact` is not looked at. Throws `Refusal` as `levelsOf` and `envelopeOf`. */
export function ageing(circuit: InputCircuit, made: Switch, around: Omit<Surroundings, 'contact'>): Ageing {
  const smallestAt = (contact: number): Threshold =>
    readLevels(circuit, levelsOf(made, { ...around, contact })).smallest
  const fresh = smallestAt(0)
  if (fresh.gap <= 0) return { gapNew: fresh.gap, until: 0, first: fresh }
  let [low, high] = [0, BROKEN]
  // By ratio above 1 mΩ: the answer may be an ohm or a megohm.
  for (let turn = 0; turn < 60; turn += 1) {
    const mid = low < 1e-3 ? high / 1000 : Math.sqrt(low * high)
    if (smallestAt(mid).gap > 0) low = mid
    else high = mid
    if (high - low < 1e-6 * high || high < 1e-3) break
  }
  return { gapNew: fresh.gap, until: low, first: smallestAt(high) }
}
