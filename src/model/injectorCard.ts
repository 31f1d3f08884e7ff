/** `injector-card/1`: what an injector does, with its interval and where that comes from. One file, readable by others. */
import { z } from 'zod'
import { measure } from './measure.ts'

export const INJECTOR_CARD_FORMAT = 'injector-card/1'
const text = z.string().max(4000)
const name = z.string().min(1).max(160)

export const injectorCard = z.strictObject({
  format: z.literal(INJECTOR_CARD_FORMAT),
  name,
  fluid: z
    .strictObject({
      name: name.describe('n-heptane, test oil, petrol, E85…'),
      density: measure('density', 'positive'),
    })
    .describe('the fluid of the figures below'),
  pressure: measure('pressureDifference', 'positive').describe('across the injector, rail less manifold'),
  slope: measure('massFlow', 'positive').describe('mass flow while open: slope of mass per pulse against pulse'),
  deadTime: z
    .array(z.tuple([measure('voltage', 'positive'), measure('time', 'non-negative')]))
    .min(1)
    .describe('time offset against volts at the injector, at that pressure'),
  shortPulse: z
    .strictObject({
      below: measure('time', 'positive').describe('commanded pulse below which the straight line no longer holds'),
      added: z
        .array(z.tuple([measure('time', 'positive'), measure('time')]))
        .optional()
        .describe('commanded pulse, and time to add to it'),
    })
    .optional()
    .describe('absent: not looked at, which is not the same as straight'),
  coverage: z.literal(0.95).describe('every ± is the half width of an interval of this coverage'),
  method: z.enum(['data sheet', 'bench test', 'two logs', 'not known']),
  provenance: z.strictObject({
    from: name.describe('whose sheet, bench or logs'),
    when: z.iso.date().optional(),
    remark: text.optional(),
  }),
})
export type InjectorCard = z.infer<typeof injectorCard>

export const injectorCardJsonSchema = (): Record<string, unknown> => ({
  title: `Injector card, format ${INJECTOR_CARD_FORMAT}`,
  ...(z.toJSONSchema(injectorCard, { target: 'draft-2020-12', reused: 'ref', io: 'input' }) as Record<string, unknown>),
})
