/** The van's shape: zones in plan view, the loom's geometry, holes in the bulkhead. */
import type { Entity } from '../src/model/build.ts'
import type { Draft } from './draft.ts'
import { celsius, kg, m, mm } from './quantities.ts'

type Zone = Entity<'zones'>
const box = (x0: number, x1: number, y0: number, y1: number): [number, number][] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
]
const zone = (
  id: string,
  name: string,
  ambient: number,
  wet: Zone['wet'],
  vibration: Zone['vibration'],
  outline: [number, number][],
): Zone => ({ id, name, ambient: celsius(ambient), wet, vibration, outline })

export const body = ({ put, sheet }: Draft): void => {
  sheet('vehicle', {
    name: 'Tarnwick 8 light panel van, 1972',
    category: 'van',
    firstUsed: 1972,
    frontMass: kg(720, 10),
    rearMass: kg(610, 10),
    ladenMass: kg(2050),
    centreOfGravityHeight: m(0.66, 0.04),
    wheelbase: m(2.69),
    length: m(4.32),
    width: m(1.78),
    tyreRadius: m(0.312, 0.004),
    gears: [3.65, 1.97, 1.37, 1, 0.82],
    finalDrive: 3.9,
    altitude: m(400, 100),
  })
  put(
    'zones',
    zone('nose', 'Nose', 60, 'wet', 'body', box(0, 0.45, -0.8, 0.8)),
    zone('battery-tray', 'Battery tray', 70, 'splash', 'body', box(0.45, 0.8, -0.82, -0.5)),
    zone('engine-bay', 'Engine bay', 85, 'splash', 'body', [
      [0.45, -0.5],
      [0.8, -0.5],
      [0.8, -0.82],
      [1.25, -0.82],
      [1.25, 0.82],
      [0.45, 0.82],
    ]),
    zone('on-engine', 'On the engine', 110, 'splash', 'engine', box(0.55, 1.2, -0.3, 0.3)),
    zone('bulkhead', 'Bulkhead', 70, 'splash', 'body', box(1.25, 1.35, -0.82, 0.82)),
    zone('dash', 'Dash', 60, 'dry', 'body', box(1.35, 1.65, -0.8, 0.8)),
    zone('left-footwell', 'Left footwell', 50, 'dry', 'body', box(1.65, 2, -0.82, -0.1)),
    zone('right-footwell', 'Right footwell', 50, 'splash', 'body', box(1.65, 2, 0.1, 0.82)),
    zone('cabin', 'Cabin', 50, 'dry', 'body', box(2, 2.5, -0.85, 0.85)),
    zone('load-space', 'Load space', 50, 'dry', 'body', box(2.5, 4.1, -0.85, 0.85)),
    zone('underside', 'Underside', 60, 'wet', 'body', box(2, 3.3, -0.25, 0.25)),
    zone('tank-bay', 'Tank bay', 50, 'wet', 'body', box(3.3, 4, -0.6, 0.6)),
    zone('rear', 'Rear', 50, 'wet', 'body', box(4.1, 4.32, -0.85, 0.85)),
  )
  const point = (id: string, name: string, at: string, x: number, y: number) =>
    put('branchPoints', { id, name, zone: at, x, y })
  point('nose-left', 'Nose, left lamp', 'nose', 0.25, -0.6)
  point('nose-mid', 'Nose, middle', 'nose', 0.2, 0)
  point('nose-right', 'Nose, right lamp', 'nose', 0.25, 0.6)
  point('battery-point', 'Battery', 'battery-tray', 0.65, -0.66)
  point('bay-left', 'Engine bay, left wing', 'engine-bay', 1, -0.66)
  point('bay-right', 'Engine bay, right wing', 'engine-bay', 0.9, 0.66)
  point('bulkhead-left', 'Bulkhead, left', 'bulkhead', 1.3, -0.4)
  point('engine-front', 'Engine, front', 'on-engine', 0.62, 0)
  point('engine-inlet', 'Engine, inlet side', 'on-engine', 0.9, -0.25)
  point('engine-exhaust', 'Engine, exhaust side', 'on-engine', 0.9, 0.25)
  point('dash-left', 'Dash, left', 'dash', 1.5, -0.5)
  point('dash-mid', 'Dash, middle', 'dash', 1.5, 0)
  point('dash-right', 'Dash, right', 'dash', 1.5, 0.45)
  point('controller-point', 'Controller shelf', 'left-footwell', 1.8, -0.6)
  point('pedals', 'Pedal box', 'right-footwell', 1.75, 0.4)
  point('cabin-left', 'Cabin, left sill', 'cabin', 2.2, -0.75)
  point('load-left', 'Load space, left rail', 'load-space', 3.5, -0.8)
  point('tank-point', 'Tank', 'tank-bay', 3.6, -0.3)
  point('rear-left', 'Rear, left lamp', 'rear', 4.2, -0.7)
  point('rear-right', 'Rear, right lamp', 'rear', 4.2, 0.7)
  point('gearbox', 'Gearbox', 'underside', 2.1, 0)

  put(
    'passages',
    { id: 'bulkhead-loom', name: 'Bulkhead, main loom', hole: mm(38), grommet: true, bore: mm(30), through: 'metal' },
    { id: 'bulkhead-right', name: 'Bulkhead, right', hole: mm(25), grommet: true, bore: mm(12), through: 'metal' },
    {
      id: 'tank-floor',
      name: 'Load floor above the tank',
      hole: mm(28),
      grommet: true,
      bore: mm(14),
      through: 'metal',
    },
    {
      id: 'tunnel',
      name: 'Gearbox tunnel',
      hole: mm(22),
      grommet: true,
      bore: mm(12),
      through: 'metal',
      remark: 'Boot of the old gear lever is reused.',
    },
    { id: 'rear-seam', name: 'Rear pillar seam', hole: mm(25), grommet: true, bore: mm(14), through: 'metal' },
  )
  const run = (
    id: string,
    from: string,
    to: string,
    length: number,
    at: string,
    sleeve: string,
    passage?: string,
    more: Partial<Entity<'runs'>> = {},
  ) =>
    put('runs', { id, from, to, length: m(length, 0.05), zone: at, sleeve, ...(passage ? { passage } : {}), ...more })
  const conduit = 'split conduit'
  const braid = 'heat-resistant braid'
  run('R-1', 'nose-left', 'nose-mid', 0.65, 'nose', conduit)
  run('R-2', 'nose-mid', 'nose-right', 0.65, 'nose', conduit)
  run('R-3', 'nose-left', 'battery-point', 0.5, 'battery-tray', conduit)
  run('R-4', 'battery-point', 'bay-left', 0.4, 'engine-bay', conduit)
  run('R-5', 'bay-left', 'bulkhead-left', 0.45, 'engine-bay', conduit)
  run('R-6', 'nose-right', 'bay-right', 0.7, 'engine-bay', conduit)
  run('R-7', 'bay-right', 'dash-right', 0.8, 'bulkhead', conduit, 'bulkhead-right')
  run('R-8', 'bulkhead-left', 'dash-left', 0.35, 'bulkhead', conduit, 'bulkhead-loom', { sleeveBore: mm(32) })
  run('R-9', 'bulkhead-left', 'engine-inlet', 0.6, 'on-engine', braid)
  run('R-10', 'engine-inlet', 'engine-front', 0.45, 'on-engine', braid)
  run('R-11', 'engine-front', 'engine-exhaust', 0.5, 'on-engine', braid)
  run('R-12', 'dash-left', 'dash-mid', 0.55, 'dash', 'cloth tape')
  run('R-13', 'dash-mid', 'dash-right', 0.5, 'dash', 'cloth tape')
  run('R-14', 'dash-left', 'controller-point', 0.45, 'left-footwell', 'cloth tape')
  run('R-15', 'dash-right', 'pedals', 0.45, 'right-footwell', 'cloth tape')
  run('R-16', 'controller-point', 'cabin-left', 0.6, 'cabin', conduit)
  run('R-17', 'cabin-left', 'load-left', 1.5, 'load-space', conduit)
  run('R-18', 'load-left', 'tank-point', 0.8, 'tank-bay', conduit, 'tank-floor')
  run('R-19', 'load-left', 'rear-left', 0.8, 'rear', conduit, 'rear-seam')
  run('R-20', 'rear-left', 'rear-right', 1.6, 'rear', conduit)
  run('R-21', 'dash-mid', 'gearbox', 0.9, 'underside', conduit, 'tunnel')
  run('R-22', 'battery-point', 'engine-inlet', 0.8, 'engine-bay', conduit, undefined, { bend: mm(60) })
}
