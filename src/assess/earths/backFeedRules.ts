/**
 * Rule `back-feed`: a lamp, motor or pump that is fed in a case in which its own feed is off: its current comes through
 * another load, or runs through it the wrong way. One finding for each thing the current comes through.
 */
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { BATTERY_CAUTION, deviceName, deviceZone, finding, list, own, volts } from '../make.ts'
import type { Solved } from '../solveCases.ts'
import { pathWords } from './keyOffRules.ts'
import { pathTo } from './keyTurnedOff.ts'

/** V from which a filament begins to show and a motor to hum; common practice, no published source. */
const SHOWS = 1
const KINDS: ReadonlySet<string> = new Set(['lamp', 'motor', 'pump', 'heater', 'solenoid'])

/** Whether current reaches a node from a battery or alternator without passing a load. */
const fedDirectly = ({ at, bound, elements }: Solved, node: string): boolean => {
  const seen = new Set([node])
  const queue = [node]
  for (let here = queue.pop(); here !== undefined; here = queue.pop())
    for (const index of at.get(here) ?? []) {
      const element = bound.network.elements[index]!
      const current = elements.get(element.id)
      if (current == null) continue
      const into = element.b === here ? current : -current
      if (into < 1e-4) continue
      if (element.type === 'battery' || element.type === 'alternator') return true
      if (bound.loads.has(element.id) || /#(coil|solenoid|rotor)$/.test(element.id)) continue
      const next = element.a === here ? element.b : element.a
      if (seen.has(next)) continue
      seen.add(next)
      queue.push(next)
    }
  return false
}

export const backFeedFindings = (context: Context): Finding[] => {
  const { build, cases } = context
  // A motor between two half bridges is meant to turn both ways.
  const bridged = new Set(
    Object.values(build.collections.outputs).flatMap(({ driver, drives }) =>
      driver === 'half bridge' && drives !== undefined ? [drives] : [],
    ),
  )
  const causes = new Map<string, { solved: Solved; fed: Map<string, number>; path: string[]; through: string }>()
  for (const solved of cases) {
    if (!solved.solved || solved.kase.battery === 'reversed') continue
    const { bound, nodes } = solved
    const solution = { voltages: new Map(nodes), currents: new Map(solved.elements) }
    for (const element of bound.network.elements) {
      if (!bound.loads.has(element.id)) continue
      const id = element.id.split('#')[0]!
      const device = own(build.collections.devices, id)
      if (!device || device.restricted || !KINDS.has(device.spec.kind) || bridged.has(id)) continue
      const [a, b] = [nodes.get(element.a), nodes.get(element.b)]
      if (a == null || b == null || Math.abs(a - b) < SHOWS) continue
      const reversed = a < b
      if (!reversed && fedDirectly(solved, element.a)) continue
      const path = pathTo(bound.network.elements, solution, reversed ? element.b : element.a)
      const through = path.find((step) => bound.loads.has(step) && step !== element.id) ?? element.id
      const at = causes.get(through)
      const fed = at?.fed ?? new Map<string, number>()
      fed.set(id, Math.max(fed.get(id) ?? 0, Math.abs(a - b)))
      if (!at) causes.set(through, { solved, fed, path, through })
    }
  }
  return [...causes.values()].map(({ solved, fed, path, through }): Finding => {
    const [first] = fed.keys()
    const names = [...fed].map(([id, value]) => `${deviceName(build, id)} (${volts(value)})`)
    const other = deviceName(build, through.split('#')[0]!)
    return finding({
      rule: 'back-feed',
      verdict: 'marginal',
      system: 'electrical',
      subject: `devices/${first}`,
      part: through.replace(/\W+/g, '-'),
      about: deviceName(build, first!),
      zone: deviceZone(build, first!),
      says: `In “${solved.kase.name}” ${list(names.slice(0, 4))} ${names.length === 1 ? 'is' : 'are'} fed though ${names.length === 1 ? 'its own feed is' : 'their own feeds are'} off: the current comes through ${other}, by ${pathWords(build, path)}.`,
      todo: `Find why ${other} passes its current on: a return that is open or shared, or two feeds joined. Give it a return of its own, or separate the feeds.`,
      working: [
        `Solved over the whole network in “${solved.kase.name}”; way of the greatest current: ${pathWords(build, path)}.`,
        `Told from ${SHOWS} V on: common practice, no published source.`,
      ],
      cautions: [BATTERY_CAUTION],
    })
  })
}
