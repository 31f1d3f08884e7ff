/** What a builder proves: evidence entry by entry, rows of lists to be gone through, files of the controller. */
import { z } from 'zod'
import { id } from './electrical.ts'
import { measure } from './measure.ts'
import { name, text } from './words.ts'

/** A digest as SHA-256 is written: 64 hexadecimal digits (FIPS 180-4). */
const hash = z.string().regex(/^[0-9a-f]{64}$/)

/** One piece of evidence. Never changed once it is there: a later entry says otherwise, and both stay. */
export const evidenceEntry = z.strictObject({
  id,
  of: z
    .string()
    .regex(/^(gate|checks)\/[A-Za-z0-9_./-]{1,150}$/)
    .describe('what it is evidence of: gate/<what the gate asks>, checks/<row of a list>'),
  shows: z.enum(['as it should', 'not as it should', 'does not apply', 'a remark']),
  reading: id.optional().describe('reading that it refers to'),
  says: text.optional(),
  when: z.iso.datetime().optional(),
  by: name.optional(),
})

/** A row of a list that is gone through: inspection, donor, service, shakedown. */
export const check = z.strictObject({
  id,
  list: id.describe('record whose row it is'),
  title: name,
  group: name.optional().describe('emissions, noise, structure…'),
  zone: id.optional().describe('where on the car it is looked at'),
  origin: z.enum(['common practice', 'own', 'authority']).optional().describe('where the row comes from'),
  every: z
    .strictObject({
      time: measure('time', 'positive').optional().describe('hours that the engine has run'),
      months: z.number().int().positive().max(240).optional(),
      distance: measure('length', 'positive').optional(),
    })
    .optional()
    .describe('of a service: due again after whichever comes first'),
})

/** The controller's file as it was at one change of its calibration; the file itself lies in the build's folder. */
export const controllerFile = z.strictObject({
  name,
  sha256: hash,
  bytes: z.number().int().nonnegative(),
  before: id.optional().describe('record of the file that this one was made from'),
  differs: z
    .strictObject({
      bytes: z.number().int().nonnegative().describe('that are not as in the file before, counted place by place'),
      lines: z
        .strictObject({ added: z.number().int().nonnegative(), taken: z.number().int().nonnegative() })
        .optional()
        .describe('of a text file'),
    })
    .optional()
    .describe('from the file before'),
  belongs: z
    .array(z.string().max(160))
    .optional()
    .describe('collection/id or sheet/name: injector card, curve, log, reading'),
})

/** What an inspection is for. */
export const inspection = z.strictObject({
  country: name.optional(),
  category: name.optional().describe('as the authority calls it'),
  day: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}$/)
    .optional(),
})
