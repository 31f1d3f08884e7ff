/** Oil, exhaust, vacuum and driveline sheets. All figures invented. */
import type { Draft } from './draft.ts'
import { barGauge, degrees, kilopascals, litres, m, mm, newtonMetres, rpm } from './quantities.ts'

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
    clutchTorque: newtonMetres(340, 20),
    gearboxTorque: newtonMetres(320),
    axleTorque: newtonMetres(2600),
    propshaftLength: m(1.52, 0.01),
    propshaftDiameter: mm(63.5),
    propshaftWall: mm(1.6),
    jointAngles: [degrees(2.1, 0.3), degrees(1.8, 0.3)],
  })
}
