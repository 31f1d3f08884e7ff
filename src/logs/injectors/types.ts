/** What the parts of the characterisation hand to each other. All in SI. */
export interface InjectorWindow {
  readonly log: 'known' | 'unknown'
  readonly session: number
  readonly from: number
  readonly to: number
  readonly samples: number
  /** rad/s */
  readonly speed: number
  /** Manifold, Pa absolute. */
  readonly pressure: number
  /** Mean of ln(p/T): charge density but for a constant. */
  readonly logDensity: number
  /** Commanded pulse with its trim, s. */
  readonly pulse: number
  /** At the injector, V. */
  readonly voltage: number
  /** Mean of ln(pressure across / 1 Pa). */
  readonly logAcross: number
  /** Mean of ln λ, and ln of the pulses per cycle, which stands beside it wherever fuel is counted. */
  readonly logLambda: number
  /** Standard error of the window's mean, as a share: noise of λ, pressure and pulse together. */
  readonly noise: number
}

export interface Interval {
  readonly value: number
  /** Half the width of the 95 % interval. */
  readonly plusMinus: number
}
