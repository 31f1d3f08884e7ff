/**
 * What was put wrong in the demo on purpose, and which rule of the assessment should say so about which subject.
 * The tests hold the assessment to this list.
 */
export interface PlantedFault {
  readonly what: string
  readonly rule: string
  /** `collection/id` or `sheet/name`. */
  readonly subject: string
}

export const FAULTS: readonly PlantedFault[] = [
  {
    what: 'Steering wheel buttons wired to pin B25 of a plug that ends at B24',
    rule: 'dangling-pin',
    subject: 'wires/W-276',
  },
  {
    what: 'Clutch switch and brake switch crimped into one controller cavity, B14',
    rule: 'doubled-pin',
    subject: 'devices/ecu',
  },
  { what: 'Horn with a feed and no way back to earth', rule: 'no-return', subject: 'devices/horn' },
  { what: 'Alternator cable without a fuse at its battery end', rule: 'unfused-stretch', subject: 'wires/W-4' },
  { what: 'Fan relay fed straight from the battery', rule: 'unfused-stretch', subject: 'wires/W-310' },
  { what: '30 A fuse before 1 mm² to the load space socket', rule: 'fuse-against-conductor', subject: 'wires/W-91' },
  {
    what: 'Right dipped beam on 0.5 mm² all the way across the nose',
    rule: 'load-voltage',
    subject: 'devices/headlamp-right',
  },
  {
    what: 'Engine earth strap of 6 mm², the only return of starter and alternator',
    rule: 'conductor-temperature',
    subject: 'wires/W-3',
  },
  {
    what: 'Charge temperature sensor configured and not wired',
    rule: 'input-unwired',
    subject: 'inputs/in-charge-after',
  },
  { what: 'Tachometer wired and not configured', rule: 'output-unconfigured', subject: 'outputs/out-tachometer' },
  {
    what: 'Fuel pump on 0.75 mm² over the length of the van, out and back: too few volts for the target power',
    rule: 'pump-supports-power',
    subject: 'sheet/fuel',
  },
  { what: 'Injectors too small for the target power', rule: 'injector-duty', subject: 'sheet/fuel' },
  {
    what: 'Charge cooler of 0.52 effectiveness as measured leaves the charge too hot',
    rule: 'charge-temperature',
    subject: 'sheet/air',
  },
  {
    what: 'Air trapped in the charge cooler’s water loop: the pump has its volts and moves half of its water',
    rule: 'charge-water-flow',
    subject: 'sheet/air',
  },
  {
    what: 'A fan without shroud: a quarter of the air goes round the radiator',
    rule: 'radiator-air',
    subject: 'sheet/cooling',
  },
  { what: 'Copper-clad aluminium at the load space lamp', rule: 'material', subject: 'wires/W-94' },
  { what: 'Soldered joint on the engine, at injector 3', rule: 'solder-in-vibration', subject: 'wires/W-214' },
  { what: 'Unsealed plug in the wet nose', rule: 'unsealed-in-wet', subject: 'devices/nose-connector' },
  {
    what: 'Fuel pressure sensor returned to a body stud, not to the controller’s sensor earth',
    rule: 'sensor-return',
    subject: 'wires/W-267',
  },
  {
    what: 'Two steering wheel buttons on 1 kΩ and 1.1 kΩ of 5 %, alike to the controller once they have aged',
    rule: 'resistance-switch',
    subject: 'resistanceSwitches/wheel',
  },
  {
    what: 'Old fuel gauge on the sender of the donor: the needle stands at empty with fuel for a hundred kilometres',
    rule: 'gauge-reading',
    subject: 'gauges/fuel-gauge',
  },
  { what: 'Starter cable bent to 60 mm round the battery tray', rule: 'bend-radius', subject: 'runs/R-22' },
  {
    what: 'Propeller shaft of the old engine: in one piece it whirls below the speed that the new one reaches',
    rule: 'propshaft-whirl',
    subject: 'sheet/driveline',
  },
  {
    what: 'Axle of the old engine: laden, the tyres pass half as much again in first gear as it is rated for',
    rule: 'axle-torque',
    subject: 'sheet/driveline',
  },
  {
    what: 'Drain of the turbocharger led into the sump below the level of its oil',
    rule: 'turbo-oil-drain',
    subject: 'sheet/oil',
  },
]
