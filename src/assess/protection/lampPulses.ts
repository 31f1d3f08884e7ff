/** Cold lamps behind a fuse, all switched on at once in the case in which they draw most. */
import type { Pulse } from '../../engineering/electrical/protection/judgeProtection.ts'
import { spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import { own } from '../make.ts'
import { lastingCases } from './facts.ts'
import { live, reachOf } from './reach.ts'

/** Peak over running current of a cold filament, and s in which it falls to 1/e: 10 to 2 times in 5 ms (lamp-driver note, read). */
const PEAK = 10
const DECAY = 5e-3 / Math.log(10 / 2)

/** The harness only lowers the peak: ten times the running current is the most. */
export const lampPulses = (context: Context, fuse: string): Pulse[] => {
  let most = 0
  let name = ''
  for (const solved of lastingCases(context)) {
    const through = Math.abs(solved.elements.get(fuse) ?? 0)
    if (through <= most / PEAK) continue
    let lamps = 0
    let count = 0
    for (const element of solved.bound.network.elements) {
      if (element.type !== 'lamp') continue
      const current = Math.abs(solved.elements.get(element.id) ?? 0)
      const device = own(context.build.collections.devices, element.id.slice(0, element.id.indexOf('#')))
      if (current > 0.01 && device && feeds(context, fuse, element.a, element.b, solved.bound.nodeOf)) {
        lamps += current
        count += 1
      }
    }
    // A fuse carries no more lamp current than it carries at all.
    const peak = PEAK * Math.min(lamps, through)
    if (peak > most)
      [most, name] = [peak, `${count === 1 ? 'A cold lamp' : `${count} cold lamps`} in “${solved.kase.name}”`]
  }
  return most > 0 ? [{ name, peak: most, decay: DECAY }] : []
}

const known = new WeakMap<Context['circuit'], Map<string, ReadonlySet<string>>>()

/** Whether a node of the load lies behind the fuse: straight, or behind further fuses. */
const feeds = (context: Context, fuse: string, a: string, b: string, nodeOf: (endpoint: string) => string): boolean => {
  const map = known.get(context.circuit) ?? new Map<string, ReadonlySet<string>>()
  known.set(context.circuit, map)
  let nodes = map.get(fuse)
  if (!nodes) {
    const reach = reachOf(context).find((each) => each.fuse === fuse)
    // Outward only: the source side of a fuse lies nearer to the battery.
    const found = reach
      ? spread(
          context.circuit,
          [reach.load],
          (link) =>
            (live(link) || link.kind === 'fuse') &&
            link.id !== fuse &&
            link.a !== reach.source &&
            link.b !== reach.source,
        )
      : new Set<string>()
    nodes = new Set([...found].map(nodeOf))
    map.set(fuse, nodes)
  }
  return nodes.has(a) || nodes.has(b)
}
