/** Routes of the questions to logs. Each answer is a sentence with its interval; what it tells is filed as it is told. */
import { zValidator } from '@hono/zod-validator'
import { Hono } from 'hono'
import { z } from 'zod'
import type { Overrides } from '../logs/plan.ts'
import { at, withRanges } from '../logs/query.ts'
import { checkOverrides } from '../logs/readOverrides.ts'
import { judge, ROLES, type Role } from '../logs/roles.ts'
import type { Build } from '../model/build.ts'
import { readInjectorCard } from '../model/readInjectorCard.ts'
import {
  askBench,
  askComparison,
  askCompressor,
  askHeadroom,
  askInjectors,
  askSanity,
  fileComparison,
  fileCompressor,
  filedLog,
  fileHeadroom,
  fileInjectors,
} from '../store/logQuestions.ts'
import { boundRoles, logOf, logTable, readLogAgain } from '../store/logs.ts'
import type { Store } from '../store/store.ts'
import { refuse } from '../units/problem.ts'

const headroomBody = z.strictObject({
  targetSpeed: z.number().positive().max(2000).optional(),
  targetPressure: z.number().positive().max(1e6).optional(),
  limit: z.number().positive().max(1.2).optional(),
  pulsesPerCycle: z.number().int().min(1).max(8).optional(),
})
const benchBody = z.strictObject({
  name: z.string().min(1).max(160),
  fluid: z.string().min(1).max(80),
  density: z.number().positive().max(2000),
  across: z.number().positive().max(2e7),
})
const injectorBody = z.strictObject({
  known: z.string(),
  unknown: z.string(),
  /** Text of the card; else the one that the fuel sheet holds. */
  card: z.string().max(200_000).optional(),
  name: z.string().min(1).max(160).optional(),
  across: z.number().positive().optional(),
  pulsesKnown: z.number().int().min(1).max(8).optional(),
  pulsesUnknown: z.number().int().min(1).max(8).optional(),
  trimMissing: z.boolean().optional(),
  narrowBand: z.boolean().optional(),
  lambdaTolerance: z.number().positive().max(0.5).optional(),
  changed: z.array(z.string().max(200)).max(20).optional(),
})

/** How far each reading-in of a file has got, by the token that the page chose. */
const progress = new Map<string, number>()
export const followProgress = (token: string | undefined): ((share: number) => void) | undefined => {
  if (token === undefined || !/^[\w-]{8,64}$/.test(token)) return undefined
  progress.set(token, 0)
  // A page that closed never fetches the end of it.
  if (progress.size > 100) progress.delete(progress.keys().next().value ?? '')
  return (share) => {
    if (share >= 1) progress.delete(token)
    else progress.set(token, share)
  }
}

export const overridesFromJson = (text: string): Overrides => {
  let given: unknown
  try {
    given = JSON.parse(text)
  } catch {
    throw refuse('bad-request', 'How the file is to be read came through garbled.', 'Reload the page and try again.')
  }
  return checkOverrides(given)
}

/** Every meaning that there is, by name, and how sure the guess for each channel is. */
const meaningsOf = async (log: ReturnType<typeof logOf>, table: string) => {
  const ranges = new Map((await withRanges(table)).map((each) => [each.name, each]))
  return {
    roles: Object.entries(ROLES).map(([id, { title }]) => ({ id, title })),
    guesses: log.channels.flatMap(({ name, unit, role }) => {
      const range = ranges.get(name)
      const guess =
        range && role !== undefined && Object.hasOwn(ROLES, role)
          ? judge({ ...range, unit: unit ?? '' }, role as Role)
          : undefined
      return guess ? [{ channel: name, confidence: guess.confidence, reason: guess.reason }] : []
    }),
  }
}

interface Parts {
  readonly store: Store
  readonly told: () => object
}

