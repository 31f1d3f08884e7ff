/** Devices, wires, loom and operating cases. Shapes only; what they mean to a circuit is bound in src/assess. */
import { z } from 'zod'
import { measure } from './measure.ts'

export const id = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_+-]{0,47}$/)
/** `device.pin`, as in `fan-relay.30`. */
export const endpoint = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_+-]{0,47}\.[A-Za-z0-9+-]{1,16}$/)
const text = z.string().max(2000)
const name = z.string().min(1).max(120)
const pinId = z.string().regex(/^[A-Za-z0-9+-]{1,16}$/)

export const loadLaw = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('resistance'), resistance: measure('resistance', 'positive') }),
  z.strictObject({
    type: z.literal('lamp'),
    ratedVoltage: measure('voltage', 'positive'),
    ratedPower: measure('power', 'positive'),
  }),
  z.strictObject({
    type: z.literal('current'),
    current: measure('current', 'non-negative'),
    minimumVoltage: measure('voltage', 'positive'),
  }),
  z.strictObject({
    type: z.literal('power'),
    power: measure('power', 'positive'),
    minimumVoltage: measure('voltage', 'positive'),
  }),
  z.strictObject({
    type: z.literal('motor'),
    ratedVoltage: measure('voltage', 'positive'),
    runningCurrent: measure('current', 'positive'),
    stallCurrent: measure('current', 'positive'),
    startTime: measure('time', 'positive').optional().describe('in which the starting current falls to 1/e'),
    loading: z
      .enum(['constant', 'fan'])
      .optional()
      .describe('fan: torque with the square of the speed, as a blower; else the same torque at every speed'),
  }),
])

/** One consumer inside a device. Draws whenever it is fed, unless `onlyIn` names the operating cases it runs in. */
export const load = z.strictObject({
  id,
  name: name.optional(),
  from: pinId,
  to: pinId,
  law: loadLaw.optional(),
  onlyIn: z.array(id).optional(),
  duty: z.number().min(0).max(1).optional(),
  needs: measure('voltage', 'positive').optional().describe('least voltage at which it does its job'),
  inductance: measure('inductance', 'positive').optional(),
  greatest: measure('current', 'positive').optional().describe('most that its winding may carry, by its sheet'),
})

/** A pin that is a source of its own. */
export const supply = z.strictObject({
  pin: pinId,
  kind: z.enum(['charging socket', 'controller supply']),
  voltage: measure('voltage', 'positive').optional(),
  limit: measure('current', 'positive').optional().describe('most that it gives into a short'),
})

const contactPair = z.tuple([pinId, pinId])

export const deviceSpec = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('battery'),
    restedVoltage: measure('voltage', 'positive').optional(),
    internalResistance: measure('resistance', 'positive').optional(),
    capacity: measure('charge', 'positive').optional(),
    acceptance: measure('current', 'non-negative').optional().describe('charging current taken after twenty minutes'),
    coldCranking: measure('current', 'positive').optional().describe('EN 50342 at −18 °C: 7.5 V after 10 s'),
    peukertExponent: measure('ratio', 'positive').optional().describe('rated form: t = H·(C/(I·H))^k'),
    selfDischarge: measure('ratio', 'positive').optional().describe('share of capacity lost in 30 d at 20 °C'),
    stateOfCharge: measure('ratio', 'non-negative')
      .optional()
      .describe('1: full; when the running cases are looked at'),
  }),
  z.strictObject({
    kind: z.literal('alternator'),
    setpoint: measure('voltage', 'positive').optional(),
    internalResistance: measure('resistance', 'positive').optional(),
    hotOutputIdle: measure('current', 'positive').optional(),
    hotOutputCruise: measure('current', 'positive').optional(),
    loadDumpClamp: measure('voltage', 'positive')
      .optional()
      .describe('peak that its own suppression leaves of a load dump'),
  }),
  z.strictObject({
    kind: z.literal('starter'),
    crankingCurrent: measure('current', 'positive').optional(),
    stallCurrent: measure('current', 'positive').optional().describe('with the pinion held, at 12 V'),
    solenoidResistance: measure('resistance', 'positive').optional(),
    pullIn: measure('voltage', 'positive').optional(),
  }),
  z.strictObject({
    kind: z.literal('earth-stud'),
    on: z.enum(['body', 'engine', 'isolated']),
    contactResistance: measure('resistance', 'positive').optional(),
  }),
  z.strictObject({
    kind: z.literal('fuse'),
    rating: measure('current', 'positive').optional(),
    pattern: z.enum(['blade', 'mini blade', 'high-current blade', 'bolt-down', 'glass']).optional(),
    coldResistance: measure('resistance', 'positive').optional(),
    breakingCapacity: measure('current', 'positive').optional().describe('highest current it breaks, maker’s sheet'),
  }),
  z.strictObject({
    kind: z.literal('relay'),
    coilResistance: measure('resistance', 'positive').optional(),
    pullIn: measure('voltage', 'positive').optional(),
    dropOut: measure('voltage', 'positive').optional(),
    contactResistance: measure('resistance', 'positive').optional(),
    suppression: z.enum(['none', 'resistor', 'diode']).optional(),
  }),
  z.strictObject({
    kind: z.literal('switch'),
    positions: z.record(name, z.array(contactPair)),
    rest: name,
    contactResistance: measure('resistance', 'positive').optional(),
  }),
  z.strictObject({ kind: z.literal('diode'), forwardVoltage: measure('voltage', 'positive').optional() }),
  z.strictObject({ kind: z.literal('resistor'), resistance: measure('resistance', 'positive').optional() }),
  z.strictObject({ kind: z.literal('splice') }),
  z.strictObject({ kind: z.literal('connector'), sealed: z.boolean().optional() }),
  z.strictObject({ kind: z.literal('controller') }),
  z.strictObject({
    kind: z.enum(['lamp', 'motor', 'pump', 'heater', 'solenoid', 'injector', 'coil', 'sensor', 'gauge', 'module']),
  }),
])

