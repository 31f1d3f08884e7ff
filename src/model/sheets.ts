/** What there is one of in a car: each a sheet, every figure of it optional. */
import { z } from 'zod'
import { drivelineSheet } from './drivelineSheet.ts'
import { id, loomSheet } from './electrical.ts'
import { injectorCard } from './injectorCard.ts'
import { measure } from './measure.ts'
import { cabinSheet, exhaustSheet, oilSheet } from './serviceSheets.ts'
import { name, text } from './words.ts'

const vehicle = z.strictObject({
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
const engine = z.strictObject({
  name,
  cylinders: z.number().int().min(1).max(16).optional(),
  sweptVolume: measure('volume', 'positive').optional(),
  compressionRatio: z.number().min(4).max(25).optional(),
  charging: z.enum(['none', 'turbocharger', 'supercharger']).optional(),
  targetPower: measure('power', 'positive').optional(),
  targetSpeed: measure('angularSpeed', 'positive').optional(),
  controller: id.optional(),
})
const fuelSheet = z.strictObject({
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
const airSheet = z.strictObject({
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
const coolingSheet = z.strictObject({
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
const brakeSheet = z.strictObject({
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
  travel: z
    .strictObject({
      stroke: measure('length', 'positive').optional().describe('whole stroke of the master cylinder'),
      floatingStroke: measure('length', 'positive').optional().describe('of it, the floating piston’s chamber'),
      floatingFeeds: z.enum(['front', 'rear']).optional().describe('axle that the floating piston’s chamber feeds'),
      idle: measure('length', 'non-negative')
        .optional()
        .describe('at the push rod: its play and the way until the ports are closed'),
      frontClearance: measure('length', 'non-negative')
        .optional()
        .describe(
          'way of the pistons of one wheel to first touch, both pads or shoes together: roll-back of the seals',
        ),
      rearClearance: measure('length', 'non-negative').optional().describe('as `frontClearance`'),
      frontTake: measure('volume', 'non-negative')
        .optional()
        .describe('fluid that one brake with its pads takes from first touch to 10 MPa'),
      rearTake: measure('volume', 'non-negative').optional().describe('as `frontTake`'),
      frontHoses: measure('volume', 'non-negative').optional().describe('swelling of the axle’s hoses at 10 MPa'),
      rearHoses: measure('volume', 'non-negative').optional().describe('as `frontHoses`'),
      pedal: measure('length', 'positive').optional().describe('way of the pedal from rest to what stops it'),
    })
    .optional()
    .describe('fluid taken and the way of the pedal'),
  parking: z
    .strictObject({
      by: z.enum(['hand', 'foot']).optional(),
      ratio: measure('ratio', 'positive').optional().describe('pull on the equaliser over force on the grip'),
      cables: measure('ratio', 'positive').optional().describe('pull at the wheels over pull at the equaliser'),
      wheel: measure('ratio', 'positive').optional().describe('force on each shoe or pad over the pull of its cable'),
      factor: measure('ratio', 'positive')
        .optional()
        .describe('both shoes’ factors together, where not those of the rear brakes'),
      radius: measure('length', 'positive').optional().describe('of its drum, where not that of the rear brakes'),
      gradient: measure('ratio', 'positive').optional().describe('gradient to be held, where not the regulation’s'),
      force: measure('force', 'positive').optional().describe('greatest force allowed, where not the regulation’s'),
    })
    .optional()
    .describe('parking brake by cables on both rear wheels'),
  fluid: z
    .strictObject({
      kind: z.enum(['DOT 3', 'DOT 4', 'DOT 5', 'DOT 5.1', 'other']).optional().describe('as on its tin'),
      age: z.enum(['just filled', 'up to two years', 'more than two years']).optional(),
      boiling: measure('temperature').optional().describe('boiling point, as a tester boiled it'),
      temperature: measure('temperature').optional().describe('hottest, measured at a caliper or wheel cylinder'),
    })
    .optional()
    .describe('brake fluid'),
  inspection: z
    .strictObject({
      name: name.optional(),
      service: measure('ratio', 'positive').optional().describe('braking rate that the service brake must give'),
      parking: measure('ratio', 'positive').optional().describe('parking brake: holding force over weight'),
      failed: measure('ratio', 'positive').optional().describe('braking rate with a circuit or the servo failed'),
      force: measure('force', 'positive').optional().describe('greatest pedal force'),
    })
    .optional()
    .describe('what the inspection of the place asks'),
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
export const sheets = {
  vehicle,
  engine,
  fuel: fuelSheet,
  air: airSheet,
  cooling: coolingSheet,
  oil: oilSheet,
  exhaust: exhaustSheet,
  vacuum: vacuumSheet,
  cabin: cabinSheet,
  brakes: brakeSheet,
  driveline: drivelineSheet,
  loom: loomSheet,
}
