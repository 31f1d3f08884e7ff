/**
 * Currents warm the wires, warm wires carry less: solved in turns until the temperatures stand still. Where a wire finds
 * no steady temperature, or the turns come to no rest, that is said and the wire's figures are unsure; nothing is guessed.
 */
import { type Network, type NetworkSolution, prepare } from '../../engineering/electrical/network/network.ts'
import { HOTTEST, steadyTemperature } from '../../engineering/electrical/steadyTemperature.ts'
import type { Build, OperatingCase } from '../../model/build.ts'
import { wireName } from '../make.ts'
import { warmed } from '../wireData.ts'
import { runs } from './binder.ts'
import type { Bound, BoundWire } from './bound.ts'
import { type Bundle, bundleMembers, bundleOf } from './bundles.ts'
import { placesOf } from './places.ts'

/** K. */
const STILL = 0.5
/** A voltage-fed loom settles in two or three turns; the last ones go half way, to end a swing. */
const ROUNDS = 12
const HALF_WAY_FROM = 5
/** K. A rise below this moves a resistance by less than 1 in 5 000 and is not worth an element of its own. */
const SLIGHT = 0.05

export interface Warmed {
  readonly solution: NetworkSolution
  /** With the resistances of the temperatures found. */
  readonly network: Network
  /** K by wire, in the hottest place on its way. */
  readonly temperatures: Readonly<Record<string, number>>
  /** By run. Empty where nothing has time to warm. */
  readonly bundles: ReadonlyMap<string, Bundle>
  readonly notes: readonly string[]
  /** Elements of the wires that found no steady temperature. */
  readonly unsure: readonly string[]
  /** K by which the temperatures still move after the last turn, where they come to no rest. */
  readonly restless?: number
  /** V: the most that a reckoned charging current, at the end of its ±, moves any voltage. Absent: none is reckoned. */
  readonly plusMinus?: number
}

/** Cranking, jump starting and a reversed battery last seconds: no wire has a steady temperature to come to. */
export const lasts = (kase: OperatingCase): boolean =>
  kase.engine !== 'cranking' && kase.battery !== 'reversed' && kase.supply === undefined

/** Throws `Refusal` where the network itself is refused. */
export const warm = (build: Build, kase: OperatingCase, bound: Bound): Warmed => {
  const prepared = prepare(bound.network)
  let solution = prepared.solve()
  const temperatures = new Map(bound.wires.map(({ wire, ambient }) => [wire.id, ambient]))
  let bundles = new Map<string, Bundle>()
  let set: Record<string, { ohm: number }> = {}
  const lost = new Map<string, BoundWire>()
  const notes: string[] = []
  const unsure: string[] = []
  let restless: number | undefined
  if (lasts(kase)) {
    const members = bundleMembers(build, bound.wires)
    const places = bound.wires.map((each) => ({ each, ways: waysOf(build, kase, each) }))
    let moved = Number.POSITIVE_INFINITY
    let moving: BoundWire[] = []
    for (let round = 0; round < ROUNDS && moved >= STILL && solution.converged; round += 1) {
      const current = (wire: string): number => Math.abs(solution.currents.get(`wire:${wire}`) ?? 0)
      bundles = new Map([...members].map(([run, here]) => [run, bundleOf(run, here, current)]))
      moved = 0
      moving = []
      for (const { each, ways } of places) {
        const id = each.wire.id
        if (lost.has(id)) continue
        const found = hottest(each, ways, current(id), bundles)
        const was = temperatures.get(id)!
        // Cold metal may let through what no heat balance bears while hot metal would not: lost is what is so at the end
        // of the scale as well.
        if (found === undefined && was === HOTTEST) {
          lost.set(id, each)
          // Its resistance goes back to that of the first moment.
          moved = Math.max(moved, HOTTEST - each.ambient)
          continue
        }
        const now = found === undefined ? HOTTEST : round >= HALF_WAY_FROM ? (was + found) / 2 : found
        const by = Math.abs(now - was)
        moved = Math.max(moved, by)
        if (by >= STILL) moving.push(each)
        temperatures.set(id, now)
      }
      if (moved < STILL) break
      set = {}
      for (const { element, wire, facts, length, joints, ambient } of bound.wires) {
        const temperature = temperatures.get(wire.id)!
        if (temperature - ambient > SLIGHT && !lost.has(wire.id))
          set[element] = { ohm: warmed(facts, temperature) * length + joints }
      }
      solution = prepared.solve({ set })
    }
    if (moved >= STILL && solution.converged) {
      restless = moved
      for (const { wire, element } of moving) {
        temperatures.delete(wire.id)
        unsure.push(element)
      }
      notes.push(
        `The temperatures of the wires do not come to rest in “${kase.name}”: after ${ROUNDS} turns they still move by ${moved.toFixed(1)} K.`,
      )
    }
    for (const [id, { element }] of lost) {
      unsure.push(element)
      temperatures.delete(id)
      notes.push(
        `${wireName(build, id)} finds no steady temperature in “${kase.name}”: it heats until something gives. The voltages are those of the first moment.`,
      )
    }
  }
  const network = {
    ...bound.network,
    elements: bound.network.elements.map((element) =>
      set[element.id] && element.type === 'resistor' ? { ...element, ...set[element.id] } : element,
    ),
  }
  return {
    solution,
    network,
    temperatures: solution.converged ? Object.fromEntries(temperatures) : {},
    bundles,
    notes,
    unsure,
    ...(restless === undefined ? {} : { restless }),
    ...(bound.reckoned.length > 0 && solution.converged
      ? { plusMinus: shift(solution, prepared.solve({ set: { ...set, ...greedier(bound) } })) }
      : {}),
  }
}

/** More into the battery is what the loads may lack. */
const greedier = ({ reckoned }: Bound): Record<string, { acceptance: number }> =>
  Object.fromEntries(
    reckoned.map(({ element, acceptance, plusMinus }) => [element, { acceptance: acceptance + plusMinus }]),
  )
const shift = (one: NetworkSolution, other: NetworkSolution): number => {
  let most = 0
  for (const [node, v] of one.voltages) {
    const w = other.voltages.get(node)
    if (v !== null && w != null) most = Math.max(most, Math.abs(v - w))
  }
  return most
}

interface Way {
  readonly ambient: number
  readonly run: string | undefined
}
/** Places with their air in this case: the zone's own while the engine runs, that of the case while it stands. */
const waysOf = (build: Build, kase: OperatingCase, { wire, ambient }: BoundWire): Way[] => {
  const ways = placesOf(build, wire).map((place) => ({
    ambient: runs(kase) ? (place.ambient ?? ambient) : ambient,
    run: place.run,
  }))
  return ways.length > 0 ? ways : [{ ambient, run: undefined }]
}

/** A wire in a bundle warms as one that alone carries its current over its share. Undefined: no steady temperature. */
const hottest = (
  { facts }: BoundWire,
  ways: readonly Way[],
  current: number,
  bundles: ReadonlyMap<string, Bundle>,
): number | undefined => {
  let most = Number.NEGATIVE_INFINITY
  const done = new Set<string>()
  for (const { ambient, run } of ways) {
    const factor = run === undefined ? 1 : bundles.has(run) ? bundles.get(run)!.factor : 1
    if (factor === undefined) return undefined
    const key = `${ambient} ${factor}`
    if (done.has(key)) continue
    done.add(key)
    const found = steadyTemperature(facts, current / factor, ambient)
    if (!found) return undefined
    most = Math.max(most, found.temperature)
  }
  return most
}
