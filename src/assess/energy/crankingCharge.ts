/**
 * The least state of charge from which the engine still cranks: the cranking case solved again with the battery's rested
 * voltage and resistance at that charge and cold, until starter and controller no longer get what they need.
 *   E(s)     BCI table, flooded battery (read)
 *   R(s, T)  as entered at 25 °C; (12.6 V − 7.5 V)/Icc at −18 °C where the cold-cranking current is entered (EN 50342),
 *            else twice the warm one [from memory]; straight between; × (2 − s): common practice, no published source
 */
import { restedAt } from '../../engineering/electrical/restedVoltage.ts'
import type { Device } from '../../model/build.ts'
import type { Context } from '../context.ts'
import { controllerAwake } from '../earths/keyTurnedOff.ts'
import { solveAgain } from '../earths/resolve.ts'
import { speedShare, starterMotors } from '../earths/starterTurns.ts'
import type { Solved } from '../solveCases.ts'

type Battery = Extract<Device['spec'], { kind: 'battery' }>
const COLD = 255.15
const WARM = 298.15
const EN_FULL = 12.6
const EN_LEAST = 7.5
/** Below this charge the acid is so thin that neither table nor resistance hold. Common practice, no published source. */
const FLAT = 0.2
/** Share of its speed at rated volts from which an engine starts. Common practice, no published source. */
const STARTS = 0.4

export const coldResistance = (spec: Battery, temperature: number, charge: number): number | undefined => {
  const warm = spec.internalResistance?.value
  if (warm === undefined) return undefined
  const cold = spec.coldCranking ? (EN_FULL - EN_LEAST) / spec.coldCranking.value : 2 * warm
  const share = Math.min(1, Math.max(0, (WARM - temperature) / (WARM - COLD)))
  return (warm + share * (cold - warm)) * (2 - charge)
}

/** 0.2 … 1; `'never'` where even a full battery does not crank it; undefined where it cannot be told. */
export const leastCharge = ({ build }: Context, solved: Solved): number | 'never' | undefined => {
  const batteries = Object.values(build.collections.devices).flatMap(({ id, spec }) =>
    spec.kind === 'battery' ? [{ id, spec }] : [],
  )
  const motors = starterMotors(solved.bound)
  if (batteries.length === 0 || motors.length === 0 || !solved.solved) return undefined
  const controllers = Object.values(build.collections.devices).filter(
    ({ spec, restricted }) => spec.kind === 'controller' && !restricted,
  )
  const temperature = solved.kase.ambient?.value ?? WARM
  const awakeBefore = controllers.filter((each) =>
    controllerAwake(each, (endpoint) => solved.nodes.get(solved.bound.nodeOf(endpoint))),
  )
  const cranks = (charge: number): boolean | undefined => {
    const set: Record<string, { emf: number; internalResistance: number }> = {}
    for (const { id, spec } of batteries) {
      const internalResistance = coldResistance(spec, temperature, charge)
      if (internalResistance === undefined) return undefined
      set[id] = { emf: restedAt(charge), internalResistance }
    }
    const solution = solveAgain(build, solved, { set })
    // Too little is also where no solution is found: the starter cannot draw its current.
    if (!solution) return false
    const turns = motors.every((motor) => speedShare(motor, solution) >= STARTS)
    return (
      turns &&
      awakeBefore.every((each) =>
        controllerAwake(each, (endpoint) => solution.voltages.get(solved.bound.nodeOf(endpoint))),
      )
    )
  }
  const full = cranks(1)
  if (full === undefined) return undefined
  if (!full) return 'never'
  if (cranks(FLAT)) return FLAT
  let [low, high] = [FLAT, 1]
  for (let step = 0; step < 5; step += 1) {
    const middle = (low + high) / 2
    if (cranks(middle)) high = middle
    else low = middle
  }
  return high
}
