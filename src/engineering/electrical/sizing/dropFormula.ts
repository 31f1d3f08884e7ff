/**
 * Handbook formula for the cross-section of a two-wire line by its drop alone.   S = 2·L·I/(κ·ΔV)
 *   L one way m;  I A;  ΔV V;  κ = 56 m/(Ω·mm²), copper a little warm;  S m²
 * Source: a marine supplier's guide (svb-media.de, read). It knows no heat, no fuse and no joint: a second opinion only.
 */
export const DROP_CONDUCTIVITY = 56e6

export const areaByDrop = (oneWay: number, current: number, drop: number): number =>
  (2 * oneWay * current) / (DROP_CONDUCTIVITY * drop)
