/** The one document: a build. Records by id in named collections, one-of-a-kind sheets beside them. */
import { z } from 'zod'
import {
  branchPoint,
  circuit,
  device,
  id,
  input,
  loomSheet,
  operatingCase,
  output,
  passage,
  run,
  wire,
} from './electrical.ts'
import { injectorCard } from './injectorCard.ts'
import { measure } from './measure.ts'
import { gauge, levelSender, resistanceSwitch, sensor } from './signals.ts'

export const FORMAT = 'swapwright-build/1'
const text = z.string().max(4000)
const name = z.string().min(1).max(160)
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/)
const instant = z.iso.datetime()

export const zone = z.strictObject({
  id,
  name,
  ambient: measure('temperature').optional().describe('highest ambient temperature'),
  wet: z.enum(['dry', 'splash', 'wet']).optional(),
  vibration: z.enum(['body', 'engine', 'wheel']).optional(),
  outline: z
    .array(z.tuple([z.number(), z.number()]))
    .optional()
    .describe('plan view, metres aft of the nose, metres right of the centre line'),
})

export const vehicle = z.strictObject({
  name,
  category: z.enum(['car', 'van', 'other']),
  firstUsed: z.number().int().min(1880).max(2100).optional(),
  frontMass: measure('mass', 'positive').optional(),
  rearMass: measure('mass', 'positive').optional(),
  ladenMass: measure('mass', 'positive').optional(),
  centreOfGravityHeight: measure('length', 'positive').optional(),
  wheelbase: measure('length', 'positive').optional(),
  length: measure('length', 'positive').optional(),
  width: measure('length', 'positive').optional(),
  tyreRadius: measure('length', 'positive').optional(),
  gears: z.array(z.number().positive()).optional(),
  finalDrive: z.number().positive().optional(),
  altitude: measure('length')
    .optional()
    .describe('of the place it works at, above sea level; the highest pass for cooling'),
})
export const engine = z.strictObject({
  name,
  cylinders: z.number().int().min(1).max(16).optional(),
  sweptVolume: measure('volume', 'positive').optional(),
  compressionRatio: z.number().min(4).max(25).optional(),
  charging: z.enum(['none', 'turbocharger', 'supercharger']).optional(),
  targetPower: measure('power', 'positive').optional(),
  targetSpeed: measure('angularSpeed', 'positive').optional(),
  controller: id.optional(),
})
export const fuelSheet = z.strictObject({
  fuel: z.enum(['E0', 'E5', 'E10', 'E85', 'methanol']).optional(),
  density: measure('density', 'positive').optional(),
  specificConsumption: measure('specificFuelConsumption', 'positive').optional(),
  lambda: measure('ratio', 'positive').optional(),
  dutyLimit: z.number().min(0.1).max(1).optional(),
  railPressure: measure('pressureGauge', 'positive').optional(),
  railReference: z.enum(['manifold', 'atmosphere']).optional(),
  consumptionFuel: z
    .enum(['E0', 'E5', 'E10', 'E85', 'methanol'])
    .optional()
    .describe('fuel that the specific consumption is known for, where another is used'),
  fillTemperature: measure('temperature').optional().describe('coldest fuel that the tank is filled with'),
  hotTemperature: measure('temperature').optional().describe('hottest fuel expected in the tank'),
  reidPressure: measure('pressureAbsolute', 'positive').optional().describe('Reid vapour pressure at 37.8 °C'),
  idleFlow: measure('massFlow', 'positive').optional().describe('fuel of the whole engine at warm idle'),
  idleSpeed: measure('angularSpeed', 'positive').optional(),
  filter: z
    .strictObject({
      loss: measure('pressureDifference', 'non-negative').optional().describe('by its sheet, clean'),
      lossFlow: measure('volumeFlow', 'positive').optional().describe('flow of that loss'),
      ratedFlow: measure('volumeFlow', 'positive').optional(),
    })
    .optional()
    .describe('between pump and rail'),
  regulator: z
    .strictObject({
      place: z.enum(['at the rail', 'before the rail', 'in the tank']),
      leastFlow: measure('volumeFlow', 'non-negative').optional().describe('return that it needs to regulate'),
    })
    .optional(),
  injectors: z
    .strictObject({
      devices: z.array(id),
      count: z.number().int().positive(),
      flow: measure('massFlow', 'positive').optional(),
      flowPressure: measure('pressureDifference', 'positive').optional(),
      deadTime: z.array(z.tuple([measure('voltage'), measure('time')])).optional(),
      shortestPulse: measure('time', 'positive').optional().describe('shortest commanded pulse that repeats'),
      resistance: measure('resistance', 'positive').optional().describe('of each coil, at 20 °C'),
      seriesResistance: measure('resistance', 'non-negative').optional().describe('in series with each, 0 for none'),
      connector: name.optional().describe('plug that the injector takes'),
      loomConnector: name.optional().describe('plug that the loom has'),
      adapter: name.optional().describe('what lies between both, or between injector and manifold'),
      card: injectorCard.optional(),
    })
    .optional(),
  pump: z
    .strictObject({
      device: id,
      ratedVoltage: measure('voltage', 'positive').optional(),
      curve: z
        .array(z.tuple([measure('pressureDifference'), measure('volumeFlow')]))
        .optional()
        .describe('flow against pressure at the rated voltage'),
      voltageExponent: z
        .number()
        .min(0)
        .max(3)
        .optional()
        .describe('flow ∝ voltage^exponent, from the pump’s own sheet'),
      lift: measure('length').optional().describe('inlet above the lowest fuel level; negative: below it'),
      inletNeed: measure('pressureDifference', 'non-negative')
        .optional()
        .describe('what it needs at its inlet above vapour pressure, by its sheet'),
    })
    .optional(),
  lines: z
    .array(
      z.strictObject({
        id,
        name,
        bore: measure('length', 'positive').optional(),
        length: measure('length', 'positive').optional(),
        duty: z.enum(['suction', 'pressure', 'return', 'vent']),
        fittings: measure('ratio', 'non-negative').optional().describe('sum of fitting losses, in velocity heads'),
        roughness: measure('length', 'non-negative').optional().describe('of the wall'),
      }),
    )
    .optional(),
  tank: z
    .strictObject({
      volume: measure('volume', 'positive').optional(),
      sender: id.optional().describe('level sender of this tank'),
      vent: text.optional(),
      largestFill: measure('ratio', 'positive').optional().describe('share of the volume that filling can reach'),
      fillFlow: measure('volumeFlow', 'positive').optional().describe('of the filling nozzle'),
      ventLoss: measure('pressureDifference', 'non-negative').optional().describe('of valve and canister, with air'),
      ventLossFlow: measure('volumeFlow', 'positive').optional().describe('flow of that loss'),
      rolloverValve: z.boolean().optional(),
      ventEnd: z.enum(['canister', 'open below the car', 'open inside the car', 'open elsewhere']).optional(),
      greatestPressure: measure('pressureGauge', 'positive').optional().describe('that the tank stands'),
      greatestVacuum: measure('pressureDifference', 'positive').optional().describe('that the tank stands'),
      relief: measure('pressureGauge', 'positive').optional().describe('at which the cap or a second vent relieves'),
      warmingRate: measure('temperatureDifference', 'non-negative')
        .optional()
        .describe('rise of the tank’s fuel in an hour, as measured'),
    })
    .optional(),
})
export const airSheet = z.strictObject({
  compressorEfficiency: measure('ratio', 'positive').optional(),
  pressureRatio: measure('ratio', 'positive').optional(),
  intakeTemperature: measure('temperature').optional(),
  volumetricEfficiency: measure('ratio', 'positive').optional(),
  humidity: measure('ratio', 'non-negative').optional().describe('relative humidity of the air outside'),
  intakeZone: id.optional().describe('zone from which the intake draws; none: from outside, sealed'),
  filter: z
    .strictObject({
      flow: measure('volumeFlow', 'positive').optional().describe('flow at which its loss is known'),
      loss: measure('pressureDifference', 'non-negative').optional(),
    })
    .optional(),
  pipes: z
    .array(
      z.strictObject({
        id,
        name,
        side: z.enum(['before the compressor', 'after the compressor']),
        bore: measure('length', 'positive').optional(),
        length: measure('length', 'positive').optional(),
        fittings: measure('ratio', 'non-negative').optional().describe('sum of losses of bends, in velocity heads'),
      }),
    )
    .optional(),
  pull: measure('time', 'positive').optional().describe('a short pull at target power'),
  chargeCooler: z
    .strictObject({
      kind: z.enum(['air to air', 'air to water']),
      coldReference: z.enum(['ambient air', 'water into the cooler']),
      expectedEffectiveness: measure('ratio', 'positive').optional(),
      pump: id.optional(),
      conductance: measure('heatCapacityRate', 'positive').optional(),
      chargeLoss: measure('pressureDifference', 'non-negative')
        .optional()
        .describe('on the charge side at target flow'),
      coldAirFlow: measure('volumeFlow', 'positive')
        .optional()
        .describe('air through the cooler, or through the front exchanger of a water loop'),
      loop: z
        .strictObject({
          flow: measure('volumeFlow', 'positive').optional().describe('in this loop, at the voltage below'),
          flowVoltage: measure('voltage', 'positive').optional(),
          volume: measure('volume', 'positive').optional(),
          glycolFraction: measure('ratio', 'non-negative').optional(),
          frontConductance: measure('heatCapacityRate', 'positive').optional(),
        })
        .optional(),
    })
    .optional(),
  chargeTemperatureLimit: measure('temperature').optional(),
})
export const coolingSheet = z.strictObject({
  capPressure: measure('pressureGauge', 'non-negative').optional(),
  glycolFraction: measure('ratio', 'non-negative').optional(),
  radiatorConductance: measure('heatCapacityRate', 'positive').optional(),
  coolantVolume: measure('volume', 'positive').optional(),
  thermostat: measure('temperature').optional(),
  fans: z.array(id).optional(),
  thermostatOpen: measure('temperature').optional().describe('fully open'),
  sustainedPower: measure('power', 'positive').optional().describe('held for long, as on a climb'),
  sustainedRoadSpeed: measure('speed', 'non-negative').optional(),
  sustainedEngineSpeed: measure('angularSpeed', 'positive').optional(),
  heatShare: measure('ratio', 'positive').optional().describe('share of the fuel’s heat that the coolant takes'),
  pumpFlow: measure('volumeFlow', 'positive').optional().describe('coolant, thermostat open, at the speed below'),
  pumpFlowSpeed: measure('angularSpeed', 'positive').optional(),
  fanCurve: z
    .array(z.tuple([measure('pressureDifference', 'non-negative'), measure('volumeFlow', 'non-negative')]))
    .optional()
    .describe('of all fans together, flow against pressure at the voltage below'),
  fanVoltage: measure('voltage', 'positive').optional(),
  core: z
    .strictObject({
      flow: measure('volumeFlow', 'positive').optional().describe('air at which its loss is known'),
      loss: measure('pressureDifference', 'positive').optional(),
      exponent: measure('ratio', 'positive').optional(),
    })
    .optional(),
  ramShare: measure('ratio', 'non-negative').optional().describe('pressure across the core over dynamic pressure'),
  headerSpace: measure('volume', 'positive').optional().describe('gas above the coolant, cold'),
  fillTemperature: measure('temperature').optional(),
  hold: z
    .strictObject({
      startPressure: measure('pressureGauge', 'positive').optional(),
      endPressure: measure('pressureGauge', 'non-negative').optional(),
      startTemperature: measure('temperature').optional(),
      endTemperature: measure('temperature').optional(),
      time: measure('time', 'positive').optional(),
      gasVolume: measure('volume', 'positive').optional().describe('trapped gas in header and tester at the start'),
      hoseGive: measure('volume', 'non-negative').optional().describe('growth of the hoses at the start pressure'),
    })
    .optional()
    .describe('pressure-hold test, cold, never above the cap’s pressure'),
  repairs: z
    .array(
      z.strictObject({
        id,
        name,
        how: z.enum(['soldered', 'welded', 'bonded', 'sealant in the coolant', 'replaced']),
        spare: z.boolean().optional().describe('a replacement is on the shelf'),
      }),
    )
    .optional(),
})
const shoes = z
  .strictObject({
    kind: z.enum(['leading and trailing', 'two leading', 'duo-servo']).optional(),
    leading: measure('ratio', 'positive').optional().describe('factor of the leading or first shoe, by the maker'),
    trailing: measure('ratio', 'positive').optional().describe('factor of the trailing or second shoe, by the maker'),
    pivot: measure('length', 'positive').optional().describe('from the middle of the drum to the shoe’s pivot'),
    arm: measure('length', 'positive').optional().describe('from the pivot to the line of the wheel cylinder’s push'),
    start: measure('angle', 'non-negative').optional().describe('from the pivot to where the lining begins'),
    end: measure('angle', 'positive').optional().describe('from the pivot to where the lining ends'),
  })
  .describe('of a drum brake: factors as the maker gives them, else the dimensions of pivoted shoes')
