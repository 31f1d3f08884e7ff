/** The cautions that jobs and accesses carry by name, in sentences. Common practice, no published source. */
import { BATTERY_CAUTION, FUEL_CAUTION, HOT_CAUTION } from '../assess/make.ts'
import { withRequired } from './accessOrder.ts'
import type { Bound, BoundJob } from './bind.ts'
import { membersOf } from './bits.ts'

const TEXTS: Readonly<Record<string, string>> = {
  'petrol and its vapour': FUEL_CAUTION,
  battery: BATTERY_CAUTION,
  'hot coolant': HOT_CAUTION,
  lifting:
    'Lift on firm, level ground, set the car on stands and shake it before going under; never trust a jack alone.',
  'moving parts': 'Keep hands, hair, sleeves and leads away from belts and fans; an electric fan may start by itself.',
  brakes: 'Have a qualified person inspect the brakes before the car is driven.',
  welding: 'Disconnect the battery and every control unit, take away what burns, keep an extinguisher at hand.',
}

/** A caution that has no sentence here is shown as it was entered. */
const cautionText = (name: string): string => (Object.hasOwn(TEXTS, name) ? TEXTS[name]! : name)

/** Of some jobs and of all that they have open, each once. */
export const cautionsOf = (bound: Bound, jobs: readonly BoundJob[]): string[] => [
  ...new Set(
    jobs
      .flatMap(({ job, accesses }) => [
        ...(job.cautions ?? []),
        ...membersOf(withRequired(bound.graph, accesses)).flatMap((at) => bound.accesses[at]!.access.cautions ?? []),
      ])
      .map(cautionText),
  ),
]
