/** The demo's register of torques and clearances: some as asked, one too low, some due again, one never measured. */
import type { Entity } from '../src/model/build.ts'
import type { Draft } from './draft.ts'
import { hours, km, mm, ratio } from './quantities.ts'

type Fixing = Entity<'fixings'>
const BY = 'builder'
const WRENCH = 'torque wrench, 10 to 60 N·m'
const LARGE = 'torque wrench, 40 to 200 N·m'
const PAINT = 'yellow paint across nut and flange'

const torque = (least: number, most: number, source: string): Fixing['asked'] => ({ least, most, unit: 'N·m', source })
/** A torque as it was read, ± 4 % of it by the wrench's own paper. */
const at = (value: number, method: string, when: string, marked?: string): Fixing['entries'][number] => ({
  value,
  plusMinus: Number((0.04 * value).toPrecision(2)),
  unit: 'N·m',
  method,
  ...(marked === undefined ? {} : { marked }),
  by: BY,
  when,
})

export const register = ({ put }: Draft): void => {
  put(
    'fixings',
    {
      id: 'hub-nut-left',
      name: 'Front hub nut, left',
      of: 'torque',
      group: 'wheels',
      zone: 'nose',
      asked: torque(180, 200, 'workshop manual of the van'),
      recheck: { distance: km(50) },
      entries: [at(190, LARGE, '2025-04-19T14:00:00Z', 'split pin')],
    },
    {
      id: 'brake-banjo',
      name: 'Banjo bolt of the front brake hose, left',
      of: 'torque',
      group: 'brakes',
      zone: 'nose',
      asked: torque(28, 34, 'maker of the hose'),
      entries: [at(31, WRENCH, '2025-04-19T15:20:00Z', PAINT)],
    },
    {
      id: 'propshaft-bolts',
      name: 'Propeller shaft to axle flange, four bolts',
      of: 'torque',
      group: 'driveline',
      zone: 'underside',
      asked: torque(45, 50, 'maker of the shaft'),
      bolt: { diameter: mm(10), pitch: mm(1.5), grade: '10.9', factor: ratio(0.17, 0.03) },
      recheck: { distance: km(500), time: hours(10) },
      entries: [at(48, WRENCH, '2025-05-10T16:30:00Z', PAINT)],
    },
    {
      id: 'mount-left',
      name: 'Engine mount to crossmember, left',
      of: 'torque',
      group: 'structure',
      zone: 'engine-bay',
      asked: torque(42, 48, 'drawing of the mounts'),
      bolt: { diameter: mm(10), pitch: mm(1.5), grade: '8.8' },
      entries: [at(45, WRENCH, '2025-04-26T11:00:00Z', PAINT)],
    },
    {
      id: 'turbine-nuts',
      name: 'Turbocharger to manifold, four nuts',
      of: 'torque',
      group: 'exhaust',
      zone: 'on-engine',
      asked: torque(22, 26, 'workshop manual of the donor'),
      recheck: { time: hours(2) },
      entries: [at(24, WRENCH, '2025-05-10T09:30:00Z', 'white paint')],
    },
    {
      id: 'oil-drain-flange',
      name: 'Oil drain flange of the turbocharger',
      of: 'torque',
      group: 'engine',
      zone: 'on-engine',
      asked: torque(9, 11, 'workshop manual of the donor'),
      entries: [at(7, WRENCH, '2025-05-10T09:50:00Z')],
    },
    {
      id: 'inlet-valves',
      name: 'Inlet valve clearance, cold, all cylinders',
      of: 'clearance',
      group: 'engine',
      zone: 'on-engine',
      asked: { least: 0.2e-3, most: 0.26e-3, unit: 'mm', source: 'workshop manual of the donor' },
      recheck: { months: 12, time: hours(150), again: true },
      entries: [
        {
          value: 0.23e-3,
          plusMinus: 0.02e-3,
          unit: 'mm',
          method: 'feeler gauge',
          by: BY,
          when: '2025-05-10T08:30:00Z',
        },
      ],
    },
    {
      id: 'fan-tips',
      name: 'Fan blades to radiator shroud',
      of: 'clearance',
      group: 'cooling',
      zone: 'nose',
      asked: { least: 10e-3, unit: 'mm', source: 'common practice' },
      entries: [],
    },
  )
}
