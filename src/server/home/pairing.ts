/** Pairing, the one thing that a phone may ask for before it is known. */
import { zValidator } from '@hono/zod-validator'
import { Hono } from 'hono'
import { setCookie } from 'hono/cookie'
import { z } from 'zod'
import { refuse } from '../../units/problem.ts'
import type { Devices } from './devices.ts'
import { mustWait, PAIRING, remoteAddress, TOKEN } from './homeGuard.ts'
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
