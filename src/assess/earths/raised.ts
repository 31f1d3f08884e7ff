/** Raised earths: how far above the battery negative post each point that things return to stands, in every case. */
import type { Build } from '../../model/build.ts'
import type { Context } from '../context.ts'
import { deviceIdOf, deviceName, deviceZone, own } from '../make.ts'
import { batteryPins, controllerPins } from '../pins.ts'
import type { Solved } from '../solveCases.ts'

export interface EarthRow {
  /** Device id of the stud or controller. */
  readonly earth: string
  readonly name: string
  readonly zone?: string
  readonly case: string
  readonly caseName: string
  /** The pin farthest from the battery's negative post, and its volts are told. Null: none has a voltage. */
  readonly endpoint: string | null
  /** V above the battery's negative post (negative: below it). Null: floating or not solved. */
  readonly raised: number | null
  /** Names of what returns here, over one wire. */
  readonly returns: readonly string[]
}

/** V of the battery's negative post: all raised earths are told against it. */
export const negativePost = (build: Build, solved: Pick<Solved, 'voltages'>): number | undefined => {
  for (const device of Object.values(build.collections.devices)) {
    if (device.spec.kind !== 'battery') continue
    const { negative } = batteryPins(device)
    const value = negative === undefined ? undefined : solved.voltages[`${device.id}.${negative}`]
    if (value != null) return value
  }
  return undefined
}
export const negativeOf = ({ build }: Context, solved: Solved): number | undefined => negativePost(build, solved)

/** Earth studs and the controllers' earth pins: endpoint by endpoint. */
const earthPoints = ({ build }: Context): { device: string; pins: readonly string[] }[] =>
  Object.values(build.collections.devices).flatMap((device) => {
    if (device.restricted) return []
    if (device.spec.kind === 'earth-stud') return [{ device: device.id, pins: Object.keys(device.pins) }]
    if (device.spec.kind !== 'controller') return []
    const { earths, sensorEarth } = controllerPins(device)
    return [{ device: device.id, pins: [...earths, ...sensorEarth] }]
  })

const returnsAt = (context: Context, device: string, pins: readonly string[]): string[] => {
  const names = new Set<string>()
  for (const pin of pins)
    for (const id of context.circuit.wiresAt.get(`${device}.${pin}`) ?? []) {
      const wire = own(context.build.collections.wires, id)
      if (!wire) continue
      const other = deviceIdOf(deviceIdOf(wire.from) === device ? wire.to : wire.from)
      const kind = own(context.build.collections.devices, other)?.spec.kind
      if (kind !== 'battery' && kind !== 'earth-stud') names.add(deviceName(context.build, other))
    }
  return [...names]
}

const farthestPin = (solved: Solved, device: string, pins: readonly string[], zero: number) => {
  let found: { endpoint: string; raised: number } | undefined
  for (const pin of pins) {
    const endpoint = `${device}.${pin}`
    const value = solved.voltages[endpoint]
    if (value != null && (!found || Math.abs(value - zero) > Math.abs(found.raised)))
      found = { endpoint, raised: value - zero }
  }
  return found
}

/** Every earth point in every case that was solved, farthest from the negative post first. For screens as well as rules. */
export const earthsOf = (context: Context): EarthRow[] => {
  const points = earthPoints(context).map((point) => ({
    ...point,
    returns: returnsAt(context, point.device, point.pins),
  }))
  return context.cases
    .flatMap((solved) => {
      if (!solved.solved || solved.kase.battery === 'reversed') return []
      const zero = negativeOf(context, solved)
      return points.map(({ device, pins, returns }): EarthRow => {
        const farthest = zero === undefined ? undefined : farthestPin(solved, device, pins, zero)
        const zone = deviceZone(context.build, device)
        return {
          earth: device,
          name: deviceName(context.build, device),
          ...(zone === undefined ? {} : { zone }),
          case: solved.case,
          caseName: solved.kase.name,
          endpoint: farthest?.endpoint ?? null,
          raised: farthest?.raised ?? null,
          returns,
        }
      })
    })
    .sort((a, b) => Math.abs(b.raised ?? 0) - Math.abs(a.raised ?? 0))
}
