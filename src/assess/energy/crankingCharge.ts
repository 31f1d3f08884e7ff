/**
 * The least state of charge from which the engine still cranks: the cranking case solved again with the battery's rested
 * voltage and resistance at that charge and cold, until starter and controller no longer get what they need.
 *   E(s)     BCI table, flooded battery (read)
 *   R(s, T)  of coldBattery.ts
 */
import { coldResistance } from '../../engineering/electrical/coldBattery.ts'
import { restedAt } from '../../engineering/electrical/restedVoltage.ts'
import type { Context } from '../context.ts'
import { controllerAwake } from '../earths/keyTurnedOff.ts'
import { solveAgain } from '../earths/resolve.ts'
import { speedShare, starterMotors } from '../earths/starterTurns.ts'
import type { Solved } from '../solveCases.ts'

const WARM = 298.15
/** Below this charge the acid is so thin that neither table nor resistance hold. Common practice, no published source. */
const FLAT = 0.2
/** Share of its speed at rated volts from which an engine starts. Common practice, no published source. */
const STARTS = 0.4

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
      if (!spec.internalResistance) return undefined
      const internalResistance = coldResistance(
        spec.internalResistance.value,
        spec.coldCranking?.value,
        temperature,
        charge,
      )
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
