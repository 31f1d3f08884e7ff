/** Routes of the calibration ledger: a controller's file in, out again, what differs, the way back. */
import { zValidator } from '@hono/zod-validator'
import { Hono } from 'hono'
import { z } from 'zod'
import type { Build } from '../model/build.ts'
import { addControllerFile, backToFile, controllerFile, controllerFileDiffers } from '../store/controllerFiles.ts'
import type { Store } from '../store/store.ts'
import { withUpload } from './uploads.ts'

const backBody = z.strictObject({ by: z.string().max(160) })

interface Parts {
  readonly store: Store
  readonly told: () => { readonly build: Build }
}

export const fileRoutes = ({ store, told }: Parts) =>
  new Hono()
    .post('/api/controller-files', (context) =>
      withUpload(context.req.raw.body, context.req.query('name') ?? 'controller file', async (file, name) => {
        const belongs = context.req.queries('belongs') ?? []
        const record = addControllerFile(store, file, {
          name,
          says: context.req.query('says') ?? '',
          by: context.req.query('by') ?? '',
          when: new Date().toISOString(),
          belongs,
        })
        return context.json({ record, ...told() })
      }),
    )
    .get('/api/controller-files/:id', (context) => {
      const { name, bytes } = controllerFile(store, context.req.param('id'))
      return context.body(new Uint8Array(bytes), 200, {
        'Content-Type': 'application/octet-stream',
        'Content-Disposition': `attachment; filename*=UTF-8''${encodeURIComponent(name)}`,
      })
    })
    .get('/api/controller-files/:id/differs', (context) => {
      const { changes, ...rest } = controllerFileDiffers(store, context.req.param('id'))
      return context.json({ ...rest, changes: changes?.slice(0, 400) ?? null })
    })
    .post('/api/controller-files/:id/back', zValidator('json', backBody), (context) => {
      const record = backToFile(store, context.req.param('id'), {
        by: context.req.valid('json').by,
        when: new Date().toISOString(),
      })
      return context.json({ record, ...told() })
    })
