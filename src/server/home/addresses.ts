/** The addresses at which a phone on the same network can reach this machine. */
import { networkInterfaces } from 'node:os'

/** Private ranges: RFC 1918, and RFC 3927 for networks without a router. */
const PRIVATE = /^(10\.|192\.168\.|172\.(1[6-9]|2\d|3[01])\.|169\.254\.)/

/** Private IPv4 addresses, those a household router gives out before the rest. A public address is never offered. */
export const homeAddresses = (interfaces = networkInterfaces()): string[] => {
  const found = Object.values(interfaces)
    .flatMap((entries) => entries ?? [])
    .filter((entry) => entry.family === 'IPv4' && !entry.internal && PRIVATE.test(entry.address))
    .map((entry) => entry.address)
  const rank = (address: string): number =>
    address.startsWith('192.168.') ? 0 : address.startsWith('10.') ? 1 : address.startsWith('172.') ? 2 : 3
  return [...new Set(found)].sort((a, b) => rank(a) - rank(b))
}