export const device = z.strictObject({
  id,
  name,
  zone: id.optional(),
  circuit: id.optional(),
  pins: z.record(pinId, z.strictObject({ name: name.optional(), mustBeWired: z.boolean().optional() })),
  spec: deviceSpec,
  loads: z.array(load).optional(),
  at: id.optional().describe('branch point of the loom'),
  notForCurrent: z
    .boolean()
    .optional()
    .describe('metal that joins two points and is not meant to carry current: throttle cable, control cable, pipe'),
  supplies: z
    .array(supply)
    .optional()
    .describe('pins that feed others: sensor supplies of a controller, a socket that a charger is plugged into'),
  reverseProtected: z.boolean().optional().describe('survives the battery connected the wrong way round'),
  withstands: measure('voltage', 'positive')
    .optional()
    .describe('highest supply voltage that it survives for a minute'),
  loadDump: measure('voltage', 'positive').optional().describe('peak of a load dump that it survives, maker’s sheet'),
  restricted: z.enum(['airbag', 'anti-lock']).optional(),
  fitted: z.boolean().optional(),
  remark: text.optional(),
})

export const termination = z.strictObject({
  method: z.enum(['crimped', 'soldered', 'solder sleeve', 'screw', 'ring']),
  sealed: z.boolean().optional(),
  resistance: measure('resistance', 'positive').optional(),
  terminal: name.optional().describe('kind of terminal as bought: blade 6.3 mm, ring M8'),
})

const colour = z.enum(['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH', 'PK', 'GD', 'TQ', 'SR', 'GNYE'])

export const wire = z.strictObject({
  id,
  from: endpoint,
  to: endpoint,
  area: measure('area', 'positive').optional(),
  material: z.enum(['copper', 'tinned copper', 'copper-clad aluminium', 'aluminium']).optional(),
  insulation: z.enum(['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H']).optional().describe('temperature class of ISO 6722'),
  colour: colour.optional(),
  tracer: colour.optional(),
  length: measure('length', 'positive').optional(),
  outer: measure('length', 'positive')
    .optional()
    .describe('diameter over the insulation; of a screened cable over everything, the same on each of its cores'),
  path: z.array(id).optional().describe('runs of the loom, in order'),
  ends: z.strictObject({ from: termination.optional(), to: termination.optional() }).optional(),
  circuit: id.optional(),
  screened: z.boolean().optional(),
  screenEarths: z
    .array(endpoint)
    .optional()
    .describe('points that the screen is joined to: one for a screen earthed at one end, two for both'),
  twistedWith: id.optional(),
  braid: z.boolean().optional(),
  notForCurrent: z.boolean().optional().describe('as of a device: metal that is not meant to carry current'),
  unfusedBecause: text.optional().describe('documented exception, such as the starter cable'),
  restricted: z.enum(['airbag', 'anti-lock']).optional(),
  fitted: z.boolean().optional(),
  remark: text.optional(),
})

