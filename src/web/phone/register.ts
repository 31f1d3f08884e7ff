/** Keeps the pages on the phone, where the browser trusts the connection enough to allow it. */
import { onThisMachine } from './door.ts'

/** On this machine the server is always there, and pages kept from an older version would only be in the way. */
export const registerWorker = (): void => {
  if (onThisMachine() || !isSecureContext || !('serviceWorker' in navigator)) return
  // Refused where the certificate was clicked through instead of installed; the page then works as without one.
  navigator.serviceWorker.register('./service-worker.js').catch(() => undefined)
}
