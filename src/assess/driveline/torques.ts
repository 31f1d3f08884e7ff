/** Torque along the driveline in one gear and load: what the engine sends, what the tyres let pass, what each part stands. */
import { clutchTorque } from '../../engineering/driveline/clutchTorque.ts'
import { drivelineTorque } from '../../engineering/driveline/drivelineTorque.ts'
import { mountReaction } from '../../engineering/driveline/mountReaction.ts'
import { shaftShear } from '../../engineering/driveline/shaftShear.ts'
import { shaftYield } from '../../engineering/driveline/shaftYield.ts'
import { tyreTorque } from '../../engineering/driveline/tyreTorque.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { type DrivelineFacts, inOneCase, type LoadName } from './facts.ts'

export const PARTS = ['clutch', 'gearbox', 'mounts', 'shaft', 'joints', 'axle'] as const
export type Part = (typeof PARTS)[number]

export interface Torques {
  readonly gear: Datum
  readonly load: LoadName
  /** That the tyres pass, at the axle, and as engine torque in this gear. */
  readonly grip: Datum
  readonly gripForce: Datum
  readonly gripAsEngine: Datum
  /** Steady, no more than the tyres pass. */
  readonly intoGearbox: Datum
  readonly atShaft: Datum
  readonly atAxle: Datum
  /** At the axle and the shaft when the clutch is dropped, no more than the tyres pass. */
  readonly shockAtAxle: Datum
  readonly shockAtShaft: Datum
  readonly clutch: Datum
  /** The same without a reading. */
  readonly clutchOnSheet: Datum
  /** Of a worn-in and of a new lining, where reckoned from clamp and lining. */
  readonly clutchWorn: Datum
  readonly clutchFresh: Datum
  readonly shear: Datum
  readonly yieldTorque: Datum
  readonly mountTorque: Datum
  readonly mountHeavy: Datum
  readonly mountLight: Datum
  readonly mountChange: Datum
  /** Engine torque that each part stands in this gear; absent where the car has no such part or nobody gave a limit for it. */
  readonly capacities: Readonly<Record<Part, Datum>>
}

const lesser = (a: Datum, b: Datum, line: string): Datum => combine([a, b], (x = 0, y = 0) => Math.min(x, y), line)
/** The lesser of what is known; where both are lacking, the first. */
const bounded = (a: Datum, b: Datum, line: string): Datum =>
  isKnown(a) && isKnown(b) ? lesser(a, b, line) : isKnown(a) ? a : isKnown(b) ? b : a
const over = (torque: Datum, by: readonly Datum[], line: string): Datum =>
  combine([torque, ...by], (value = 0, ...ratios) => ratios.reduce((left, ratio) => left / ratio, value), line)

/** From clamp, friction and lining, where anything of them is entered. */
const clutchOf = ({ sheet }: DrivelineFacts): { readonly worn: Datum; readonly fresh: Datum } => {
  const { clutch } = sheet
  if (!clutch) {
    const gap = lacking('clamping force of the clutch')
    return { worn: gap, fresh: gap }
  }
  return step(clutchTorque, {
    clamp: entered(clutch.clamp, 'clamping force of the clutch'),
    friction: entered(clutch.friction, 'friction of the clutch lining'),
    outer: entered(clutch.outer, 'outside of the clutch lining'),
    inner: entered(clutch.inner, 'inside of the clutch lining'),
    faces: clutch.faces === undefined ? lacking('rubbing faces of the clutch') : known(clutch.faces),
  })
}

export const gripOf = (facts: DrivelineFacts, load: LoadName) => {
  const { front, rear, height } = facts.loads[load]
  if (facts.driven === undefined) {
    const gap = lacking('which wheels are driven')
    return { torque: gap, force: gap }
  }
  return step(tyreTorque, {
    driven: facts.driven,
    frontMass: front,
    rearMass: rear,
    height,
    wheelbase: facts.wheelbase,
    grip: facts.grip,
    radius: facts.now.tyre,
  })
}