export const circuit = z.strictObject({ id, name, purpose: text.optional() })
export const branchPoint = z.strictObject({ id, name, zone: id, x: z.number().optional(), y: z.number().optional() })
export const run = z.strictObject({
  id,
  name: name.optional(),
  from: id,
  to: id,
  length: measure('length', 'positive').optional(),
  zone: id,
  sleeve: name.optional(),
  sleeveBore: measure('length', 'positive').optional().describe('inner diameter of the sleeve as bought'),
  bend: measure('length', 'positive').optional().describe('smallest radius that it is laid to, on the inside'),
  passage: id.optional(),
})
export const passage = z.strictObject({
  id,
  name,
  hole: measure('length', 'positive').optional(),
  grommet: z.boolean().optional(),
  bore: measure('length', 'positive').optional().describe('clear diameter inside the grommet'),
  through: z.enum(['metal', 'plastic', 'wood']).optional().describe('what the hole is in'),
  remark: text.optional(),
})

/** How this loom is laid and cut; what is left out is taken as common practice and said so. */
export const loomSheet = z.strictObject({
  wall: z.enum(['thin', 'thick']).optional().describe('insulation wall of the wires bought, ISO 6722'),
  handLaid: measure('ratio', 'positive').optional().describe('bundle laid by hand over the tightest packing'),
  tape: measure('length', 'positive').optional().describe('thickness of one layer of the tape'),
  tail: measure('length', 'non-negative').optional().describe('of each wire end, from the loom to the device'),
  service: measure('length', 'non-negative').optional().describe('more at each end, for terminating it once again'),
  waste: measure('ratio', 'non-negative').optional().describe('bought beyond what is cut: 0.1 is a tenth'),
})

export const operatingCase = z.strictObject({
  id,
  name,
  engine: z.enum(['off', 'cranking', 'idle', 'cruise', 'full load']),
  alternator: z.enum(['off', 'idle', 'cruise']),
  battery: z.enum(['connected', 'reversed', 'disconnected']),
  supply: measure('voltage').optional().describe('jump-start source across the battery'),
  switches: z.record(id, name).describe('switch → position; the rest stay at rest'),
  outputs: z.record(id, z.number().min(0).max(1)).describe('controller output → duty'),
  ambient: measure('temperature').optional(),
  remark: text.optional(),
})

/** From where a speed is counted: teeth of a sensor ring over one turn, turns of a cable, driving over driven gear. */
export const counted = z.strictObject({
  shaft: z.enum(['gearbox output', 'driven wheel']),
  counts: z.number().positive().describe('teeth that pass, or turns of the cable'),
  turns: z.number().positive().describe('turns of that shaft meanwhile'),
})
export const input = z.strictObject({
  id,
  name,
  device: id,
  pin: pinId,
  signal: z.enum(['voltage', 'resistance', 'frequency', 'switch', 'digital bus', 'lambda cell']),
  source: id.optional().describe('sensor or switch device'),
  configured: z.boolean(),
  range: z.tuple([measure('voltage'), measure('voltage')]).optional(),
  pullUp: measure('resistance', 'positive').optional(),
  bits: z.number().int().min(6).max(24).optional(),
  reference: measure('voltage', 'positive').optional(),
  pullUpTolerance: z.number().min(0).max(0.5).optional().describe('relative: 0.01 is ± 1 %'),
  leakage: measure('current', 'non-negative').optional().describe('± into the input'),
  linearity: z.number().nonnegative().optional().describe('integral non-linearity of the converter, ± steps'),
  calibration: id.optional().describe('the table that the controller has for it today'),
  counted: counted.optional().describe('of a road speed: where its pulses come from'),
  pulses: z
    .number()
    .positive()
    .optional()
    .describe('of a road speed: pulses a kilometre that the controller is set to'),
})
export const output = z.strictObject({
  id,
  name,
  device: id,
  pin: pinId,
  driver: z.enum(['low side', 'high side', 'half bridge', 'logic']),
  drives: id.optional(),
  configured: z.boolean(),
  limit: measure('current', 'positive').optional(),
  peak: measure('current', 'positive').optional().describe('of a peak-and-hold stage: lets this much in, then holds'),
  hold: measure('current', 'positive').optional().describe('of a peak-and-hold stage: what it holds on'),
  onResistance: measure('resistance', 'positive').optional(),
  clamp: measure('voltage', 'positive').optional(),
  feedsBack: z
    .boolean()
    .optional()
    .describe('current can run from its pin into the controller’s supply: a flywheel diode inside'),
  atBoot: z.enum(['off', 'on', 'unknown']).optional(),
  modulated: z.boolean().optional(),
  frequency: measure('frequency', 'positive').optional().describe('of its modulation, or of its pulses at full speed'),
  pulses: z.number().positive().optional().describe('a revolution that it gives to a rev counter'),
  clampEnergy: measure('energy', 'positive').optional().describe('most that its clamp takes at each switching off'),
  dwell: measure('time', 'positive').optional().describe('of an ignition coil, longest that the controller commands'),
})
