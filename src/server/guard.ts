/** Only pages served from this very address may speak to the server; nothing it serves may load from anywhere else. */
import type { Context, MiddlewareHandler } from 'hono'

const POLICY = [
  "default-src 'none'",
  // The planner's solver is compiled code (WebAssembly), which counts as script; no text is ever run as such.
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ')

const LOOPBACK = /^(127\.0\.0\.1|localhost|\[::1\])(:\d+)?$/

export const setHeaders = (context: Context): void => {
  context.header('Content-Security-Policy', POLICY)
  context.header('X-Content-Type-Options', 'nosniff')
  context.header('Referrer-Policy', 'no-referrer')
  context.header('Cross-Origin-Opener-Policy', 'same-origin')
  context.header('Cross-Origin-Resource-Policy', 'same-origin')
}

export const stranger = (context: Context, todo: string): Response =>
  context.json(
    { problems: [{ code: 'stranger', says: 'This request does not come from the workbench on this machine.', todo }] },
    403,
  )

/** For the loopback address: the person at this machine. */
export const guard: MiddlewareHandler = async (context, next) => {
  setHeaders(context)
  const host = context.req.header('host') ?? ''
  const origin = context.req.header('origin')
  if (!LOOPBACK.test(host) || (origin !== undefined && origin !== `http://${host}`))
    return stranger(context, 'Open the address that Swapwright printed.')
  return await next()
}
