/** Pairing, which a phone asks for; and what the page on this machine asks about the home network. */
import { zValidator } from '@hono/zod-validator'
import { Hono } from 'hono'
import { setCookie } from 'hono/cookie'
import QRCode from 'qrcode'
import { z } from 'zod'
import { refuse } from '../../units/problem.ts'
import type { Devices } from './devices.ts'
import { mustWait, PAIRING, remoteAddress, TOKEN } from './homeGuard.ts'
import type { HomeNetwork } from './homeNetwork.ts'
import type { Patience } from './patience.ts'

const pairBody = z.strictObject({ code: z.string().max(64), name: z.string().trim().min(1).max(60) })

export const pairing = (devices: Devices, patience: Patience, secure: boolean): Hono =>
  new Hono().post(PAIRING, zValidator('json', pairBody), (context) => {
    const address = remoteAddress(context)
    const seconds = patience.wait(address)
    if (seconds > 0) return mustWait(context, seconds)
    const { code, name } = context.req.valid('json')
    const pair = devices.pair(code, name)
    if (!pair) {
      patience.wrong(address)
      throw refuse(
        'wrong-code',
        'This code is wrong, used already or older than ten minutes.',
        'Have the laptop show a new one and scan that.',
      )
    }
    // Strict: no other site can make the phone send it. Not readable by any script.
    setCookie(context, TOKEN, pair.token, {
      httpOnly: true,
      sameSite: 'Strict',
      secure,
      path: '/',
      expires: pair.ends,
    })
    return context.json({ paired: true, ends: pair.ends.toISOString() })
  })

const onBody = z.strictObject({ secure: z.boolean(), port: z.number().int().min(0).max(65_535).optional() })
const picture = (text: string): Promise<string> =>
  QRCode.toString(text, { type: 'svg', errorCorrectionLevel: 'M', margin: 2 })

/** Only for the page on this machine. */
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
