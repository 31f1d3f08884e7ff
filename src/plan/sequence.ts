/**
 * The order of tasks that costs least to change over between, precedence kept: one engine for the accesses of a car and
 * for published sequencing instances.
 *
 * A task is done from a configuration (what is open; which task was last) and leaves another; the step has a cost.
 * First a beam (the best few states of every number of tasks done) gives an order; then best-first search with dominance
 * (dynamic programming over done-set and configuration, cheapest first) either proves it or raises the bound; wider beams
 * and local search use the time that is left. The bound is proven: no order costs less.
 *
 * Method: A*, Hart, Nilsson and Raphael, IEEE Trans. SSC-4 (1968) 100–107 [from memory]; states of done-set and
 * configuration as in Held and Karp, J. SIAM 10 (1962) 196–210 [from memory].
 */
import { annealing } from './anneal.ts'
import { type Bits, bitsOf, has, keyOf, noBits, put, within } from './bits.ts'
import { makeQueue } from './queue.ts'
import type { Sequencing } from './sequencing.ts'

export interface Progress {
  readonly cost: number
  readonly bound: number
  /** 0…1 of the time allowed. */
  readonly share: number
}
export interface SequenceOptions {
  /** Only the search that raises the bound, after the first order. */
  readonly only?: 'bound'
  /** Longest time, s. */
  readonly within?: number
  /** States held at once, which is what memory allows. */
  readonly states?: number
  readonly progress?: (progress: Progress) => void
  /** A cancelled search gives the best order that it has, and its bound. */
  readonly signal?: AbortSignal
}
export interface Sequence {
  readonly order: readonly number[]
  readonly cost: number
  readonly bound: number
  readonly proven: boolean
  readonly cancelled: boolean
  readonly states: number
}

interface Node {
  readonly done: Bits
  readonly count: number
  readonly config: Bits
  readonly cost: number
  /** Cost so far and the least that is to come. */
  readonly least: number
  readonly clock: number
  readonly ready: readonly number[]
  readonly parent: Node | undefined
  readonly tasks: readonly number[]
}

/** For each task those that come after it, and those before it as a set. */
interface Links {
  readonly after: readonly (readonly number[])[]
  readonly before: readonly Bits[]
}

const CLOSE = 1e-6
const SLICE_MS = 40
/** Temperatures at the beginning of a round, as shares of the mean cost of a step that costs anything. */
const HEATS = [0.4, 0.8, 0.15, 0.6, 0.3]
const ROUND_TURNS = 120

