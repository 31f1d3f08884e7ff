import type { Problem } from '../../../units/problem.ts'
import type { FaultProblem } from './hypothesis.ts'

/** Everything that keeps a search from starting, all at once. The network itself is checked when it is prepared. */
export const faultProblems = (problem: FaultProblem): Problem[] => {
  const found: Problem[] = []
  const say = (code: string, path: string, says: string, todo: string): void => {
    found.push({ code, path, says, todo })
  }
  const byId = new Map(problem.network.elements.map((element) => [element.id, element]))
  const nodes = new Set(problem.network.elements.flatMap(({ a, b }) => [a, b]))
  const ids = new Set<string>()
  if (problem.hypotheses.length === 0)
    say('missing-list', 'hypotheses', 'There are no hypotheses.', 'Give at least one part that may be at fault.')
  for (const { id, weight, effects } of problem.hypotheses) {
    const path = `hypotheses/${id}`
    if (ids.has(id)) say('duplicate-id', path, `Two hypotheses are called ${id}.`, 'Give each its own id.')
    ids.add(id)
    if (!(weight > 0 && Number.isFinite(weight)))
      say(
        'out-of-range',
        `${path}/weight`,
        `The weight of ${id} is ${weight}; it must be a number above 0.`,
        'Enter its prior.',
      )
    for (const effect of effects) {
      if (effect.kind !== 'open' && !(effect.ohm > 0 && Number.isFinite(effect.ohm)))
        say(
          'out-of-range',
          path,
          `${id} leaves ${effect.ohm} Ω; it must be a number above 0.`,
          'Enter the ohms of the fault.',
        )
      const missing = effect.kind === 'bridge' ? [effect.a, effect.b] : effect.kind === 'chafed' ? [effect.to] : []
      for (const node of missing)
        if (!nodes.has(node))
          say('unknown-node', path, `${id} touches ${node}, which is no node of the network.`, 'Name one.')
      if (effect.kind === 'bridge') continue
      const element = byId.get(effect.element)
      if (!element)
        say(
          'unknown-element',
          path,
          `${id} concerns ${effect.element}, which is not in the network.`,
          'Name an element of it.',
        )
      else if (effect.kind === 'chafed' && element.type !== 'resistor')
        say(
          'not-a-wire',
          path,
          `${id} has ${effect.element} chafed, which is a ${element.type}, not a wire.`,
          'Name a wire.',
        )
      else if (effect.kind === 'ohm' && !('ohm' in element))
        say(
          'not-a-resistance',
          path,
          `${id} gives ohms to ${effect.element}, which is a ${element.type}.`,
          'Name a joint, contact or wire.',
        )
    }
  }
  for (const node of problem.testPoints.flatMap(({ node, minus }) => (minus === undefined ? [node] : [node, minus])))
    if (!nodes.has(node))
      say(
        'unknown-node',
        `testPoints/${node}`,
        `Test point ${node} is no node of the network.`,
        'Name one of its nodes.',
      )
  for (const { element } of [...problem.tolerances, ...problem.fuses])
    if (!byId.has(element))
      say(
        'unknown-element',
        `elements/${element}`,
        `There is no element ${element} in the network.`,
        'Name one of its elements.',
      )
  for (const { element, field, relative = 0, factor = 1, absolute = 0 } of problem.tolerances)
    if (!(relative >= 0 && relative <= 0.6 && factor >= 1 && factor <= 1000 && absolute >= 0 && absolute < 100))
      say(
        'out-of-range',
        `elements/${element}/${field}`,
        `The tolerance of ${field} of ${element} is out of range.`,
        'Give a relative one of 0 to 0.6, a factor of 1 to 1000, or an absolute one of 0 to 100.',
      )
  if (!(problem.sure >= 0.5 && problem.sure < 1))
    say(
      'out-of-range',
      'sure',
      `To be sure at ${problem.sure} makes no sense here.`,
      'Give a probability from 0.5 to just below 1.',
    )
  if (!(problem.modelWrong >= 0 && problem.modelWrong < 1))
    say(
      'out-of-range',
      'modelWrong',
      `The prior of a wrong model is ${problem.modelWrong}.`,
      'Give a probability from 0 to below 1.',
    )
  return found
}
