/** Engine, fuel, air, cooling and brake sheets, with the readings that belong to them. All figures invented. */
import type { Draft } from './draft.ts'
import {
  barAcross,
  barGauge,
  celsius,
  cm2,
  gramsPerKilowattHour,
  gramsPerMinute,
  kgPerM3,
  kilowatts,
  litres,
  litresPerHour,
  m,
  milliseconds,
  mm,
  ratio,
  rpm,
  volts,
  wattsPerKelvin,
} from './quantities.ts'

export const sheets = ({ sheet, put }: Draft): void => {
  sheet('engine', {
    name: 'Halvard 21T, 2.1 litres, turbocharged four',
    cylinders: 4,
    sweptVolume: litres(2.1),
    compressionRatio: 9.3,
    charging: 'turbocharger',
    targetPower: kilowatts(150),
    targetSpeed: rpm(5600),
    controller: 'ecu',
  })
  sheet('fuel', {
    fuel: 'E10',
    density: kgPerM3(748, 8),
    specificConsumption: gramsPerKilowattHour(320, 15),
    lambda: ratio(0.82, 0.02),
    dutyLimit: 0.85,
    railPressure: barGauge(3, 0.1),
    railReference: 'manifold',
    injectors: {
      devices: ['injector-1', 'injector-2', 'injector-3', 'injector-4'],
      count: 4,
      flow: gramsPerMinute(205, 6),
      flowPressure: barAcross(3),
      deadTime: [
        [volts(10), milliseconds(1.62, 0.06)],
        [volts(12), milliseconds(1.14, 0.05)],
        [volts(14), milliseconds(0.84, 0.05)],
        [volts(16), milliseconds(0.66, 0.05)],
      ],
    },
    pump: {
      device: 'fuel-pump',
      ratedVoltage: volts(13.5),
      curve: [
        [barAcross(0), litresPerHour(124)],
        [barAcross(2), litresPerHour(103)],
        [barAcross(3), litresPerHour(89.5)],
        [barAcross(4), litresPerHour(75)],
        [barAcross(5), litresPerHour(59)],
      ],
      voltageExponent: 1.6,
    },
    lines: [
      { id: 'feed', name: 'Feed along the left sill', bore: mm(7.5), length: m(3.6), duty: 'pressure' },
      { id: 'return', name: 'Return', bore: mm(6), length: m(3.6), duty: 'return' },
      { id: 'suction', name: 'Strainer to pump', bore: mm(10), length: m(0.35), duty: 'suction' },
      { id: 'vent', name: 'Tank vent to the canister', bore: mm(6), length: m(2.8), duty: 'vent' },
    ],
    tank: { volume: litres(52), vent: 'Through a rollover valve to the canister.' },
  })
  sheet('air', {
    compressorEfficiency: ratio(0.68, 0.03),
    pressureRatio: ratio(1.95, 0.05),
    intakeTemperature: celsius(32, 3),
    volumetricEfficiency: ratio(0.9, 0.03),
    chargeCooler: {
      kind: 'air to water',
      coldReference: 'water into the cooler',
      expectedEffectiveness: ratio(0.78, 0.04),
      pump: 'charge-pump',
    },
    chargeTemperatureLimit: celsius(65),
  })
  sheet('cooling', {
    capPressure: barGauge(1),
    glycolFraction: ratio(0.4, 0.03),
    radiatorConductance: wattsPerKelvin(1750, 150),
    coolantVolume: litres(8.2),
    thermostat: celsius(87),
    fans: ['fan'],
  })
  sheet('brakes', {
    pedalRatio: ratio(4.2),
    masterCylinder: mm(22.2),
    servoRatio: ratio(3.4, 0.2),
    frontPistonArea: cm2(45.6),
    rearPistonArea: cm2(12.6),
    frontRadius: mm(112),
    rearRadius: mm(105),
    friction: ratio(0.38, 0.04),
    circuits: 'front and rear',
  })
  put(
    'readings',
    {
      id: 'M-1',
      subject: 'charge-cooler-effectiveness',
      quantity: 'ratio',
      value: 0.52,
      plusMinus: 0.04,
      when: '2025-05-18T17:40:00Z',
      by: 'builder',
      provenance: {
        log: 'L-1',
        method: 'ratio of means over four steady climbs, water into the cooler as cold reference',
      },
    },
    {
      id: 'M-2',
      subject: 'charge-cooler-water-in',
      quantity: 'temperature',
      value: 315.15,
      plusMinus: 1.5,
      when: '2025-05-18T17:40:00Z',
      by: 'builder',
      instrument: 'clip thermometer',
    },
    {
      id: 'M-3',
      subject: 'battery rested',
      quantity: 'voltage',
      value: 12.58,
      plusMinus: 0.05,
      at: 'battery.+',
      against: 'battery.-',
      case: 'parked',
      when: '2025-05-17T08:05:00Z',
      by: 'builder',
      instrument: 'hand multimeter',
    },
  )
  put('logs', {
    id: 'L-1',
    name: 'Four climbs of the quarry road',
    file: 'run-1.csv',
    table: 'run-1.parquet',
    added: '2025-05-18T18:20:00Z',
    samples: 4600,
    first: 0,
    last: 459.9,
    source: 'controller logger',
    channels: [
      { name: 'Engine speed', unit: '1/min', role: 'engineSpeed', confirmed: true },
      { name: 'Manifold pressure', unit: 'kPa', role: 'manifoldPressure', confirmed: true },
      { name: 'Charge temp before cooler', unit: '°C', role: 'chargeTemperatureBefore', confirmed: true },
      { name: 'Charge temp after cooler', unit: '°C', role: 'chargeTemperatureAfter', confirmed: true },
      { name: 'Cooler water in', unit: '°C', role: 'coolerWaterIn', confirmed: true },
      { name: 'Water temp', unit: '°C' },
      { name: 'Throttle', unit: '%' },
      { name: 'Battery', unit: 'V' },
    ],
  })
  put(
    'notes',
    {
      id: 'N-1',
      text: 'Donor loom was cut at the bulkhead; tails of the controller plugs are kept in the blue box.',
      about: 'devices/ecu',
    },
    { id: 'N-2', text: 'Old fuse box had two fuses for everything. It hangs on the wall now.' },
  )
  put(
    'records',
    { id: 'gate-earths', kind: 'commissioning gate', title: 'Earths proved with the battery off', done: false },
    { id: 'gate-lamp', kind: 'commissioning gate', title: 'Battery on through a lamp', done: false },
    {
      id: 'donor-engine',
      kind: 'donor',
      title: 'Engine number agrees with the donor’s papers',
      done: true,
      evidence: 'Photographed with the papers.',
    },
    { id: 'check-fuel', kind: 'inspection', title: 'Fuel line clips every 0.3 m', done: false },
  )
}
