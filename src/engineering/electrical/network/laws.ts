import type { NetworkElement } from './elements.ts'

/**
 * Current and slope of every element as a function of its voltage, on numbers packed for speed: a law's code and four
 * parameters. All laws are continuous, and all but constant power rise with V throughout, which is what makes the
 * Newton iteration of `newton.ts` sure to arrive.
 */
export const LAW = {
  absent: 0,
  linear: 1,
  battery: 2,
  alternator: 3,
  lamp: 4,
  current: 5,
  power: 6,
  diode: 7,
  fan: 8,
  stallingMotor: 9,
} as const

export const PARAMETERS = 4

/**
 * Conductance of a diode that blocks and has no stated leak, so that the equations stay solvable. 1 nS passes 14 nA at
 * 14 V, far below what a workshop meter shows; a node that hangs on such diodes alone is reported floating.
 */
export const BLOCKING_LEAK = 1e-9

/** Packs an element; `energised` is the state of a relay contact's coil. Returns the law's code. */
export const packLaw = (element: NetworkElement, into: Float64Array, at: number, energised: boolean): number => {
  switch (element.type) {
    case 'resistor':
      into[at] = 1 / element.ohm
      return LAW.linear
    case 'switch':
      into[at] = 1 / element.ohm
      return element.closed ? LAW.linear : LAW.absent
    case 'relayContact':
      into[at] = 1 / element.ohm
      return energised === (element.normally === 'open') ? LAW.linear : LAW.absent
    case 'battery':
      into[at] = element.emf
      into[at + 1] = 1 / element.internalResistance
      into[at + 2] = element.acceptance ?? Number.POSITIVE_INFINITY
      return LAW.battery
    case 'alternator':
      into[at] = element.setpoint
      into[at + 1] = 1 / element.internalResistance
      into[at + 2] = element.limit
      return LAW.alternator
    case 'lamp': {
      const scale = element.ratedPower / element.ratedVoltage ** (1 + element.exponent)
      into[at] = scale
      into[at + 1] = element.exponent
      into[at + 2] = (element.coldResistance * scale) ** (1 / (1 - element.exponent))
      into[at + 3] = 1 / element.coldResistance
      return LAW.lamp
    }
    case 'constantCurrent':
      into[at] = element.current
      into[at + 1] = element.minimumVoltage
      return LAW.current
    case 'constantPower':
      into[at] = element.power
      into[at + 1] = element.minimumVoltage
      return LAW.power
    case 'diode':
      into[at] = element.forwardVoltage
      into[at + 1] = 1 / element.onResistance
      into[at + 2] = element.reverseLeak || BLOCKING_LEAK
      into[at + 3] = element.reverseLeak ? 1 : 0
      return LAW.diode
    case 'motor': {
      const { runningCurrent, stallResistance, ratedVoltage, loading } = element
      if (loading === 'constant') {
        into[at] = runningCurrent
        into[at + 1] = runningCurrent * stallResistance
        return LAW.stallingMotor
      }
      into[at] = runningCurrent / (ratedVoltage - runningCurrent * stallResistance) ** 2
      into[at + 1] = stallResistance
      into[at + 2] = 1 / (1000 * stallResistance)
      return LAW.fan
    }
  }
}

/** Where the last call of `applyLaw` leaves its two results: current, then slope dI/dV. */
export const lawResult = new Float64Array(2)

/** Current and slope at voltage v; `share` scales constant-power loads (they are raised from nothing). */
export const applyLaw = (law: number, p: Float64Array, at: number, v: number, share: number): void => {
  let current = 0
  let slope = 0
  switch (law) {
    case LAW.linear:
      slope = p[at]!
      current = v * slope
      break
    case LAW.battery:
      slope = p[at + 1]!
      current = (v - p[at]!) * slope
      if (current > p[at + 2]!) {
        current = p[at + 2]!
        slope = 0
      }
      break
    case LAW.alternator:
      slope = p[at + 1]!
      current = (v - p[at]!) * slope
      if (current > 0 || current < -p[at + 2]!) {
        current = current > 0 ? 0 : -p[at + 2]!
        slope = 0
      }
      break
    case LAW.lamp: {
      const size = Math.abs(v)
      if (size <= p[at + 2]!) {
        slope = p[at + 3]!
        current = v * slope
      } else {
        const amperes = p[at]! * size ** p[at + 1]!
        slope = (p[at + 1]! * amperes) / size
        current = v < 0 ? -amperes : amperes
      }
      break
    }
    case LAW.current:
      if (v >= p[at + 1]!) current = p[at]!
      else {
        slope = p[at]! / p[at + 1]!
        current = v * slope
      }
      break
    case LAW.power: {
      const power = share * p[at]!
      const least = p[at + 1]!
      if (v >= least) {
        current = power / v
        slope = -current / v
      } else {
        slope = power / (least * least)
        current = v * slope
      }
      break
    }
    case LAW.diode:
      slope = p[at + 2]!
      current = v * slope
      if (v > p[at]!) {
        current += (v - p[at]!) * p[at + 1]!
        slope += p[at + 1]!
      }
      break
    case LAW.fan: {
      const c = p[at]!
      const r = p[at + 1]!
      const root = Math.sqrt(1 + 4 * r * c * Math.abs(v))
      // (root − 1)/(2rc), written so that nothing cancels near 0 V.
      const back = (2 * Math.abs(v)) / (root + 1)
      current = (v < 0 ? -1 : 1) * c * back * back + v * p[at + 2]!
      slope = (2 * c * back) / root + p[at + 2]!
      break
    }
    case LAW.stallingMotor:
      if (Math.abs(v) >= p[at + 1]!) current = v < 0 ? -p[at]! : p[at]!
      else {
        slope = p[at]! / p[at + 1]!
        current = v * slope
      }
      break
    default:
      break
  }
  lawResult[0] = current
  lawResult[1] = slope
}

/** Which stretch of its law an element is on; only where a change can open a second stable solution. */
export const stretchOf = (law: number, p: Float64Array, at: number, v: number): number => {
  switch (law) {
    case LAW.battery:
      return (v - p[at]!) * p[at + 1]! > p[at + 2]! ? 1 : 0
    case LAW.alternator: {
      const current = (p[at]! - v) * p[at + 1]!
      return current <= 0 ? 0 : current < p[at + 2]! ? 1 : 2
    }
    case LAW.power:
    case LAW.current:
      return v >= p[at + 1]! ? 1 : 0
    case LAW.stallingMotor:
      return Math.abs(v) >= p[at + 1]! ? 1 : 0
    case LAW.diode:
      return v > p[at]! ? 1 : 0
    default:
      return 0
  }
}
