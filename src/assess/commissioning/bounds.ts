/** Limits of what is measured at the gates. Common practice, no published source, each; the maker’s own figure goes first. */

/** Gauge pressure (Pa) that oil reaches while the starter turns the engine without plugs of resistance: 0.5 bar. */
export const OIL_CRANKING = 50e3
/** Below this (Pa gauge) a gauge cannot be told from nothing: 0.1 bar. */
export const OIL_NOTHING = 10e3
/** Gauge pressure (Pa) of oil at the first idle, cold: 1 bar. */
export const OIL_FIRST_IDLE = 100e3
/** Cranking speed of a sound starter, rad/s: 100 to 450 1/min. */
export const CRANKING: readonly [number, number] = [(100 * Math.PI) / 30, (450 * Math.PI) / 30]
/** Highest over lowest speed that the controller shows while cranking: more is a trigger that loses teeth. */
export const CRANKING_SPREAD = 1.6
/** Share by which rail pressure with the pump on may be off the set one. */
export const RAIL_OFF = 0.1
/** Share that rail pressure may fall in the pause after the pump stops, before it is worth a search. */
export const RAIL_FALL = 0.2
/** s: shortest pause in which a fall of rail pressure tells anything. */
export const RAIL_PAUSE = 300
/** rad: lamp against what the controller says; 1° and 3°. */
export const TIMING_CLOSE: number = Math.PI / 180
export const TIMING_OFF: number = (3 * Math.PI) / 180
/** s for which a pump may run with the key on and the engine still. */
export const PRIME_LONGEST = 5
/** V off the alternator’s set-point at the battery, engine idling: drop in the cable, heat, a battery being charged. */
export const CHARGE_OFF = 0.6
