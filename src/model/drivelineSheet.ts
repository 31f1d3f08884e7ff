/** Driveline sheet: from the crankshaft to the road, and what the car weighs where. Every figure optional. */
import { z } from 'zod'
import { measure } from './measure.ts'
import { name } from './words.ts'

const heading = z.strictObject({
  gearbox: measure('angle').optional().describe('of the gearbox’s output shaft'),
  shaft: measure('angle').optional().describe('of the propeller shaft; of its last piece where there are two'),
  axle: measure('angle').optional().describe('of the axle’s pinion'),
})
export const drivelineSheet = z.strictObject({
  driven: z.enum(['front', 'rear', 'all']).optional().describe('wheels'),
  engineSet: z
    .enum(['in line', 'transverse', 'in one with its axle'])
    .optional()
    .describe('the last: along the car, gearbox and final drive in one case'),
  peakTorque: measure('torque', 'positive').optional().describe('greatest torque of the engine'),
  torqueCurve: z
    .array(z.tuple([measure('angularSpeed', 'positive'), measure('torque', 'positive')]))
    .optional()
    .describe('torque of the engine against its speed'),
  clutchTorque: measure('torque', 'positive').optional().describe('rated capacity'),
  clutch: z
    .strictObject({
      clamp: measure('force', 'positive').optional().describe('of the cover at the thickness of the plate'),
      friction: measure('ratio', 'positive').optional().describe('of the lining, its range as ±'),
      outer: measure('length', 'positive').optional().describe('outside of the lining, across'),
      inner: measure('length', 'positive').optional().describe('inside of the lining, across'),
      faces: z.number().int().min(1).max(20).optional().describe('rubbing faces, two for each plate'),
    })
    .optional()
    .describe('from which its torque is reckoned where its maker gives none'),
  gearboxTorque: measure('torque', 'positive').optional().describe('rated input'),
  axleTorque: measure('torque', 'positive').optional().describe('rated output'),
  shock: measure('ratio', 'positive')
    .optional()
    .describe('torque of a dropped clutch over what the clutch passes; 2 is the most without damping'),
  tyreGrip: measure('ratio', 'positive').optional().describe('of the driven tyres on a dry road'),
  propshaftLength: measure('length', 'positive')
    .optional()
    .describe('of the longest piece, joint to joint or to the centre bearing'),
  propshaftDiameter: measure('length', 'positive').optional(),
  propshaftWall: measure('length', 'positive').optional(),
  propshaftTube: z.enum(['steel', 'aluminium']).optional(),
  propshaftYield: measure('stress', 'positive').optional().describe('yield strength of its tube in tension'),
  jointTorque: measure('torque', 'positive').optional().describe('that the propeller shaft’s joints are rated for'),
  jointAngles: z.array(measure('angle')).optional().describe('of each joint, where measured as such'),
  slopes: heading.optional().describe('from the side; falling to the rear positive'),
  plan: heading.optional().describe('from above; to the right positive'),
  phase: measure('angle', 'non-negative').optional().describe('by which the shaft’s two yokes are out of line'),
  mounts: z
    .strictObject({
      span: measure('length', 'positive').optional().describe('between the two, or arm to the torque stay'),
      weight: measure('force', 'non-negative').optional().describe('that rests on each'),
      rated: measure('force', 'positive').optional().describe('that each stands, by its maker'),
    })
    .optional()
    .describe('the pair that holds the engine against its torque'),
  cruise: measure('speed', 'positive').optional().describe('road speed of long journeys'),
  topSpeed: measure('speed', 'positive').optional().describe('greatest road speed that the car reaches or is held to'),
  before: z
    .strictObject({
      name: name.optional(),
      torque: measure('torque', 'positive').optional(),
      limit: measure('angularSpeed', 'positive').optional().describe('greatest engine speed'),
      gears: z.array(z.number().positive()).optional(),
      finalDrive: z.number().positive().optional(),
      tyreRadius: measure('length', 'positive').optional(),
    })
    .optional()
    .describe('the engine and gears that the car had; what is left out is as now'),
  corners: z
    .strictObject({
      frontLeft: measure('mass', 'positive').optional(),
      frontRight: measure('mass', 'positive').optional(),
      rearLeft: measure('mass', 'positive').optional(),
      rearRight: measure('mass', 'positive').optional(),
    })
    .optional()
    .describe('as weighed on four scales'),
  frontTrack: measure('length', 'positive').optional(),
  rearTrack: measure('length', 'positive').optional(),
  tilt: z
    .strictObject({
      raised: z.enum(['front', 'rear']).optional().describe('axle'),
      rise: measure('length', 'positive').optional(),
      level: measure('mass', 'positive').optional().describe('on the other axle, car level'),
      tilted: measure('mass', 'positive').optional().describe('on the other axle, car tilted'),
      total: measure('mass', 'positive').optional().describe('of the car as tilted'),
      axleHeight: measure('length', 'positive').optional().describe('middle of the wheels above the pads'),
    })
    .optional()
    .describe('weighing with one axle raised'),
  swap: z
    .strictObject({
      frontBefore: measure('mass', 'positive').optional().describe('on the front axle with the old engine'),
      rearBefore: measure('mass', 'positive').optional().describe('on the rear axle with the old engine'),
      out: measure('mass', 'non-negative').optional().describe('old engine with all that went with it'),
      outAt: measure('length').optional().describe('its centre behind the front axle'),
      in: measure('mass', 'non-negative').optional().describe('new engine with all that comes with it'),
      inAt: measure('length').optional().describe('its centre behind the front axle'),
    })
    .optional(),
})
