/** What the stages of first power share: the car with everything clever unplugged, in a case, and words for steps. */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build, Device, OperatingCase } from '../../model/build.ts'
import { atRest } from '../faults/atRest.ts'
import { carTolerances } from '../faults/start.ts'
import { list, own } from '../make.ts'
import { solveCase } from '../solveCases.ts'
import type { SheetStep } from './types.ts'

export const step = (id: string, says: string): SheetStep => ({ id, kind: 'do', says })
export const named = (devices: readonly Device[]): string => list(devices.map(({ name }) => name))

export interface Context {
  readonly build: Build
  readonly parked: OperatingCase
  readonly battery: Device
  readonly car: (kase: OperatingCase) => {
    elements: NetworkElement[]
    nodeOf: (endpoint: string) => string
    tolerances: ReturnType<typeof carTolerances>
    solved: boolean
    /** With its loads as an ohmmeter meets them. */
    atRest: (elements: readonly NetworkElement[]) => NetworkElement[]
  }
  readonly negative: string
  readonly positive: string
  readonly unpluggedElements: (id: string) => boolean
  readonly notes: string[]
}

export const makeContext = (
  build: Build,
  parked: OperatingCase,
  battery: Device,
  positive: string,
  negative: string,
): Context => {
  const { devices } = build.collections
  const away = (id: string): boolean => {
    if (id.startsWith('output:')) return true
    const device = own(devices, id.split('#')[0]!)
    return (
      device !== undefined &&
      (device.restricted !== undefined || ['controller', 'coil', 'injector'].includes(device.spec.kind))
    )
  }
  return {
    build,
    parked,
    battery,
    positive,
    negative,
    unpluggedElements: away,
    notes: [],
    car: (kase) => {
      const solved = solveCase(build, kase)
      return {
        elements: solved.bound.network.elements.filter(({ id }) => !away(id)),
        nodeOf: solved.bound.nodeOf,
        tolerances: carTolerances(build, solved, solved.bound.network.elements),
        solved: solved.solved,
        atRest: (elements) => atRest(build, solved, elements),
      }
    },
  }
}