export const logRoutes = ({ store, told }: Parts) => {
  const build = (): Build => store.read()
  return new Hono()
    .get('/api/log-progress/:token', (context) =>
      context.json({ share: progress.get(context.req.param('token')) ?? null }),
    )
    .get('/api/logs/:id/meanings', async (context) => {
      const log = logOf(store, context.req.param('id'))
      return context.json(await meaningsOf(log, logTable(store, log)))
    })
    .post('/api/logs/:id/again', async (context) => {
      const again = await readLogAgain(store, context.req.param('id'), {
        overrides: checkOverrides(await context.req.json().catch(() => ({}))),
        signal: context.req.raw.signal,
      })
      return context.json({ ...again, ...told() })
    })
    .get('/api/logs/:id/at', async (context) => {
      const time = Number(context.req.query('t'))
      if (!Number.isFinite(time))
        throw refuse('bad-request', 'The request names no moment.', 'Choose a moment on a strip.')
      const log = logOf(store, context.req.param('id'))
      const roles = new Map(boundRoles(log).map((bound) => [bound.channel, bound]))
      const { t, readings } = await at(logTable(store, log), time)
      // What a channel means, and its value in SI, for who places it on a drawing.
      return context.json({
        t,
        readings: readings.map((reading) => {
          const bound = roles.get(reading.channel)
          if (!bound) return reading
          const si = typeof reading.value === 'number' ? bound.factor * reading.value + bound.offset : null
          return { ...reading, role: bound.role, si }
        }),
      })
    })
    .post('/api/logs/:id/headroom', zValidator('json', headroomBody), async (context) => {
      const log = filedLog(store, context.req.param('id'))
      const given = context.req.valid('json')
      const result = await askHeadroom(log, build(), {
        ...(given.targetSpeed === undefined ? {} : { targetSpeed: given.targetSpeed }),
        ...(given.targetPressure === undefined ? {} : { targetPressure: given.targetPressure }),
        ...(given.limit === undefined ? {} : { limit: given.limit }),
        ...(given.pulsesPerCycle === undefined ? {} : { pulsesPerCycle: given.pulsesPerCycle }),
      })
      return context.json({ result, reading: fileHeadroom(store, log.name, result) ?? null, ...told() })
    })
    .post('/api/logs/:id/compressor', async (context) => {
      const log = filedLog(store, context.req.param('id'))
      const result = await askCompressor(log)
      return context.json({ result, reading: fileCompressor(store, log.name, result) ?? null, ...told() })
    })
    .post('/api/logs/:id/sanity', async (context) => {
      const log = filedLog(store, context.req.param('id'))
      return context.json({ result: await askSanity(log, build()), reading: null, ...told() })
    })
    .post('/api/logs/:id/compare/:after', async (context) => {
      const [before, after] = [context.req.param('id'), context.req.param('after')]
      const result = await askComparison(filedLog(store, before), filedLog(store, after), build())
      return context.json({ result, reading: fileComparison(store, before, after, result) ?? null, ...told() })
    })
    .post('/api/logs/:id/bench', zValidator('json', benchBody), async (context) => {
      const log = filedLog(store, context.req.param('id'))
      const { name, fluid, density, across } = context.req.valid('json')
      const result = await askBench(log, {
        name,
        fluid: { name: fluid, density: { value: density } },
        pressure: across,
      })
      return context.json({ result, reading: fileInjectors(store, log.name, result) ?? null, ...told() })
    })
    .post('/api/injectors', zValidator('json', injectorBody), async (context) => {
      const given = context.req.valid('json')
      const card = given.card === undefined ? build().sheets.fuel?.injectors?.card : readInjectorCard(given.card)
      if (!card)
        throw refuse(
          'no-card',
          'The fuel sheet holds no card of the known injectors.',
          'Choose the file of their card: from the maker’s sheet or a bench test.',
        )
      const more = (pulses: number | undefined) => ({
        ...(pulses === undefined ? {} : { pulsesPerCycle: pulses }),
        ...(given.across === undefined ? {} : { across: given.across }),
      })
      const result = await askInjectors(
        { ...filedLog(store, given.known), ...more(given.pulsesKnown) },
        { ...filedLog(store, given.unknown), ...more(given.pulsesUnknown) },
        card,
        {
          trimMissing: given.trimMissing ?? false,
          narrowBand: given.narrowBand ?? false,
          ...(given.lambdaTolerance === undefined ? {} : { lambdaTolerance: given.lambdaTolerance }),
          ...(given.changed ? { changed: given.changed } : {}),
          ...(given.name === undefined ? {} : { unknownName: given.name }),
        },
      )
      return context.json({ result, reading: fileInjectors(store, given.unknown, result) ?? null, ...told() })
    })
}
