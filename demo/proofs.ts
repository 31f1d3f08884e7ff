/** What the builder has proved so far: two gates of first power closed with their evidence; the third is held by findings. */
import { CONTROLLER_FILES } from './controllerFiles.ts'
import type { Draft } from './draft.ts'

/** As a meter’s OL is kept. */
const OPEN_OHMS = 1e9
const BY = 'builder'
const at = (minute: number): string => new Date(Date.UTC(2025, 4, 24, 13, minute)).toISOString()

/** Lines of the first-power sheet that are steps: id and what the sheet says. */
const STEPS: readonly (readonly [string, string])[] = [
  ['battery-off', 'Battery negative off, its clamp insulated and tied away from the post.'],
  ['controllers', 'Unplug Engine controller; the plugs stay off until their supply and earth are proved.'],
  ['airbag', 'Airbag and anti-lock units: none is fitted in this car.'],
  ['coils-injectors', 'Unplug coils and injectors.'],
  ['pump-fuse', 'Leave the fuse of Fuel pump out.'],
  ['fuses', 'Take every fuse out and lay it beside its place.'],
]
export const proofs = ({ put }: Draft): void => {
  STEPS.forEach(([id, subject], i) => {
    put('readings', {
      id: `M-${40 + i}`,
      subject,
      quantity: 'tick',
      value: 1,
      case: 'parked',
      when: at(2 + 3 * i),
      by: BY,
      test: `first-power/${id}`,
    })
  })
  put('readings', {
    id: 'M-50',
    subject: 'The positive cable, off the battery, to the negative cable’s clamp',
    quantity: 'resistance',
    value: OPEN_OHMS,
    at: 'battery.+',
    against: 'battery.-',
    case: 'parked',
    when: at(30),
    by: BY,
    instrument: 'hand multimeter',
    leadResistance: { value: 0.2 },
    test: 'first-power/ohms:battery.+',
  })
  put(
    'evidence',
    {
      id: 'E-1',
      of: 'gate/extinguisher',
      shows: 'as it should',
      says: 'The neighbour’s 6 kg powder one until ours comes; gauge in the green, by the garage door.',
      when: at(0),
      by: BY,
    },
    {
      id: 'E-2',
      of: 'gate/no-vapour',
      shows: 'as it should',
      says: 'Tank out and empty, both doors open, charger off since the morning.',
      when: at(1),
      by: BY,
    },
    {
      id: 'E-3',
      of: 'gate/earth-readings',
      shows: 'a remark',
      says: 'The stud on the dash was painted under its ring; scraped. To be proved with the lamp.',
      when: at(32),
      by: BY,
    },
  )
  put(
    'records',
    {
      id: 'gate-battery-off',
      kind: 'commissioning gate',
      gate: 'battery-off',
      title: 'Everything off and unplugged',
      done: true,
      when: at(20),
      by: BY,
    },
    {
      id: 'gate-earths',
      kind: 'commissioning gate',
      gate: 'earths',
      title: 'No short, and earths as far as ohms tell',
      done: true,
      when: at(44),
      by: BY,
    },
    ...CONTROLLER_FILES.map(({ record }) => record),
  )
}
