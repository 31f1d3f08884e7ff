/**
 * Sensors as the controller reads them: a curve bound to an input; resistance switches, level senders, gauges. Shapes only;
 * what they mean is bound in src/assess.
 */
import { z } from 'zod'
import { counted, id } from './electrical.ts'
import { measure } from './measure.ts'

const name = z.string().min(1).max(120)
const pinId = z.string().regex(/^[A-Za-z0-9+-]{1,16}$/)

/** Kinds a sensor may read; its curve's second numbers are SI of this kind. */
export const SENSED = [
  'pressureAbsolute',
  'pressureGauge',
  'temperature',
  'ratio',
  'angle',
  'length',
  'volume',
  'massFlow',
  'volumeFlow',
  'current',
  'acceleration',
] as const

export const sensor = z.strictObject({
  id,
  name,
  device: id.describe('the sensor device'),
  input: id.optional().describe('controller input that reads it; its pull-up and reference are entered there'),
  returnPin: pinId.optional().describe('pin of the device that returns to the sensor earth'),
  quantity: z.enum(SENSED),
  unit: z.string().max(20).optional().describe('unit the builder reads it in'),
  form: z
    .enum(['voltage', 'ratio of supply', 'resistance'])
    .describe('what the first numbers of the curve are: V, share of the supply (0 … 1), Ω'),
  curve: z
    .array(z.tuple([z.number(), z.number()]))
    .min(2)
    .optional()
    .describe('[electrical SI, physical SI] in order of the electrical side'),
  readings: z
    .array(
      z.strictObject({
        value: z.number().describe('physical SI, known by other means'),
        shows: z.number().describe('electrical SI that the sensor then shows, in its form'),
        valuePlusMinus: z.number().nonnegative().optional(),
        showsPlusMinus: z.number().nonnegative().optional(),
      }),
    )
    .min(2)
    .optional()
    .describe('readings of this very sensor, in any order; they go before the curve of its sheet'),
  covers: z
    .tuple([z.number(), z.number()])
    .optional()
    .describe('physical SI, least and most that the controller must read; else what readings or curve span'),
  contact: measure('resistance', 'non-negative').optional().describe('most that plugs and wires add to a resistance'),
  dissipation: z
    .number()
    .positive()
    .optional()
    .describe('of a thermistor: W that warm it by 1 K where it sits, by its sheet'),
  twin: id.optional().describe('the sensor that shows the same position by another track: pedal, throttle'),
  twinLimit: z.number().positive().max(1).optional().describe('disagreement at which the controller shuts down'),
  trackTolerance: z.number().nonnegative().max(0.5).optional().describe('± share of the supply'),
  usual: z.number().optional().describe('physical SI where it matters most; errors are told there'),
  allowedError: z.number().positive().optional().describe('largest error the builder accepts, SI of the difference'),
  source: z.string().max(2000).optional(),
})

const resistor = z.strictObject({
  resistance: measure('resistance', 'positive'),
  tolerance: z
    .number()
    .min(0)
    .max(0.5)
    .optional()
    .describe('relative: 0.01 is ± 1 %; left out, the ± of the resistance stands'),
})

export const resistanceSwitch = z.strictObject({
  id,
  name,
  device: id.describe('the switch device'),
  input: id.optional().describe('controller input that reads it; its pull-up, bits and reference are entered there'),
  returnPin: pinId.optional().describe('pin of the device that returns; else the one away from the input'),
  topology: z.enum(['branches', 'chain']).describe('a resistor a button; or one string with taps, from the wire on'),
  buttons: z.array(resistor.extend({ name })).min(1).max(16),
  idle: resistor.optional().describe('end-of-line resistor, by which “no button” differs from a broken wire'),
  contact: measure('resistance', 'non-negative').optional().describe('most that an old closed contact shows'),
  pullUp: resistor.optional().describe('outside the controller; left out, the input’s own'),
  pullUpTolerance: z.number().min(0).max(0.5).optional().describe('of the input’s own pull-up, relative'),
  supply: z
    .tuple([measure('voltage'), measure('voltage')])
    .optional()
    .describe('least and most that feeds the pull-up'),
  ratiometric: z.boolean().optional().describe('pull-up and converter share one supply'),
  leakage: measure('current', 'non-negative').optional().describe('± into the input'),
  linearity: z.number().nonnegative().optional().describe('integral non-linearity of the converter, ± steps'),
})

const tankShape = z.discriminatedUnion('shape', [
  z.strictObject({
    shape: z.literal('box'),
    length: measure('length', 'positive'),
    width: measure('length', 'positive'),
    height: measure('length', 'positive'),
  }),
  z.strictObject({
    shape: z.literal('lying cylinder'),
    diameter: measure('length', 'positive'),
    length: measure('length', 'positive'),
  }),
  z.strictObject({
    shape: z.literal('loft'),
    height: measure('length', 'positive'),
    sections: z
      .array(z.strictObject({ height: measure('length', 'non-negative'), area: measure('area', 'non-negative') }))
      .min(2),
  }),
])

export const levelSender = z.strictObject({
  id,
  name,
  device: id.describe('the sender device'),
  input: id.optional().describe('controller input that reads it'),
  returnPin: pinId.optional().describe('pin of the device that returns; else the one away from the input'),
  tank: tankShape.optional(),
  curve: z
    .array(z.tuple([z.number(), z.number().nonnegative()]))
    .min(2)
    .optional()
    .describe('[height of the liquid m, resistance Ω]'),
  fillTest: z
    .strictObject({
      readings: z
        .array(z.tuple([z.number().nonnegative(), z.number().nonnegative()]))
        .min(3)
        .describe('[poured since the reading before m³, resistance Ω]'),
      scale: z.number().nonnegative().max(0.5).describe('± share of the can’s mark'),
      each: measure('volume', 'non-negative').describe('± of filling it to the mark'),
    })
    .optional(),
  reserve: measure('volume', 'positive').optional(),
  damping: measure('time', 'positive').optional().describe('time constant of the reading'),
})

export const gauge = z.strictObject({
  id,
  name,
  device: id.optional(),
  shows: z.enum(['level', 'temperature', 'pressure', 'speed', 'engine speed', 'voltage']),
  sender: id.optional().describe('level sender that drives it'),
  curve: z
    .array(z.tuple([z.number().min(0).max(1), z.number().nonnegative()]))
    .min(2)
    .optional()
    .describe('[share of its scale, resistance Ω that brings the needle there]'),
  network: z
    .strictObject({
      order: z.enum(['series, then across', 'across, then series']),
      series: measure('resistance', 'non-negative').optional(),
      across: measure('resistance', 'positive').optional(),
    })
    .optional()
    .describe('resistors between sender and gauge'),
  pulses: z.number().positive().optional().describe('of a rev counter: pulses a revolution it was made for'),
  threshold: measure('voltage', 'positive').optional().describe('of a rev counter: least pulse it follows'),
  constant: z
    .number()
    .positive()
    .optional()
    .describe('of a speedometer: turns or counts a kilometre that it was made for, as its dial says'),
  counted: counted.optional().describe('of a speedometer: where its turns or counts come from'),
  source: z.string().max(2000).optional(),
})
