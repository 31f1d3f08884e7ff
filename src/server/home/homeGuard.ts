/**
 * Who may speak to the server from the home network: a request to one of its own addresses, from a page it served
 * itself, with the token of a phone that is paired. The pages and the authority's certificate hold nothing of the
 * build and are open; so is pairing, which asks for the code shown on this machine.
 */
import { getConnInfo } from '@hono/node-server/conninfo'
import type { Context, MiddlewareHandler } from 'hono'
import { getCookie } from 'hono/cookie'
import { setHeaders, stranger } from '../guard.ts'
import type { Devices } from './devices.ts'
import type { Patience } from './patience.ts'

export const TOKEN = 'swapwright'
export const PAIRING = '/api/pair'

export const remoteAddress = (context: Context): string => getConnInfo(context).remote.address ?? 'unknown'

export const mustWait = (context: Context, seconds: number): Response => {
  context.header('Retry-After', String(seconds))
  return context.json(
    {
      problems: [
        {
          code: 'too-many-tries',
          says: 'Too many wrong tries from this address.',
          todo: `Wait ${seconds} s and try again.`,
        },
      ],
    },
    429,
  )
}

export const homeGuard =
  (origins: () => readonly string[], devices: Devices, patience: Patience): MiddlewareHandler =>
  async (context, next) => {
    setHeaders(context)
    const own = origins()
    const host = context.req.header('host') ?? ''
    const origin = context.req.header('origin')
    if (!own.some((known) => new URL(known).host === host) || (origin !== undefined && !own.includes(origin)))
      return stranger(context, 'Scan the code that the workbench shows.')
    if (!context.req.path.startsWith('/api/') || context.req.path === PAIRING) return await next()
    const address = remoteAddress(context)
    const seconds = patience.wait(address)
    if (seconds > 0) return mustWait(context, seconds)
    const token = getCookie(context, TOKEN)
    if (token === undefined || devices.deviceOf(token) === undefined) {
      // A phone that was never paired merely asks; one that brings a wrong token is guessing.
      if (token !== undefined) patience.wrong(address)
      return context.json(
        {
          problems: [
            {
              code: 'not-paired',
              says: token === undefined ? 'This phone is not paired.' : 'This phone is no longer paired.',
              todo: 'On the laptop, open “Phone” and scan the code it shows. What you typed here is kept.',
            },
          ],
        },
        401,
      )
    }
    return await next()
  }
