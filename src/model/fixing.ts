/** The register of torques and clearances: what a joint or a gap is to have, and each time that somebody saw to it. */
import { z } from 'zod'
import { id } from './electrical.ts'
import { measure } from './measure.ts'
import { name, text } from './words.ts'

/** One time that it was tightened or measured. The newest counts; the older stay. Figures are SI. */
const seenTo = z.strictObject({
  value: z.number().optional().describe('N·m, rad or m'),
  plusMinus: z.number().nonnegative().optional(),
  unit: z.string().max(20).optional().describe('in which it was typed'),
  method: name.optional().describe('torque wrench, angle gauge, feeler gauge, dial gauge…'),
  marked: name.optional().describe('how: yellow paint across nut and flange; absent: not marked'),
  by: name.optional(),
  when: z.iso.datetime().optional(),
  says: text.optional(),
})

export const fixing = z.strictObject({
  id,
  name: name.describe('the joint or the clearance'),
  of: z.enum(['torque', 'angle', 'clearance']),
  group: name.optional().describe('brakes, fuel, steering, structure, engine…'),
  zone: id.optional().describe('where on the car it is'),
  asked: z
    .strictObject({
      least: z.number().optional().describe('N·m, rad or m'),
      most: z.number().optional(),
      unit: z.string().max(20).optional().describe('in which it was typed'),
      source: text.optional().describe('whose figure it is'),
    })
    .optional()
    .describe('what it is to have'),
  bolt: z
    .strictObject({
      diameter: measure('length', 'positive'),
      pitch: measure('length', 'positive'),
      grade: z.enum(['4.6', '5.6', '5.8', '6.8', '8.8', '9.8', '10.9', '12.9']).describe('property class, ISO 898-1'),
      factor: measure('ratio', 'positive').optional().describe('nut factor, with its range'),
    })
    .optional(),
  recheck: z
    .strictObject({
      distance: measure('length', 'positive').optional(),
      time: measure('time', 'positive').optional().describe('hours that the engine has run'),
      months: z.number().int().positive().max(240).optional(),
      day: z
        .string()
        .regex(/^\d{4}-\d{2}-\d{2}$/)
        .optional(),
      again: z.boolean().optional().describe('after every time; else once, after the first'),
    })
    .optional()
    .describe('after it was seen to, by whichever comes first'),
  entries: z.array(seenTo),
  remark: text.optional(),
})
