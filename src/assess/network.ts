/**
 * Binds a build in one operating case to the network solver (network/). What the build does not say is never made up in
 * silence: a datum that a figure needs goes to `missing` and its element is left out or marked `unsure`; a resistance
 * taken from common practice goes to `assumed`.
 */
export { bindCase } from './network/bindCase.ts'
export type { Bound, BoundWire, Missing } from './network/bound.ts'
export type { Bundle } from './network/bundles.ts'
export { warm } from './network/warming.ts'
