/** Oil, exhaust, vacuum and driveline sheets. All figures invented. */
import type { Draft } from './draft.ts'
import {
  barGauge,
  degrees,
  kg,
  kilometresPerHour,
  kilopascals,
  litres,
  m,
  megapascals,
  mm,
  newtonMetres,
  newtons,
  ratio,
  rpm,
} from './quantities.ts'

export const runningGear = ({ sheet }: Draft): void => {
  sheet('oil', {
    capacity: litres(5.2),
    hotIdlePressure: barGauge(1.2, 0.2),
    pressures: [
      [rpm(900), barGauge(1.2, 0.2)],
      [rpm(2000), barGauge(2.9, 0.2)],
      [rpm(4000), barGauge(4.3, 0.2)],
    ],
    turboFeedBore: mm(3),
    turboDrainBore: mm(16),
    breather: 'catch tank',
  })
  sheet('exhaust', {
    bore: mm(63),
    length: m(3.4),
    backPressure: barGauge(0.22, 0.05),
    near: [
      { name: 'Starter cable', distance: mm(90, 10), shielded: true },
      { name: 'Fuel feed at the bulkhead', distance: mm(180, 20), shielded: false },
    ],
  })
  sheet('vacuum', {
    users: [
      { id: 'servo', name: 'Brake servo', port: 'Plenum, rear', checkValve: true, kind: 'servo' },
      { id: 'regulator', name: 'Fuel pressure regulator', port: 'Plenum, middle', kind: 'pressure regulator' },
      { id: 'bypass', name: 'Compressor bypass valve', port: 'Plenum, front', kind: 'bypass valve' },
    ],
    blankedPorts: ['Donor heater flap', 'Donor purge'],
    blanking: 'cap pushed on',
    idlePressure: kilopascals(36, 3),
  })
  sheet('driveline', {
    driven: 'rear',
    engineSet: 'in line',
    torqueCurve: [
      [rpm(1500), newtonMetres(190, 10)],
      [rpm(2500), newtonMetres(285, 10)],
      [rpm(3500), newtonMetres(300, 10)],
      [rpm(4500), newtonMetres(288, 10)],
      [rpm(5600), newtonMetres(256, 10)],
    ],
    clutchTorque: newtonMetres(340, 20),
    clutch: { clamp: newtons(5600, 300), friction: ratio(0.36, 0.04), outer: mm(228), inner: mm(150), faces: 2 },
    gearboxTorque: newtonMetres(320),
    axleTorque: newtonMetres(2600),
    propshaftLength: m(1.52, 0.01),
    propshaftDiameter: mm(63.5),
    propshaftWall: mm(1.6),
    propshaftTube: 'steel',
    propshaftYield: megapascals(340),
    jointTorque: newtonMetres(1600),
    slopes: { gearbox: degrees(3, 0.2), shaft: degrees(5.1, 0.2), axle: degrees(3.3, 0.2) },
    plan: { gearbox: degrees(0, 0.2), shaft: degrees(0, 0.2), axle: degrees(0, 0.2) },
    phase: degrees(0),
    mounts: { span: mm(620, 5), weight: newtons(900, 50), rated: newtons(3500) },
    cruise: kilometresPerHour(105),
    topSpeed: kilometresPerHour(150),
    before: {
      name: 'the old 1.6',
      torque: newtonMetres(118),
      limit: rpm(5000),
      gears: [3.65, 2.14, 1.37, 1],
      finalDrive: 4.375,
      tyreRadius: m(0.305),
    },
    corners: { frontLeft: kg(354, 2), frontRight: kg(364, 2), rearLeft: kg(309, 2), rearRight: kg(303, 2) },
    frontTrack: m(1.42),
    rearTrack: m(1.4),
    tilt: {
      raised: 'rear',
      rise: m(0.6, 0.01),
      level: kg(718, 2),
      tilted: kg(758, 2),
      total: kg(1330, 4),
      axleHeight: m(0.305, 0.005),
    },
    swap: {
      frontBefore: kg(655, 5),
      rearBefore: kg(612, 5),
      out: kg(150, 5),
      outAt: m(0.15, 0.05),
      in: kg(215, 5),
      inAt: m(0.18, 0.05),
    },
  })
}
