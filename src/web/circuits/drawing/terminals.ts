/** Which terminal (DIN 72552) a point of the supply is: 30 straight from the battery, else that of the switch behind it. */
import { circuitOf, spread } from '../../../assess/circuit.ts'
import { deviceIdOf, own } from '../../../assess/make.ts'
import { relayPins } from '../../../assess/pins.ts'
import type { Build, Device } from '../../../model/build.ts'
import type { HeightOf } from './heights.ts'

/** Numbers of switched supplies, as they stand on switches and relays. */
const SWITCHED = new Set(['15', '15a', '15R', '50', '54', '56', '56a', '56b', '58', '75', 'P', 'R'])

export const terminalOf = (build: Build, endpoint: string, height: HeightOf): string | undefined => {
  const circuit = circuitOf(build)
  /** Current comes out of the device here: what it is tied to inside stands higher. */
  const givesAt = (device: Device, pin: string, partners: readonly (string | undefined)[]): boolean => {
    const here = height(`${device.id}.${pin}`)
    return partners.some((one) => one !== undefined && here !== null && (height(`${device.id}.${one}`) ?? here) > here)
  }
  const partnersOf = (device: Device, pin: string): readonly string[] =>
    device.spec.kind === 'switch'
      ? Object.values(device.spec.positions)
          .flat()
          .filter((pair) => pair.includes(pin))
          .map(([a, b]) => (a === pin ? b : a))
      : []
  const battery = new Set(circuit.positive)
  const look = (start: string, mayFollow: boolean): string | undefined => {
    const reached = [...spread(circuit, [start], ({ kind }) => kind === 'wire' || kind === 'inside' || kind === 'fuse')]
    if (reached.some((node) => battery.has(node))) return '30'
    for (const node of reached.sort()) {
      const device = own(build.collections.devices, deviceIdOf(node))
      const pin = node.slice(node.lastIndexOf('.') + 1)
      if (device?.spec.kind === 'switch' && SWITCHED.has(pin) && givesAt(device, pin, partnersOf(device, pin)))
        return pin
      if (
        device?.spec.kind === 'relay' &&
        mayFollow &&
        pin === relayPins(device).make &&
        givesAt(device, pin, [relayPins(device).common])
      ) {
        // Fed through a relay: the number is that of what holds the relay, if that is a switched supply.
        const held = relayPins(device)
          .coil.filter((one) => one !== undefined)
          .map((one) => look(`${device.id}.${one}`, false))
          .find((number) => number !== undefined && number !== '30')
        return held ?? '87'
      }
    }
    return undefined
  }
  return look(endpoint, true)
}