export const brakeSheet = z.strictObject({
  pedalRatio: measure('ratio', 'positive').optional(),
  masterCylinder: measure('length', 'positive').optional().describe('bore'),
  servoRatio: measure('ratio', 'positive').optional().describe('force out over force in below run-out; 1: no servo'),
  frontPistonArea: measure('area', 'positive')
    .optional()
    .describe('of one wheel: pistons on one side of a caliper, or the one piston that pushes one shoe'),
  rearPistonArea: measure('area', 'positive').optional().describe('as `frontPistonArea`'),
  frontRadius: measure('length', 'positive').optional().describe('effective radius of the pads, or inside of the drum'),
  rearRadius: measure('length', 'positive').optional().describe('as `frontRadius`'),
  friction: measure('ratio', 'positive').optional().describe('of all linings, its range as ±'),
  circuits: z.enum(['single', 'front and rear', 'diagonal']).optional(),
  frontKind: z.enum(['disc', 'drum']).optional(),
  rearKind: z.enum(['disc', 'drum']).optional(),
  frontFriction: measure('ratio', 'positive').optional().describe('of the front linings, where not as `friction`'),
  rearFriction: measure('ratio', 'positive').optional().describe('of the rear linings, where not as `friction`'),
  frontShoes: shoes.optional(),
  rearShoes: shoes.optional(),
  frontIron: measure('mass', 'positive').optional().describe('of one wheel: rubbing ring of the disc, or drum'),
  rearIron: measure('mass', 'positive').optional().describe('as `frontIron`'),
  antiLock: z.boolean().optional().describe('an anti-lock unit is in the hydraulics; it is never judged here'),
  valve: z
    .strictObject({
      kind: z.enum(['none', 'fixed', 'by load']).optional(),
      split: measure('pressureGauge', 'positive').optional().describe('line pressure at which it begins'),
      ladenSplit: measure('pressureGauge', 'positive').optional().describe('the same laden, of a valve by load'),
      slope: measure('ratio', 'non-negative').optional().describe('share of further pressure that it passes on'),
    })
    .optional()
    .describe('that limits the pressure at the rear'),
  servo: z
    .strictObject({
      diaphragm: measure('area', 'positive').optional().describe('effective area of all diaphragms together'),
      frontVolume: measure('volume', 'positive').optional().describe('front chamber at rest, all stages'),
      rearVolume: measure('volume', 'non-negative').optional().describe('rear chamber at rest, all stages'),
      stroke: measure('length', 'positive').optional().describe('full stroke of its push rod'),
      firmStroke: measure('length', 'positive').optional().describe('of its push rod in a firm stop'),
    })
    .optional(),
  ladenFrontMass: measure('mass', 'positive').optional().describe('of the laden mass, on the front axle'),
  ladenHeight: measure('length', 'positive').optional().describe('of the centre of gravity, laden'),
  stops: z
    .strictObject({
      count: z.number().int().min(1).max(50).optional(),
      from: measure('speed', 'positive').optional(),
      to: measure('speed', 'non-negative').optional().describe('0 where it stops'),
      interval: measure('time', 'non-negative').optional().describe('between stops; 0 or none: no cooling'),
      cooling: measure('time', 'positive')
        .optional()
        .describe('in which the rise above air falls to 37 %, as measured'),
    })
    .optional()
    .describe('row of stops that the brakes must stand'),
  liningLimit: measure('temperature').optional().describe('that the linings stand, by their maker'),
  inspection: z
    .strictObject({
      name: name.optional(),
      service: measure('ratio', 'positive').optional().describe('braking rate that the service brake must give'),
      failed: measure('ratio', 'positive').optional().describe('braking rate with a circuit or the servo failed'),
      force: measure('force', 'positive').optional().describe('greatest pedal force'),
    })
    .optional()
    .describe('what the inspection of the place asks'),
})
const oilSheet = z.strictObject({
  capacity: measure('volume', 'positive').optional(),
  hotIdlePressure: measure('pressureGauge', 'positive').optional(),
  pressures: z
    .array(z.tuple([measure('angularSpeed', 'non-negative'), measure('pressureGauge', 'non-negative')]))
    .optional()
    .describe('hot oil pressure against engine speed'),
  turboFeedBore: measure('length', 'positive').optional(),
  turboDrainBore: measure('length', 'positive').optional(),
  breather: z.enum(['open', 'to the intake', 'catch tank']).optional(),
})
const exhaustSheet = z.strictObject({
  bore: measure('length', 'positive').optional(),
  length: measure('length', 'positive').optional(),
  backPressure: measure('pressureGauge', 'non-negative').optional().describe('before the silencer at full load'),
  near: z
    .array(z.strictObject({ name, distance: measure('length', 'positive'), shielded: z.boolean().optional() }))
    .optional()
    .describe('loom, pipes and hoses close to hot metal'),
})
const vacuumSheet = z.strictObject({
  users: z
    .array(
      z.strictObject({
        id,
        name,
        port: name.optional(),
        checkValve: z.boolean().optional(),
        kind: z
          .enum(['servo', 'pressure regulator', 'bypass valve', 'boost control', 'sensor or gauge', 'purge', 'other'])
          .optional(),
      }),
    )
    .optional(),
  blankedPorts: z.array(name).optional(),
  reservoir: measure('volume', 'positive').optional().describe('on the servo’s side of the check valve'),
  blanking: z.enum(['plug or thread', 'cap with clamp', 'cap pushed on']).optional().describe('of the blanked ports'),
  idlePressure: measure('pressureAbsolute', 'positive').optional().describe('absolute, in the manifold at hot idle'),
  pump: z.boolean().optional().describe('a vacuum pump feeds the servo'),
  pumpPressure: measure('pressureAbsolute', 'positive').optional().describe('absolute, that the pump holds'),
})
const drivelineSheet = z.strictObject({
  clutchTorque: measure('torque', 'positive').optional().describe('rated capacity'),
  gearboxTorque: measure('torque', 'positive').optional().describe('rated input'),
  axleTorque: measure('torque', 'positive').optional().describe('rated output'),
  propshaftLength: measure('length', 'positive').optional(),
  propshaftDiameter: measure('length', 'positive').optional(),
  propshaftWall: measure('length', 'positive').optional(),
  jointAngles: z.array(measure('angle')).optional(),
})
export const sheets = {
  vehicle,
  engine,
  fuel: fuelSheet,
  air: airSheet,
  cooling: coolingSheet,
  oil: oilSheet,
  exhaust: exhaustSheet,
  vacuum: vacuumSheet,
  brakes: brakeSheet,
  driveline: drivelineSheet,
  loom: loomSheet,
}

