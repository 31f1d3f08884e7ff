import type { Problem } from '../../../units/problem.ts'
import type { Network, NetworkElement } from './elements.ts'
import { idealSourceLoops } from './idealSourceLoops.ts'

/** What a number of an element may be. Every resistance must be above 0: an ideal conductor has no unique current. */
type Rule = 'above0' | 'from0' | 'any' | 'open01' | 'from0optional'

const RULES: Record<NetworkElement['type'], Record<string, Rule>> = {
  resistor: { ohm: 'above0' },
  battery: { emf: 'any', internalResistance: 'above0', acceptance: 'from0optional' },
  alternator: { setpoint: 'above0', internalResistance: 'above0', limit: 'from0' },
  lamp: { ratedVoltage: 'above0', ratedPower: 'above0', exponent: 'open01', coldResistance: 'above0' },
  constantCurrent: { current: 'from0', minimumVoltage: 'above0' },
  constantPower: { power: 'from0', minimumVoltage: 'above0' },
  diode: { forwardVoltage: 'from0', onResistance: 'above0', reverseLeak: 'from0optional' },
  motor: { ratedVoltage: 'above0', runningCurrent: 'above0', stallResistance: 'above0' },
  switch: { ohm: 'above0' },
  relayContact: { pullIn: 'above0', dropOut: 'above0', ohm: 'above0' },
}

/** The same as lists, made once: faults are checked by the hundred. */
const RULE_LISTS = Object.fromEntries(
  Object.entries(RULES).map(([type, rules]) => [type, Object.entries(rules)]),
) as unknown as Record<NetworkElement['type'], [string, Rule][]>

const SAYS: Record<Rule, string> = {
  above0: 'must be a number above 0',
  from0: 'must be a number, 0 or above',
  any: 'must be a number',
  open01: 'must lie between 0 and 1',
  from0optional: 'must be a number, 0 or above, when it is given',
}

const keeps = (rule: Rule, value: unknown): boolean => {
  if (rule === 'from0optional' && value === undefined) return true
  if (typeof value !== 'number' || !Number.isFinite(value)) return false
  if (rule === 'any') return true
  if (rule === 'open01') return value > 0 && value < 1
  return rule === 'above0' ? value > 0 : value >= 0
}

const RESISTANCES = new Set(['ohm', 'internalResistance', 'onResistance', 'stallResistance', 'coldResistance'])

/**
 * Least resistance (Ω). Smaller ones lose their current in the rounding of the node voltages: at 1e-15 Ω beside 0.1 Ω a
 * solve still balances to the last digit and is wrong all the same, so they are refused like 0 Ω. A millimetre of
 * 120 mm² copper has 1.4e-7 Ω.
 */
const LEAST_RESISTANCE = 1e-9

/** Problems within one element; `path` is its place as a person would name it. */
export const elementProblems = (element: NetworkElement, path = `elements/${element.id}`): Problem[] => {
  const problems: Problem[] = []
  const fields = element as unknown as Record<string, unknown>
  for (const [field, rule] of RULE_LISTS[element.type]) {
    const given = fields[field]
    const resistance = RESISTANCES.has(field)
    const vanishing = resistance && typeof given === 'number' && given > 0 && given < LEAST_RESISTANCE
    if (keeps(rule, given) && !vanishing) continue
    const ideal = resistance && (given === 0 || vanishing)
    problems.push({
      code: ideal ? 'zero-resistance' : 'out-of-range',
      path: `${path}/${field}`,
      says: `${field} of ${element.type} ${element.id} is ${String(given)}; it ${vanishing ? `must be at least ${LEAST_RESISTANCE} Ω to be told from none` : SAYS[rule]}.`,
      todo: ideal
        ? 'Enter the resistance of the real piece, however small, or join the two nodes into one.'
        : `Enter ${field} of ${element.id}.`,
    })
  }
  if (element.a === element.b)
    problems.push({
      code: 'both-ends-one-node',
      path,
      says: `Both ends of ${element.id} are on node ${element.a}.`,
      todo: 'Give its ends two different nodes, or leave it out.',
    })
  if (problems.length > 0) return problems
  if (element.type === 'relayContact' && element.operatedBy === element.id)
    problems.push({
      code: 'contact-is-its-own-coil',
      path: `${path}/operatedBy`,
      says: `Relay contact ${element.id} is entered as its own coil.`,
      todo: 'Name the element that is its coil.',
    })
  if (element.type === 'relayContact' && element.dropOut > element.pullIn)
    problems.push({
      code: 'drop-out-above-pull-in',
      path,
      says: `Relay contact ${element.id} drops out at ${element.dropOut} V, above its pull-in of ${element.pullIn} V.`,
      todo: 'Enter a drop-out voltage at or below the pull-in voltage.',
    })
  if (element.type === 'motor' && element.runningCurrent * element.stallResistance >= element.ratedVoltage)
    problems.push({
      code: 'motor-cannot-run',
      path,
      says: `Motor ${element.id} draws ${element.runningCurrent} A through ${element.stallResistance} Ω at ${element.ratedVoltage} V: nothing is left to turn it.`,
      todo: 'Check the running current and the stall resistance (rated voltage over stalled current).',
    })
  return problems
}

/** Everything that keeps a network from being solved. */
export const networkProblems = (network: Network): Problem[] => {
  const problems: Problem[] = []
  const ids = new Set<string>()
  for (const element of network.elements) {
    if (ids.has(element.id))
      problems.push({
        code: 'duplicate-id',
        path: `elements/${element.id}`,
        says: `Two elements are called ${element.id}.`,
        todo: 'Give each element an id of its own.',
      })
    ids.add(element.id)
    problems.push(...elementProblems(element))
  }
  for (const element of network.elements)
    if (element.type === 'relayContact' && !ids.has(element.operatedBy))
      problems.push({
        code: 'missing-coil',
        path: `elements/${element.id}/operatedBy`,
        says: `Relay contact ${element.id} is operated by ${element.operatedBy}, which is not in the network.`,
        todo: 'Name the element that is its coil.',
      })
  const ideal = network.elements.filter(
    (element) => (element.type === 'battery' || element.type === 'alternator') && element.internalResistance === 0,
  )
  return [...problems, ...idealSourceLoops(ideal)]
}
