import { solveFactorised } from '../../numerics/sparseLdl.ts'
import type { Compiled } from './compiled.ts'
import { LAW, PARAMETERS } from './laws.ts'
import { descend, type Workspace } from './newton.ts'
import { across, stretches } from './stretches.ts'

/**
 * The quick way through the common fault: a constant-power load behind a bad joint. A load that finds no solution at
 * its full power with all others taken away finds none with them either (more load only lowers every voltage), so it
 * must collapse whatever the others do. Its collapsed law is a resistor; with that in its place the others are solved
 * from above as usual. Returns undefined wherever this does not settle the matter without doubt: then the power has to
 * be raised step by step.
 *   unloaded  voltages with `nothing` as the share of every power
 */
export const forcedCollapse = (
  c: Compiled,
  w: Workspace,
  unloaded: Float64Array,
  nothing: number,
): Float64Array | undefined => {
  const forced = suspects(c, w, unloaded, nothing).filter((e) => foldsAlone(c, w, unloaded, e, nothing))
  if (forced.length === 0) return undefined
  const v = unloaded.slice()
  const before = stretches(c, v)
  for (const e of forced) {
    const at = e * PARAMETERS
    c.law[e] = LAW.linear
    c.parameters[at]! /= c.parameters[at + 1]! ** 2
  }
  const held = descend(c, w, v, 1, true) === 'converged'
  for (const e of forced) {
    const at = e * PARAMETERS
    c.law[e] = LAW.power
    c.parameters[at]! *= c.parameters[at + 1]! ** 2
  }
  if (!held || forced.some((e) => across(c, v, e) >= c.parameters[e * PARAMETERS + 1]!)) return undefined
  const after = stretches(c, v)
  for (let e = 0; e < c.size; e++) if (after[e] !== before[e] && !forced.includes(e)) return undefined
  return v
}

/** How far a load must be beyond the V²/4R of the unloaded slope: lamps beside it leave a little more than that. */
const CLEARLY = 1.3

/** Loads worth the proof: their power against what a linear source of the unloaded slope can give, V²/4R. */
const suspects = (c: Compiled, w: Workspace, unloaded: Float64Array, nothing: number): number[] => {
  // Leaves the factors of the unloaded state in `w.values`.
  if (descend(c, w, unloaded.slice(), nothing, true) !== 'converged') return []
  const x = new Float64Array(c.count + 1)
  return c.powers.filter((e) => {
    if (c.law[e] !== LAW.power) return false
    const at = e * PARAMETERS
    const volts = across(c, unloaded, e)
    if (volts < c.parameters[at + 1]!) return false
    x.fill(0)
    x[c.a[e]!]! += 1
    x[c.b[e]!]! -= 1
    solveFactorised(c.pattern, w.values, x, x, w.scratch)
    x[c.count] = 0
    return 4 * c.parameters[at]! * (x[c.a[e]!]! - x[c.b[e]!]!) > CLEARLY * volts * volts
  })
}

/** Whether load e, at full power with the other powers all but nil, has no solution. */
const foldsAlone = (c: Compiled, w: Workspace, unloaded: Float64Array, e: number, nothing: number): boolean => {
  const others = c.powers.filter((other) => other !== e && c.law[other] === LAW.power)
  const kept = others.map((other) => c.parameters[other * PARAMETERS]!)
  for (const other of others) c.parameters[other * PARAMETERS]! *= nothing
  const v = unloaded.slice()
  const outcome = descend(c, w, v, 1, true)
  others.forEach((other, k) => {
    c.parameters[other * PARAMETERS] = kept[k]!
  })
  // Newton from above does not step past an upper solution (constant power is convex), so landing below counts too.
  return outcome === 'folded' || (outcome === 'converged' && across(c, v, e) < c.parameters[e * PARAMETERS + 1]!)
}