export const bestSequence = async (problem: Sequencing, options: SequenceOptions = {}): Promise<Sequence> => {
  const began = performance.now()
  const allowed = (options.within ?? 8) * 1000
  const limit = options.states ?? 250_000
  const { links, root } = prepare(problem)
  let best: Node | undefined
  let bound = root.least
  let states = 0
  let stopped = false
  let slice = performance.now()
  const cheapest = () => best?.cost ?? Number.POSITIVE_INFINITY
  const proven = () => best !== undefined && best.cost <= bound + CLOSE
  /** Lets the rest of the program run; true when there is no time left or nobody wants the answer any more. */
  const rest = async (until: number): Promise<boolean> => {
    const now = performance.now()
    if (now - slice > SLICE_MS) {
      options.progress?.({
        cost: cheapest(),
        bound,
        share: Math.min(1, (now - began) / allowed),
      })
      await new Promise((resolve) => setTimeout(resolve, 0))
      slice = performance.now()
    }
    stopped = options.signal?.aborted ?? false
    return stopped || performance.now() - began > until
  }
  const keepIfBest = (node: Node): void => {
    if (node.count === problem.size && (best === undefined || node.cost < best.cost - CLOSE)) best = node
  }

  /** One pass through the numbers of tasks done, keeping `width` states of each. The first pass always ends. */
  const beam = async (width: number, until: number): Promise<void> => {
    const layers: Node[][] = Array.from({ length: problem.size + 1 }, () => [])
    layers[root.count]!.push(root)
    for (let count = root.count; count < problem.size; count++) {
      const layer = thin(layers[count]!, problem, width, best?.cost ?? Number.POSITIVE_INFINITY)
      layers[count] = []
      for (const node of layer) {
        states++
        for (const next of children(problem, links, node)) {
          if (next.count === problem.size) keepIfBest(next)
          else if (best === undefined || next.least < best.cost - CLOSE) layers[next.count]!.push(next)
        }
      }
      if ((await rest(until)) && best !== undefined) return
    }
  }

  const search = async (until: number): Promise<void> => {
    const queue = makeQueue<Node>((a, b) => a.least - b.least || b.count - a.count)
    const seen = new Map<string, Node[]>()
    queue.push(root)
    let held = 1
    while (queue.size() > 0) {
      const node = queue.pop()!
      bound = Math.max(bound, node.least)
      if (proven()) return
      if (node.count === problem.size) return
      states++
      for (const next of children(problem, links, node)) {
        if (best !== undefined && next.least >= best.cost - CLOSE) {
          keepIfBest(next)
          continue
        }
        keepIfBest(next)
        const key = keyOf(next.done)
        const others = seen.get(key)
        if (others?.some((other) => other.cost <= next.cost + CLOSE && problem.covers(other.config, next.config)))
          continue
        if (others === undefined) seen.set(key, [next])
        else others.push(next)
        queue.push(next)
        held++
      }
      if (performance.now() - slice > SLICE_MS && ((await rest(until)) || held > limit)) {
        if (queue.size() > 0) bound = Math.max(bound, Math.min(queue.peek()!.least, best?.cost ?? queue.peek()!.least))
        return
      }
    }
    // Nothing is left that could be cheaper than what was found.
    if (best !== undefined) bound = best.cost
  }

  keepIfBest(root)
  if (best === undefined) await beam(options.only === 'bound' ? 2 : 12, allowed)
  const share = (part: number) => performance.now() - began + part * (allowed - (performance.now() - began))
  if (!proven() && !stopped) await search(share(options.only === 'bound' ? 1 : 0.1))
  if (options.only === 'bound') return result(problem, best, bound, stopped, states)
  if (!proven() && !stopped && problem.prove !== undefined)
    bound = Math.max(bound, await problem.prove((share(0.4) - (performance.now() - began)) / 1000, options.signal))
  const first = orderOf(best)
  let order = first
  let cost = best?.cost ?? Number.POSITIVE_INFINITY
  const good = () => cost <= bound + CLOSE
  // A wider beam, then local search by turns from the best order and from the first, to the end of the time.
  if (!good() && !stopped) {
    await beam(60, share(0.25))
    if (best !== undefined && best.cost < cost - CLOSE) [order, cost] = [orderOf(best), best.cost]
  }
  if (problem.size > 2)
    // Many short rounds, hot and cool by turns: they found more than a few long ones.
    for (let round = 0; !good() && !stopped && performance.now() - began < allowed; round++) {
      const local = annealing(problem, round % 3 === 0 ? first : order, round + 1)
      const heat = HEATS[round % HEATS.length]!
      for (let turn = 0; turn < ROUND_TURNS; turn++) {
        local.run(500, heat * 0.02 ** (turn / ROUND_TURNS))
        if (await rest(allowed)) break
      }
      const found = local.best()
      if (found.cost < cost - CLOSE) [order, cost] = [[...found.order], found.cost]
    }
  options.progress?.({ cost, bound: Math.min(bound, cost), share: 1 })
  return { order, cost, bound: Math.min(bound, cost), proven: good(), cancelled: stopped, states }
}

const orderOf = (last: Node | undefined): number[] => {
  const order: number[] = []
  for (let node = last; node !== undefined; node = node.parent) order.unshift(...node.tasks)
  return order
}

const result = (
  problem: Sequencing,
  best: Node | undefined,
  bound: number,
  cancelled: boolean,
  states: number,
): Sequence => {
  const cost = best?.cost ?? Number.POSITIVE_INFINITY
  const order = orderOf(best)
  return {
    order,
    cost,
    bound: Math.min(bound, cost),
    proven: order.length === problem.size && cost <= bound + CLOSE,
    cancelled,
    states,
  }
}

