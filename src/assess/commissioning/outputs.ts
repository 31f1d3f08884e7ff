/** The outputs’ state while the controller starts: from the model, with what the assessment finds about it. */
import type { Build } from '../../model/build.ts'
import type { Finding } from '../finding.ts'
import { list, restrictedDevice } from '../make.ts'
import type { Judged } from './types.ts'

export const outputsKnown = (build: Build, findings: readonly Finding[]): Judged => {
  const outputs = Object.values(build.collections.outputs).filter(
    ({ driver, device, drives }) =>
      driver !== 'logic' &&
      !restrictedDevice(build, device) &&
      (drives === undefined || !restrictedDevice(build, drives)),
  )
  if (outputs.length === 0)
    return {
      verdict: 'unknown',
      says: 'No output of a controller is entered.',
      missing: 'the controller’s outputs',
      next: { says: 'Enter the controller’s outputs.', at: { bench: 'signals' } },
    }
  const bad = findings.filter(({ rule, verdict }) => rule === 'output-boot' && verdict === 'no-go')
  if (bad[0])
    return {
      verdict: 'no-go',
      says: bad.map(({ says }) => says).join(' '),
      next: { says: bad[0].todo, at: { finding: bad[0].key } },
    }
  const unknown = outputs.filter(({ atBoot }) => atBoot === undefined || atBoot === 'unknown')
  if (unknown.length > 0)
    return {
      verdict: 'unknown',
      says: `Not known of ${unknown.length} of ${outputs.length} outputs.`,
      missing: `state while the controller starts of ${list(unknown.slice(0, 4).map(({ name }) => name))}${unknown.length > 4 ? ` and ${unknown.length - 4} more` : ''}`,
      next: {
        says: 'Put a test lamp of 5 W in the place of each, key on and off three times, and enter what it does.',
        at: { bench: 'signals' },
      },
    }
  const on = outputs.filter(({ atBoot }) => atBoot === 'on')
  return on.length === 0
    ? { verdict: 'sound', says: `All ${outputs.length} are off while the controller starts.` }
    : {
        verdict: 'marginal',
        says: `On while the controller starts: ${list(on.map(({ name }) => name))}. What they drive must bear it, or stays unplugged.`,
      }
}