export const torquesOf = (facts: DrivelineFacts, gearAt: number, load: LoadName): Torques => {
  const { sheet, now, torque, shock, readings } = facts
  const ratio = now.ratios[gearAt]
  const gear = ratio === undefined ? lacking('ratios of the gears') : known(ratio, 0, `Gear ${gearAt + 1}: ${ratio}`)
  const { finalDrive } = now
  const inOne = inOneCase(facts)
  const setUnknown = lacking('how the engine stands')
  const reckoned = clutchOf(facts)
  const clutchOnSheet = sheet.clutchTorque
    ? entered(sheet.clutchTorque, 'rated torque of the clutch')
    : sheet.clutch
      ? reckoned.worn
      : lacking('rated torque of the clutch (or clamping force with lining)')
  const clutch = readings['clutch-torque'] ?? clutchOnSheet
  const tyres = gripOf(facts, load)
  const gripAsEngine = over(
    tyres.torque,
    [gear, finalDrive],
    'Tyres’ torque as engine torque = torque / (gear × final drive)',
  )
  const intoGearbox = bounded(
    torque,
    gripAsEngine,
    'The lesser of the engine’s torque and what the tyres pass in this gear',
  )
  const along = step(drivelineTorque, { torque: intoGearbox, gear, finalDrive })
  const dropped = combine(
    [clutch, shock, gear, finalDrive],
    (t = 0, k = 0, i = 0, f = 0) => t * k * i * f,
    'At the axle, clutch dropped = clutch × shock × gear × final drive',
  )
  const shockAtAxle = bounded(
    dropped,
    tyres.torque,
    'The lesser of the dropped clutch and what the tyres pass: beyond it they spin',
  )
  const shockAtShaft = over(shockAtAxle, [finalDrive], 'At the shaft = at the axle / final drive')
  const diameter = entered(sheet.propshaftDiameter, 'outside of the propeller shaft’s tube')
  const wall = entered(sheet.propshaftWall, 'wall of the propeller shaft’s tube')
  const { shear } = step(shaftShear, { torque: shockAtShaft, diameter, wall })
  const { torque: yieldTorque } = step(shaftYield, {
    strength: entered(sheet.propshaftYield, 'yield strength of the propeller shaft’s tube'),
    diameter,
    wall,
  })
  const mountTorque = inOne === undefined ? setUnknown : inOne ? along.axle : along.shaft
  const span = entered(sheet.mounts?.span, 'distance between the engine mounts')
  const weight = entered(sheet.mounts?.weight, 'weight on each engine mount')
  const { heavy, light, change } = step(mountReaction, { torque: mountTorque, span, weight })
  const rated = entered(sheet.mounts?.rated, 'force that each engine mount stands')
  return {
    gear,
    load,
    grip: tyres.torque,
    gripForce: tyres.force,
    gripAsEngine,
    intoGearbox,
    atShaft: along.shaft,
    atAxle: along.axle,
    shockAtAxle,
    shockAtShaft,
    clutch,
    clutchOnSheet,
    clutchWorn: reckoned.worn,
    clutchFresh: reckoned.fresh,
    shear,
    yieldTorque,
    mountTorque,
    mountHeavy: heavy,
    mountLight: light,
    mountChange: change,
    capacities: {
      clutch,
      gearbox: entered(sheet.gearboxTorque, 'rated input of the gearbox'),
      mounts: combine(
        [rated, weight, span, gear, inOne === undefined ? setUnknown : inOne ? finalDrive : known(1)],
        (most = 0, resting = 0, arm = 0, i = 1, f = 1) => ((most - resting) * arm) / (i * f),
        'Mounts as engine torque = (rated − weight on each) × distance / gear, with the axle in the gearbox’s case / final drive too',
      ),
      shaft: over(yieldTorque, [gear], 'Shaft as engine torque = torque at yield / gear'),
      joints: over(
        entered(sheet.jointTorque, 'torque that the propeller shaft’s joints are rated for'),
        [gear],
        'Joints as engine torque = rated torque / gear',
      ),
      axle: over(
        entered(sheet.axleTorque, 'rated output of the axle'),
        [gear, finalDrive],
        'Axle as engine torque = rated output / (gear × final drive)',
      ),
    },
  }
}
