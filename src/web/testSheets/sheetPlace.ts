/** Where test sheets stand in the workbench, and which one a thing belongs to. */
import type { Build } from '../../model/build.ts'

export const sheetPlace = (circuit: string, kase?: string): string =>
  `/faults/sheets/${encodeURIComponent(circuit)}${kase === undefined ? '' : `/${encodeURIComponent(kase)}`}`

/** Its own word, else that of the first wire at it. */
export const circuitOfDevice = (build: Build, device: string): string | undefined =>
  build.collections.devices[device]?.circuit ??
  Object.values(build.collections.wires).find(
    ({ from, to, circuit }) => circuit !== undefined && [from, to].some((end) => end.startsWith(`${device}.`)),
  )?.circuit
