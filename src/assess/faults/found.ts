/** The state in which the car is found: an operating case with what is set otherwise laid over it. */
import type { Build, OperatingCase } from '../../model/build.ts'
import { refuse } from '../../units/problem.ts'
import { deviceName, own } from '../make.ts'
import type { SearchStart } from './types.ts'

/** Throws `Refusal` where the case, a switch position or an output does not exist. */
export const foundCase = (build: Build, start: Pick<SearchStart, 'case' | 'switches' | 'outputs'>): OperatingCase => {
  const kase = own(build.collections.cases, start.case)
  if (!kase) {
    const known = Object.keys(build.collections.cases)
    throw refuse(
      'unknown-case',
      `There is no operating case ${start.case}.`,
      known.length > 0 ? `Name one of: ${known.join(', ')}.` : 'Enter the case in which the fault shows.',
    )
  }
  for (const [id, position] of Object.entries(start.switches ?? {})) {
    const spec = own(build.collections.devices, id)?.spec
    if (spec?.kind !== 'switch') throw refuse('unknown-switch', `${id} is no switch of this build.`, 'Name a switch.')
    if (!Object.hasOwn(spec.positions, position))
      throw refuse(
        'unknown-position',
        `${deviceName(build, id)} has no position “${position}”.`,
        `It has: ${Object.keys(spec.positions).join(', ')}.`,
      )
  }
  for (const id of Object.keys(start.outputs ?? {}))
    if (!own(build.collections.outputs, id))
      throw refuse('unknown-output', `There is no controller output ${id}.`, 'Name one of the build.')
  return {
    ...kase,
    switches: { ...kase.switches, ...start.switches },
    outputs: { ...kase.outputs, ...start.outputs },
  }
}