export const job = z.strictObject({
  id,
  title: name,
  zone: id.optional(),
  time: z
    .strictObject({
      least: measure('time', 'positive'),
      likely: measure('time', 'positive'),
      most: measure('time', 'positive'),
    })
    .optional(),
  needs: z
    .strictObject({
      jobs: z.array(id).optional(),
      parts: z.array(id).optional(),
      tools: z.array(name).optional(),
      person: z.boolean().optional(),
      dry: z.boolean().optional(),
      daylight: z.boolean().optional(),
    })
    .optional(),
  accesses: z.array(id).optional(),
  milestone: id.optional(),
  status: z.enum(['to do', 'doing', 'done', 'closed']),
  finding: z.string().optional().describe('key of the finding it answers; closes when the finding goes'),
  steps: z.array(text).optional(),
  cautions: z.array(name).optional(),
  spent: measure('time', 'non-negative').optional(),
  remark: text.optional(),
})
export const access = z.strictObject({
  id,
  name,
  zone: id.optional(),
  open: measure('time', 'non-negative').optional(),
  close: measure('time', 'non-negative').optional(),
  requires: z.array(id).optional(),
  excludes: z.array(id).optional(),
  isOpen: z.boolean().optional(),
  drivable: z.boolean().optional().describe('the car can be driven while this is open'),
  cautions: z.array(name).optional(),
})
export const part = z.strictObject({
  id,
  name,
  status: z.enum(['wanted', 'ordered', 'arrived', 'on the shelf', 'fitted', 'borrowed', 'removed', 'returned']),
  quantity: z.number().positive().optional(),
  supplier: name.optional(),
  price: z.number().nonnegative().optional().describe('for the whole quantity'),
  currency: z.string().length(3).optional(),
  from: name.optional(),
  backBy: day.optional(),
  due: day.optional(),
  bestBefore: day.optional().describe('end of shelf life or of the interval: hoses, belts, fluids'),
})
export const milestone = z.strictObject({ id, name, order: z.number().int() })
export const reading = z.strictObject({
  id,
  subject: name.describe('what was measured: charge-cooler-effectiveness, volts at pump…'),
  quantity: z.string(),
  value: z.number(),
  plusMinus: z.number().nonnegative().optional(),
  at: z.string().optional(),
  against: z.string().optional(),
  case: id.optional(),
  when: instant.optional(),
  by: name.optional(),
  instrument: name.optional(),
  provenance: z.strictObject({ log: id.optional(), method: name, remark: text.optional() }).optional(),
  accuracy: z
    .strictObject({ relative: z.number().nonnegative().max(1), absolute: z.number().nonnegative() })
    .optional()
    .describe('limits of the instrument: share of the reading plus so much, in the unit of the value'),
  inputResistance: measure('resistance', 'positive').optional().describe('of a voltmeter; 10 MΩ where none is said'),
  leadResistance: measure('resistance', 'non-negative').optional().describe('of both leads, when ohms are read'),
  test: name.optional().describe('line of the test sheet that it answers'),
  search: id.optional().describe('fault search that it was taken for'),
  confirmed: z.boolean().optional().describe('asked about, and right as it stands'),
  remark: text.optional(),
})
const evidence = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('reading'),
    quantity: z.enum(['volts', 'ohms', 'amps']),
    at: z.string().max(160).describe('endpoint, or endpoint/wire for the terminal on that wire'),
    against: z.string().max(160).optional().describe('as `at`; none: battery negative'),
    value: z.number(),
    reading: id.optional().describe('the reading it was taken from'),
    alone: z.boolean().optional().describe('ohms of a part by itself, unplugged or out of its socket'),
    confirmed: z.boolean().optional().describe('asked about, and right as it stands'),
    when: instant.optional(),
  }),
  z.strictObject({
    kind: z.literal('remark'),
    remark: z.string().max(60).describe('key of the list of remarks'),
    about: z.string().max(160).optional().describe('device or wire'),
    when: instant.optional(),
  }),
])
export const faultSearch = z.strictObject({
  id,
  complaint: z.strictObject({
    device: id,
    load: id.optional().describe('where the device has several'),
    kind: z.enum(['dead', 'weak', 'on when it should be off', 'comes and goes']),
    says: text.optional().describe('in the words of who noticed it'),
  }),
  case: id,
  switches: z.record(id, name).optional().describe('as the car is found: over those of the case'),
  outputs: z.record(id, z.number().min(0).max(1)).optional().describe('as `switches`'),
  evidence: z.array(evidence),
  priors: z
    .record(z.string().max(160), z.number().positive())
    .optional()
    .describe('kind of part or part → weight; zone:<id> → times as often as elsewhere'),
  sure: z.number().min(0.5).max(0.999).optional(),
  status: z.enum(['open', 'closed']),
  found: z.strictObject({ part: name, name, mode: name.optional() }).optional(),
  job: id.optional().describe('the repair'),
  opened: instant.optional(),
  closed: instant.optional(),
  history: z.array(z.strictObject({ when: instant.optional(), says: text })).optional(),
})
export const log = z.strictObject({
  id,
  name,
  file: name,
  table: name,
  added: instant,
  samples: z.number().int().nonnegative(),
  first: z.number().nullable(),
  last: z.number().nullable(),
  source: z.string(),
  channels: z.array(
    z.strictObject({
      name,
      unit: z.string().optional(),
      role: z.string().optional(),
      confirmed: z.boolean().optional(),
    }),
  ),
  remark: text.optional(),
})
export const photo = z.strictObject({
  id,
  file: name,
  caption: text.optional(),
  about: z.string().optional(),
  when: instant.optional(),
})
export const note = z.strictObject({ id, text, about: z.string().optional(), when: instant.optional() })
export const calibration = z.strictObject({
  id,
  name,
  kind: name,
  table: z
    .array(z.tuple([z.number(), z.number()]))
    .optional()
    .describe('of a thermistor: [K, Ω]; of any other kind: [V at the input, SI of what it shows]'),
  source: text.optional(),
  when: instant.optional(),
})
export const record = z.strictObject({
  id,
  kind: z.enum(['commissioning gate', 'donor', 'inspection', 'service', 'calibration change', 'sitting']),
  title: name,
  done: z.boolean().optional(),
  when: instant.optional(),
  evidence: text.optional(),
  hours: measure('time', 'positive').optional().describe('time worked in a sitting'),
  jobs: z.array(id).optional().describe('worked on in a sitting'),
  remark: text.optional(),
})

