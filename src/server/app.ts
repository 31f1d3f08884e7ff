/** The routes. Every answer is JSON; a refusal is `{ problems }` with status 422, each with a sentence and what to do. */
import { readFileSync } from 'node:fs'
import { extname, join, resolve, sep } from 'node:path'
import { zValidator } from '@hono/zod-validator'
import { Hono, type MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { HTTPException } from 'hono/http-exception'
import { streamSSE } from 'hono/streaming'
import { z } from 'zod'
import { describeStored, strip } from '../logs/query.ts'
import type { Build, Edit } from '../model/build.ts'
import type { Renumbered } from '../model/renumber.ts'
import { addLog, coolingFromLog, logOf, logTable } from '../store/logs.ts'
import { alreadyDone, mergeEdit } from '../store/merge.ts'
import { addPhoto, photoFile } from '../store/photos.ts'
import { withClosings } from '../store/settle.ts'
import type { Store } from '../store/store.ts'
import { type ColumnMap, FIELDS, type Field } from '../store/wireList/columns.ts'
import { proposeWires } from '../store/wireList/import.ts'
import { readTable } from '../store/wireList/table.ts'
import { type Problem, Refusal, refuse } from '../units/problem.ts'
import { fileRoutes } from './fileRoutes.ts'
import type { Hub } from './hub.ts'
import { followProgress, logRoutes, overridesFromJson } from './logRoutes.ts'
import { withUpload } from './uploads.ts'

const change = z.union([
  z.strictObject({ collection: z.string(), id: z.string(), value: z.unknown() }),
  z.strictObject({ sheet: z.string(), value: z.unknown() }),
  z.strictObject({ name: z.string() }),
])
const editBody = z.strictObject({
  label: z.string().min(1).max(200),
  changes: z.array(change).min(1).max(20_000),
  // What each changed record was when the edit was made; without it the edit is laid over whatever is there.
  from: z.array(z.unknown()).optional(),
})

const TYPES: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.wasm': 'application/wasm',
  '.json': 'application/json',
  '.ico': 'image/x-icon',
}

const columnMap = z.partialRecord(z.enum(Object.keys(FIELDS) as [Field, ...Field[]]), z.number().int().min(0))
const badRequest = (what: string): Refusal =>
  refuse('bad-request', `The request is not well formed: ${what}.`, 'Reload the page and try again.')

const readColumns = (text: string): ColumnMap => {
  try {
    const read = columnMap.safeParse(JSON.parse(text))
    if (read.success) return read.data
  } catch {
    // Not even JSON: refused below like any other wrong form.
  }
  throw badRequest('its columns cannot be read')
}

/** Undefined for an address that no file can have. */
const decoded = (path: string): string | undefined => {
  try {
    return decodeURIComponent(path)
  } catch {
    return undefined
  }
}

export interface AppParts {
  readonly store: Store
  readonly pages: string
  readonly guard: MiddlewareHandler
  readonly hub: Hub
  /** Routes that only this door has: the home network's switch, or pairing. */
  readonly more?: (app: Hono) => void
}

