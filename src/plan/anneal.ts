/**
 * Local search: a task, or a stretch of them, is moved within what precedence allows, and a move for the worse is taken with a
 * chance that falls with time. Kirkpatrick, Gelatt and Vecchi, Science 220 (1983) 671–680 [from memory].
 * Only the stretch that a move touches is worked out again.
 */
import type { Bits } from './bits.ts'
import { type Random, seeded } from './random.ts'
import type { Sequencing } from './sequencing.ts'

const same = (a: Bits, b: Bits): boolean => {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false
  return true
}

export interface Annealing {
  /** Runs so many moves at a temperature given as a share of the mean cost of a step that costs anything. */
  readonly run: (moves: number, temperature: number) => void
  readonly best: () => { readonly order: readonly number[]; readonly cost: number }
}

export const annealing = (problem: Sequencing, start: readonly number[], seed = 1): Annealing => {
  const random: Random = seeded(seed)
  const size = start.length
  const after: number[][] = problem.before.map(() => [])
  problem.before.forEach((earlier, task) => {
    for (const other of earlier) after[other]!.push(task)
  })
  const order = [...start]
  const place = new Int32Array(size)
  const configs: Bits[] = [problem.start]
  const costs: number[] = []
  order.forEach((task, at) => {
    place[task] = at
    costs.push(problem.cost(configs[at]!, task))
    configs.push(problem.move(configs[at]!, task))
  })
  const total = (): number => costs.reduce((sum, cost) => sum + cost, 0)
  const unit = total() / Math.max(1, costs.filter((cost) => cost > 0).length)
  let now = total()
  let best = { order: [...order], cost: now }

  /** Whether nobody waits in this order while there is work that can be done; see `release`. */
  const keepsClock = (): boolean => {
    const { release, duration } = problem
    if (release === undefined) return true
    let clock = 0
    for (let at = 0; at < size; at++) {
      const task = order[at]!
      const here = release[task]!
      if (here > clock)
        for (let later = at + 1; later < size; later++) {
          const other = order[later]!
          if (release[other]! < here && problem.before[other]!.every((earlier) => place[earlier]! < at)) return false
        }
      clock = Math.max(clock, here) + (duration?.[task] ?? 0)
    }
    return true
  }

  const move = (temperature: number): void => {
    const from = Math.floor(random() * size)
    // Mostly one task, at times a stretch of them: what is done behind one access moves together.
    const length = random() < 0.6 ? 1 : Math.min(size - from, 2 + Math.floor(random() * 8))
    let low = 0
    let high = size - length
    for (let at = from; at < from + length; at++) {
      const task = order[at]!
      for (const other of problem.before[task]!) if (place[other]! < from) low = Math.max(low, place[other]! + 1)
      for (const other of after[task]!)
        if (place[other]! >= from + length) high = Math.min(high, place[other]! - length)
    }
    if (high <= low) return
    const to = low + Math.floor(random() * (high - low + 1))
    if (to === from) return
    const first = Math.min(from, to)
    const last = Math.max(from, to) + length - 1
    const block = order.slice(from, from + length)
    const moved =
      to < from ? [...block, ...order.slice(to, from)] : [...order.slice(from + length, to + length), ...block]
    const changed: number[] = []
    const newConfigs: Bits[] = []
    const newCosts: number[] = []
    let config = configs[first]!
    let change = 0
    for (let at = first; at < size; at++) {
      if (at > last && same(config, configs[at]!)) break
      const here = at > last ? order[at]! : moved[at - first]!
      const cost = problem.cost(config, here)
      change += cost - costs[at]!
      config = problem.move(config, here)
      changed.push(here)
      newCosts.push(cost)
      newConfigs.push(config)
    }
    if (change > 0 && random() >= Math.exp(-change / (temperature * unit))) return
    const arrange = (tasks: readonly number[]): void =>
      tasks.forEach((here, i) => {
        order[first + i] = here
        place[here] = first + i
      })
    const old = order.slice(first, first + changed.length)
    arrange(changed)
    if (!keepsClock()) {
      arrange(old)
      return
    }
    changed.forEach((_, i) => {
      costs[first + i] = newCosts[i]!
      configs[first + i + 1] = newConfigs[i]!
    })
    now += change
    if (now < best.cost - 1e-6) best = { order: [...order], cost: now }
  }
  return {
    run: (moves, temperature) => {
      for (let i = 0; i < moves; i++) move(temperature)
    },
    best: () => best,
  }
}