export const collections = {
  zones: zone,
  circuits: circuit,
  devices: device,
  wires: wire,
  branchPoints: branchPoint,
  runs: run,
  passages: passage,
  cases: operatingCase,
  inputs: input,
  outputs: output,
  sensors: sensor,
  resistanceSwitches: resistanceSwitch,
  levelSenders: levelSender,
  gauges: gauge,
  jobs: job,
  accesses: access,
  parts: part,
  milestones: milestone,
  readings: reading,
  faultSearches: faultSearch,
  logs: log,
  photos: photo,
  notes: note,
  calibrations: calibration,
  records: record,
}
export type CollectionName = keyof typeof collections
export type SheetName = keyof typeof sheets
export type Entity<C extends CollectionName> = z.infer<(typeof collections)[C]>
export type Sheet<S extends SheetName> = z.infer<(typeof sheets)[S]>
export type Device = Entity<'devices'>
export type Wire = Entity<'wires'>
export type OperatingCase = Entity<'cases'>
export type Job = Entity<'jobs'>

export interface Build {
  format: typeof FORMAT
  name: string
  sheets: { [S in SheetName]?: Sheet<S> }
  collections: { [C in CollectionName]: Record<string, Entity<C>> }
}

const byId = <T extends z.ZodType>(schema: T) => z.record(id, schema)
export const buildSchema = z.strictObject({
  format: z.literal(FORMAT),
  name,
  sheets: z.strictObject(sheets).partial(),
  collections: z.strictObject({
    zones: byId(zone),
    circuits: byId(circuit),
    devices: byId(device),
    wires: byId(wire),
    branchPoints: byId(branchPoint),
    runs: byId(run),
    passages: byId(passage),
    cases: byId(operatingCase),
    inputs: byId(input),
    outputs: byId(output),
    sensors: byId(sensor).prefault({}),
    resistanceSwitches: byId(resistanceSwitch).prefault({}),
    levelSenders: byId(levelSender).prefault({}),
    gauges: byId(gauge).prefault({}),
    jobs: byId(job),
    accesses: byId(access),
    parts: byId(part),
    milestones: byId(milestone),
    readings: byId(reading),
    faultSearches: byId(faultSearch).prefault({}),
    logs: byId(log),
    photos: byId(photo),
    notes: byId(note),
    calibrations: byId(calibration),
    records: byId(record),
  }),
})

export const emptyBuild = (title: string): Build => ({
  format: FORMAT,
  name: title,
  sheets: {},
  collections: Object.fromEntries(Object.keys(collections).map((key) => [key, {}])) as unknown as Build['collections'],
})

/** One change to one record or sheet; `value: null` removes it. An edit is a list of these with a label. */
export type Change =
  | { readonly collection: CollectionName; readonly id: string; readonly value: unknown }
  | { readonly sheet: SheetName; readonly value: unknown }
  | { readonly name: string }
export interface Edit {
  readonly label: string
  readonly changes: readonly Change[]
}
