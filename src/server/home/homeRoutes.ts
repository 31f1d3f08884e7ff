/** What the page on this machine asks about the home network. Only for that page. */
import { zValidator } from '@hono/zod-validator'
import { Hono } from 'hono'
import QRCode from 'qrcode'
import { z } from 'zod'
import { refuse } from '../../units/problem.ts'
import type { HomeNetwork } from './homeNetwork.ts'

const onBody = z.strictObject({ secure: z.boolean(), port: z.number().int().min(0).max(65_535).optional() })
const picture = (text: string): Promise<string> =>
  QRCode.toString(text, { type: 'svg', errorCorrectionLevel: 'M', margin: 2 })

export const homeRoutes = (home: HomeNetwork) =>
  new Hono()
    .get('/', (context) => context.json(home.state()))
    .post('/on', zValidator('json', onBody), async (context) => {
      const { secure, port } = context.req.valid('json')
      return context.json(await home.turnOn(port === undefined ? { secure } : { secure, port }))
    })
    .post('/off', async (context) => context.json(await home.turnOff()))
    .post('/code', async (context) => {
      const { addresses, certificateAt } = home.state()
      const first = addresses[0]
      if (first === undefined) throw refuse('network-off', 'The home network is off.', 'Turn it on first.')
      const { code, ends } = home.devices.newCode()
      const address = `${first}#/phone/pair/${code}`
      return context.json({
        address,
        ends: ends.toISOString(),
        picture: await picture(address),
        certificatePicture: certificateAt === undefined ? undefined : await picture(certificateAt),
      })
    })
    .post('/devices/:id/revoke', (context) => {
      home.devices.revoke(context.req.param('id'))
      return context.json(home.state())
    })
