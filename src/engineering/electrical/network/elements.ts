/**
 * The two-terminal elements of a direct-current network. Positive current runs from `a` to `b` through the element;
 * V is the voltage from `a` to `b`. SI throughout: volts, amperes, ohms, watts. The laws stand in `laws.ts`.
 */
interface Terminals {
  readonly id: string
  readonly a: string
  readonly b: string
}

/** I = V / ohm. Wires, joints, fuses, straps and heaters. 0 Ω is refused: enter the resistance of the real piece. */
export interface ResistorElement extends Terminals {
  readonly type: 'resistor'
  readonly ohm: number
}

/**
 * `a` positive. I = (V − emf) / internalResistance; with `acceptance` the current *into* it never exceeds that many
 * amperes: I = min((V − emf) / internalResistance, acceptance). Continuous and monotone; 0 A: takes nothing.
 */
export interface BatteryElement extends Terminals {
  readonly type: 'battery'
  readonly emf: number
  readonly internalResistance: number
  readonly acceptance?: number
}

/** Delivers min(max((setpoint − V) / internalResistance, 0), limit) out of `a`. */
export interface AlternatorElement extends Terminals {
  readonly type: 'alternator'
  readonly setpoint: number
  readonly internalResistance: number
  readonly limit: number
}

/** |I| = (ratedPower/ratedVoltage)·(|V|/ratedVoltage)^exponent; never less resistance than coldResistance. */
export interface LampElement extends Terminals {
  readonly type: 'lamp'
  readonly ratedVoltage: number
  readonly ratedPower: number
  /** Between 0 and 1, both excluded. */
  readonly exponent: number
  readonly coldResistance: number
}

/** I = current; below minimumVoltage in proportion to V. */
export interface ConstantCurrentElement extends Terminals {
  readonly type: 'constantCurrent'
  readonly current: number
  readonly minimumVoltage: number
}

/** I = power / V; below minimumVoltage I = power·V/minimumVoltage². */
export interface ConstantPowerElement extends Terminals {
  readonly type: 'constantPower'
  readonly power: number
  readonly minimumVoltage: number
}

/**
 * Piecewise linear: I = reverseLeak·V, and (V − forwardVoltage)/onResistance more above the forward voltage.
 * `reverseLeak` in siemens. Not stated: the diode blocks, and a node that only blocking diodes tie to the reference
 * is floating.
 */
export interface DiodeElement extends Terminals {
  readonly type: 'diode'
  readonly forwardVoltage: number
  readonly onResistance: number
  readonly reverseLeak?: number
}

/**
 * Permanent-magnet motor, back-EMF model: E = V − I·R is the back-EMF (∝ speed), torque ∝ I. It draws runningCurrent
 * at ratedVoltage; R = stallResistance.
 *   loading 'constant' (torque does not depend on speed): I = runningCurrent; where V < runningCurrent·R it stalls and
 *     I = V / R. Odd in V: a reversed motor turns the other way.
 *   loading 'fan' (torque ∝ speed²: fans, impeller pumps): I = runningCurrent·(E/E_rated)², hence with
 *     c = runningCurrent/E_rated²: E = (−1 + √(1 + 4Rc|V|))/(2Rc), I = c·E², sign of V; plus |V|/(1000 R) of stray
 *     load, so that an unfed fan lies at 0 V.
 * Source: direct-current machine equations, common textbook knowledge (from memory); the fan's square law likewise.
 */
export interface MotorElement extends Terminals {
  readonly type: 'motor'
  readonly ratedVoltage: number
  readonly runningCurrent: number
  readonly stallResistance: number
  readonly loading: 'constant' | 'fan'
}

/** Closed: a resistor of `ohm`; open: absent. */
export interface SwitchElement extends Terminals {
  readonly type: 'switch'
  readonly closed: boolean
  readonly ohm: number
}

/**
 * A contact that follows the solved voltage across its coil (either polarity): the relay pulls in at pullIn volts,
 * lets go below dropOut, and starts at rest. `normally` is the contact's state at rest.
 */
export interface RelayContactElement extends Terminals {
  readonly type: 'relayContact'
  /** Id of the element that is the coil. */
  readonly operatedBy: string
  readonly pullIn: number
  readonly dropOut: number
  readonly ohm: number
  readonly normally: 'open' | 'closed'
}

export type NetworkElement =
  | ResistorElement
  | BatteryElement
  | AlternatorElement
  | LampElement
  | ConstantCurrentElement
  | ConstantPowerElement
  | DiodeElement
  | MotorElement
  | SwitchElement
  | RelayContactElement

export interface Network {
  /** The node at 0 V. */
  readonly reference: string
  readonly elements: readonly NetworkElement[]
}
