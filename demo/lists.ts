/** Lists of the demo with what there is to show: the coming inspection, the donor, and a service list still before its time. */
import type { Entity } from '../src/model/build.ts'
import type { Draft } from './draft.ts'

const BY = 'builder'
type Origin = Entity<'checks'>['origin']
/** Id, list, subject, zone, what is to be shown, whose row it is; then what was said of it, and when. */
type Row = readonly [
  id: string,
  list: string,
  group: string,
  zone: string | undefined,
  title: string,
  origin: Origin,
  said?: readonly [shows: Entity<'evidence'>['shows'], says: string, when: string],
]
const COMMON = 'common practice'
const ROWS: readonly Row[] = [
  ['number-plate', 'inspection', 'registration', 'nose', 'Vehicle number readable and as in the papers', COMMON],
  [
    'engine-number',
    'inspection',
    'registration',
    'on-engine',
    'Engine number readable, with proof of where the engine comes from',
    COMMON,
    ['as it should', 'Photographed with the donor’s papers.', '2025-04-12T10:00:00Z'],
  ],
  [
    'alterations-letter',
    'inspection',
    'registration',
    undefined,
    'Letter of the authority: which sheets it wants to see',
    'authority',
    [
      'as it should',
      'Letter of 2 April: drawings of the mounts, brake sheet, noise, emissions.',
      '2025-04-05T18:00:00Z',
    ],
  ],
  ['noise', 'inspection', 'noise', 'rear', 'Standing noise read, with instrument and distance', COMMON],
  [
    'fuel-clips',
    'inspection',
    'fuel',
    'underside',
    'Fuel line clipped every 0.3 m, clear of heat and of what moves',
    'own',
    ['not as it should', 'Two clips are missing behind the crossmember.', '2025-05-25T16:00:00Z'],
  ],
  [
    'mounts',
    'inspection',
    'structure',
    'engine-bay',
    'Engine and gearbox mounts looked at by somebody qualified',
    COMMON,
  ],
  [
    'brake-sheet',
    'inspection',
    'brakes',
    'underside',
    'Brakes inspected and tested by somebody qualified; sheet kept',
    COMMON,
  ],
  ['rear-lamps', 'inspection', 'lamps', 'rear', 'Rear lamps, reflectors, plate lamp, reversing lamp', COMMON],
  [
    'insurer',
    'inspection',
    'insurer',
    undefined,
    'The insurer has the alterations in writing and has answered',
    COMMON,
    ['a remark', 'Asked by letter; no answer yet.', '2025-05-20T18:00:00Z'],
  ],
  [
    'bill-of-sale',
    'donor',
    'ownership',
    undefined,
    'Papers of the donor in the seller’s name; bill of sale',
    COMMON,
    ['as it should', 'In the blue box with the loom tails.', '2025-02-08T12:00:00Z'],
  ],
  [
    'compression',
    'donor',
    'condition',
    undefined,
    'Compression of every cylinder, warm, throttle open',
    COMMON,
    ['as it should', '12.1, 12.0, 11.8 and 12.2 bar.', '2025-02-08T11:10:00Z'],
  ],
  ['leak-down', 'donor', 'condition', undefined, 'Leak-down of every cylinder', COMMON],
  [
    'pedal-taken',
    'donor',
    'to take',
    undefined,
    'Pedal with its plug and tail',
    COMMON,
    ['as it should', '', '2025-02-08T13:00:00Z'],
  ],
  ['rear-seal', 'donor', 'while it is out', undefined, 'Rear crankshaft seal, and the pilot bearing', COMMON],
]

export const lists = ({ put }: Draft): void => {
  put(
    'records',
    { id: 'inspection', kind: 'inspection', title: 'Inspection after the conversion', inspection: { category: 'van' } },
    { id: 'donor', kind: 'donor', title: 'Donor' },
    { id: 'service', kind: 'service', title: 'Service' },
  )
  ROWS.forEach(([id, list, group, zone, title, origin, said], i) => {
    put('checks', { id, list, title, group, ...(zone === undefined ? {} : { zone }), ...(origin ? { origin } : {}) })
    if (said) {
      const [shows, says, when] = said
      put('evidence', { id: `E-${10 + i}`, of: `checks/${id}`, shows, ...(says ? { says } : {}), when, by: BY })
    }
  })
  const months = (id: string, title: string, group: string, count: number, hours?: number): void =>
    put('checks', {
      id,
      list: 'service',
      title,
      group,
      every: { months: count, ...(hours ? { time: { value: hours * 3600, unit: 'h' } } : {}) },
      origin: COMMON,
    })
  months('oil-service', 'Oil and filter', 'engine', 12, 150)
  months('coolant-service', 'Coolant', 'cooling', 36)
  months('battery-service', 'Battery: rested volts, clamps, crank volts', 'electrical', 6)
  put(
    'evidence',
    {
      id: 'E-40',
      of: 'checks/oil-service',
      shows: 'as it should',
      says: 'First fill.',
      when: '2025-05-10T09:00:00Z',
      by: BY,
    },
    { id: 'E-41', of: 'checks/coolant-service', shows: 'as it should', when: '2025-05-10T11:00:00Z', by: BY },
  )
  const counter = (id: string, hours: number, when: string): void =>
    put('readings', { id, subject: 'engine hours', quantity: 'time', value: hours * 3600, when, by: BY })
  counter('M-60', 0, '2025-05-10T09:00:00Z')
  counter('M-61', 3.5, '2025-05-18T18:00:00Z')
  const crank = (id: string, value: number, when: string): void =>
    put('readings', {
      id,
      subject: 'crank volts',
      quantity: 'voltage',
      value,
      plusMinus: 0.1,
      when,
      by: BY,
      instrument: 'hand multimeter, least value',
    })
  crank('M-62', 10.4, '2025-05-10T10:00:00Z')
  crank('M-63', 10.2, '2025-05-17T08:30:00Z')
  crank('M-64', 10.1, '2025-05-24T09:00:00Z')
}
