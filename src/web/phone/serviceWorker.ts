/**
 * Keeps the workbench's own pages and the build as last seen, for a garage without signal. The network is asked first
 * for whatever may change; files whose names carry their content's hash are taken from here.
 */
const scope = self as unknown as {
  addEventListener(
    type: 'install' | 'activate' | 'fetch',
    listener: (event: {
      waitUntil(promise: Promise<unknown>): void
      respondWith(answer: Promise<Response>): void
      readonly request: Request
    }) => void,
  ): void
  skipWaiting(): Promise<void>
  readonly clients: { claim(): Promise<void> }
}
const KEPT = 'swapwright-1'
/** Longer than this without an answer is no signal, for someone who stands there with dirty hands. */
const PATIENCE = 4000

const keepAll = async (): Promise<void> => {
  const cache = await caches.open(KEPT)
  const list = (await (await fetch('./files.json')).json()) as string[]
  await cache.addAll(['./', ...list.map((file) => `./${file}`)])
  await scope.skipWaiting()
}
/** Files of versions before are let go; the build as last seen stays. */
const letGo = async (): Promise<void> => {
  const cache = await caches.open(KEPT)
  const list = (await (await fetch('./files.json')).json()) as string[]
  const wanted = new Set(list.map((file) => new URL(`./${file}`, location.href).href))
  for (const request of await cache.keys())
    if (request.url.includes('/assets/') && !wanted.has(request.url)) await cache.delete(request)
  await scope.clients.claim()
}

const freshFirst = async (request: Request): Promise<Response> => {
  const cache = await caches.open(KEPT)
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE) })
    if (answer.ok) await cache.put(request, answer.clone())
    return answer
  } catch (error) {
    const kept = await cache.match(request, { ignoreSearch: request.mode === 'navigate' })
    if (kept) return kept
    throw error
  }
}
const keptFirst = async (request: Request): Promise<Response> =>
  (await (await caches.open(KEPT)).match(request)) ?? freshFirst(request)

scope.addEventListener('install', (event) => event.waitUntil(keepAll()))
scope.addEventListener('activate', (event) => event.waitUntil(letGo()))
scope.addEventListener('fetch', (event) => {
  const { request } = event
  const { pathname, origin } = new URL(request.url)
  if (request.method !== 'GET' || origin !== location.origin) return
  if (pathname.startsWith('/assets/') || pathname.startsWith('/api/photos/')) event.respondWith(keptFirst(request))
  else if (request.mode === 'navigate' || pathname === '/api/build') event.respondWith(freshFirst(request))
})
