/** Volts that a device's electronics see: the largest, with its sign, from a feeding pin to a returning one. */
import type { Device } from '../../model/build.ts'
import { endpointOf } from '../make.ts'
import { controllerPins } from '../pins.ts'

export const supplyVolts = (device: Device, voltage: (endpoint: string) => number | null): number | null => {
  const pairs: (readonly [string, string])[] = (device.loads ?? []).map(({ from, to }) => [from, to])
  if (device.spec.kind === 'controller') {
    const { supply, earths } = controllerPins(device)
    if (supply !== undefined && earths[0] !== undefined) pairs.push([supply, earths[0]])
  }
  let most: number | null = null
  for (const [from, to] of pairs) {
    const [a, b] = [voltage(endpointOf(device.id, from)), voltage(endpointOf(device.id, to))]
    if (a !== null && b !== null && (most === null || Math.abs(a - b) > Math.abs(most))) most = a - b
  }
  return most
}