/** The cheapest of a layer, without those that another one covers. */
const thin = (layer: Node[], problem: Sequencing, width: number, ceiling: number): Node[] => {
  layer.sort((a, b) => a.least - b.least || a.cost - b.cost)
  const kept: Node[] = []
  const seen = new Map<string, Node[]>()
  for (const node of layer) {
    if (node.least >= ceiling - CLOSE || kept.length >= width) break
    const key = keyOf(node.done)
    const others = seen.get(key)
    if (others?.some((other) => other.cost <= node.cost + CLOSE && problem.covers(other.config, node.config))) continue
    if (others === undefined) seen.set(key, [node])
    else others.push(node)
    kept.push(node)
  }
  return kept
}

const prepare = (problem: Sequencing): { links: Links; root: Node } => {
  const after: number[][] = Array.from({ length: problem.size }, () => [])
  problem.before.forEach((earlier, task) => {
    for (const other of earlier) after[other]!.push(task)
  })
  const ready = problem.before.flatMap((earlier, task) => (earlier.length === 0 ? [task] : []))
  const empty: Node = {
    done: noBits(problem.size),
    count: 0,
    config: problem.start,
    cost: 0,
    least: 0,
    clock: 0,
    ready,
    parent: undefined,
    tasks: [],
  }
  const links = { after, before: problem.before.map((earlier) => bitsOf(problem.size, earlier)) }
  return { links, root: extend(problem, links, empty, undefined) }
}

/** The tasks that the work clock lets through: what is here, else what comes next. */
const released = (problem: Sequencing, ready: readonly number[], clock: number): readonly number[] => {
  const { release } = problem
  if (release === undefined) return ready
  const here = ready.filter((task) => release[task]! <= clock)
  if (here.length > 0) return here
  const next = Math.min(...ready.map((task) => release[task]!))
  return ready.filter((task) => release[task]! <= next)
}

/** The state after one more task, and after all that then costs nothing. */
const extend = (problem: Sequencing, { after, before }: Links, from: Node, first: number | undefined): Node => {
  const done = from.done.slice()
  const tasks: number[] = []
  let { config, cost, clock } = from
  let ready: number[] = first === undefined ? [...from.ready] : from.ready.filter((other) => other !== first)
  /** Does a task, and puts what waited only for it at the end of the list. */
  const perform = (task: number, list: number[]): void => {
    put(done, task)
    tasks.push(task)
    clock = Math.max(clock, problem.release?.[task] ?? 0) + (problem.duration?.[task] ?? 0)
    for (const next of after[task]!) if (within(before[next]!, done) && !has(done, next)) list.push(next)
  }
  if (first !== undefined) {
    cost += problem.cost(config, first)
    config = problem.move(config, first)
    perform(first, ready)
  }
  const { free } = problem
  for (let changed = free !== undefined; changed; ) {
    changed = false
    const here = problem.release === undefined ? undefined : new Set(released(problem, ready, clock))
    const waiting: number[] = []
    for (let at = 0; at < ready.length; at++) {
      const task = ready[at]!
      if ((here === undefined || here.has(task)) && free?.(config, task)) {
        perform(task, ready)
        // The clock has moved, so more may be here.
        changed = here !== undefined
      } else waiting.push(task)
    }
    ready = waiting
  }
  const count = from.count + tasks.length
  const least = Math.max(from.least, cost + (count === problem.size ? 0 : problem.atLeast(config, ready, done)))
  return { done, count, config, cost, least, clock, ready, parent: from, tasks }
}

const children = (problem: Sequencing, links: Links, node: Node): Node[] => {
  const seen = new Set<number>()
  return released(problem, node.ready, node.clock).flatMap((task) => {
    const group = problem.group?.[task]
    if (group !== undefined) {
      if (seen.has(group)) return []
      seen.add(group)
    }
    return [extend(problem, links, node, task)]
  })
}