export const makeApp = ({ store, pages, guard, hub, more }: AppParts) => {
  const state = (build: Build = store.read()) => {
    const history = store.history()
    return {
      build,
      identity: store.identity,
      seq: store.version(),
      canUndo: history.some((entry) => !entry.undone),
      canRedo: history.some((entry) => entry.undone),
    }
  }
  /** Every open page is told that something changed. */
  const told = () => {
    hub.tell(store.version())
    return state()
  }
  const refuseShape = (result: {
    success: boolean
    error?: { issues: readonly { path: PropertyKey[]; message: string }[] }
  }): void => {
    if (result.success) return
    throw new Refusal(
      (result.error?.issues ?? []).map(
        (issue): Problem => ({
          code: 'bad-request',
          path: issue.path.join('/'),
          says: `The request is not well formed at ${issue.path.join('/') || 'its root'}: ${issue.message}.`,
          todo: 'Reload the page and try again.',
        }),
      ),
    )
  }

  const base = new Hono().use('*', guard)
  more?.(base)
  const app = base
    .use('/api/edits', bodyLimit({ maxSize: 64 * 1024 * 1024 }))
    .get('/api/build', (context) => context.json(state()))
    .get('/api/history', (context) => context.json(store.history().slice(-500)))
    .post('/api/edits', zValidator('json', editBody, refuseShape), (context) => {
      const { from, ...given } = context.req.valid('json')
      const wanted = given as Edit
      const build = store.read()
      let renumbered: readonly Renumbered[] = []
      if (from === undefined) store.edit(withClosings(build, wanted))
      else if (!alreadyDone(build, wanted)) {
        const merged = mergeEdit(build, wanted, from)
        if ('conflicts' in merged)
          return context.json(
            {
              problems: refuse(
                'changed-elsewhere',
                `“${wanted.label}” was made on an older copy; the same thing was changed elsewhere meanwhile.`,
                'Choose which of the two stays.',
              ).problems,
              conflicts: merged.conflicts,
              ...state(),
            },
            409,
          )
        renumbered = merged.renumbered ?? []
        store.edit(withClosings(build, merged.edit))
      }
      return context.json({ ...told(), renumbered })
    })
    .post('/api/photos', (context) =>
      withUpload(context.req.raw.body, context.req.query('name') ?? 'photo', async (file, name) => {
        const about = context.req.query('about')
        const photo = addPhoto(store, file, {
          name,
          ...(about === undefined ? {} : { about }),
          when: context.req.query('when') ?? new Date().toISOString(),
        })
        return context.json({ photo, ...told() })
      }),
    )
    .get('/api/photos/:id', (context) => {
      const { type, bytes } = photoFile(store, context.req.param('id'))
      return context.body(new Uint8Array(bytes), 200, {
        'Content-Type': type,
        'Cache-Control': 'private, max-age=86400',
      })
    })
    .post('/api/undo', (context) => {
      const done = store.undo()
      return context.json({ ...told(), label: done?.label ?? null })
    })
    .post('/api/redo', (context) => {
      const done = store.redo()
      return context.json({ ...told(), label: done?.label ?? null })
    })
    .get('/api/events', (context) =>
      streamSSE(context, async (stream) => {
        const tell = (version: number): void => void stream.writeSSE({ event: 'changed', data: String(version) })
        stream.onAbort(hub.listen(tell))
        await stream.writeSSE({ event: 'changed', data: String(store.version()) })
        while (!stream.aborted) await stream.sleep(15_000)
      }),
    )
    .post('/api/logs', (context) =>
      withUpload(context.req.raw.body, context.req.query('name') ?? 'log.csv', async (file, name) => {
        const onProgress = followProgress(context.req.query('token'))
        const read = context.req.query('read')
        const added = await addLog(store, file, {
          name,
          ...(read ? { overrides: overridesFromJson(read) } : {}),
          signal: context.req.raw.signal,
          ...(onProgress ? { onProgress } : {}),
        })
        return context.json({ ...added, ...told() })
      }),
    )
    .get('/api/logs/:id/strip', async (context) => {
      const log = logOf(store, context.req.param('id'))
      const table = logTable(store, log)
      const channels = (context.req.query('channels') ?? '').split('\u001f').filter(Boolean)
      const pixels = Math.min(4000, Math.max(1, Math.round(Number(context.req.query('pixels') ?? 800)) || 800))
      const from = Number(context.req.query('from') ?? log.first ?? 0)
      const to = Number(context.req.query('to') ?? log.last ?? 1)
      await describeStored(table)
      const set = await strip(table, channels, from, to, pixels)
      const plain = (values: Float64Array): (number | null)[] =>
        Array.from(values, (value) => (Number.isFinite(value) ? value : null))
      return context.json({
        ...set,
        strips: set.strips.map((one) => ({ ...one, min: plain(one.min), max: plain(one.max) })),
      })
    })
    .post('/api/logs/:id/cooling', async (context) => {
      const { result, reading } = await coolingFromLog(store, context.req.param('id'))
      return context.json({ result, reading: reading ?? null, ...told() })
    })
    .route('/', logRoutes({ store, told }))
    .route('/', fileRoutes({ store, told }))
    .post('/api/wires/:act{preview|import}', (context) =>
      withUpload(context.req.raw.body, context.req.query('name') ?? 'list.csv', async (file) => {
        const columns = context.req.query('columns')
        const proposal = proposeWires(store.read(), await readTable(file), columns ? readColumns(columns) : undefined)
        if (context.req.param('act') === 'import') store.edit(withClosings(store.read(), proposal.edit))
        return context.json({ proposal: { ...proposal, edit: undefined }, ...told() })
      }),
    )
    .get('*', (context) => {
      const path = context.req.path === '/' ? '/index.html' : decoded(context.req.path)
      if (path === undefined) return context.notFound()
      const file = resolve(join(pages, path))
      if (!file.startsWith(resolve(pages) + sep)) return context.notFound()
      let bytes: Buffer
      try {
        bytes = readFileSync(file)
      } catch {
        return context.notFound()
      }
      const lasting = path.startsWith('/assets/')
      return context.body(new Uint8Array(bytes), 200, {
        'Content-Type': TYPES[extname(file)] ?? 'application/octet-stream',
        'Cache-Control': lasting ? 'public, max-age=31536000, immutable' : 'no-cache',
      })
    })
    .notFound((context) =>
      context.json(
        {
          problems: refuse('not-here', `There is nothing at ${context.req.path}.`, 'Go back to the start page.')
            .problems,
        },
        404,
      ),
    )
    .onError((error, context) => {
      if (error instanceof Refusal) return context.json({ problems: error.problems }, 422)
      if (error instanceof HTTPException && error.status < 500)
        return context.json({ problems: badRequest(error.message || 'it is too large').problems }, error.status)
      return context.json(
        {
          problems: [
            {
              code: 'fault',
              says: `Something in Swapwright itself went wrong: ${error.message}`,
              todo: 'Nothing stored was changed by it. Try again.',
            },
          ],
        },
        500,
      )
    })
  return app
}

export type App = ReturnType<typeof makeApp>
