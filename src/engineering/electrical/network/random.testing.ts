import fc from 'fast-check'
import type { Network, NetworkElement } from './network.ts'

interface Size {
  /** Most nodes besides the reference. */
  readonly largest: number
  /** Constant currents, constant powers, motors, alternators and accepting batteries too. */
  readonly allLaws?: boolean
}

/** A resistance between 1 mΩ and 1 kΩ, even on a log scale. */
const ohms = fc.double({ min: -3, max: 3, noNaN: true }).map((exponent) => 10 ** exponent)

const joining = (id: string, a: string, b: string, allLaws: boolean): fc.Arbitrary<NetworkElement> => {
  const plain: fc.Arbitrary<NetworkElement>[] = [
    ohms.map((ohm) => ({ type: 'resistor', id, a, b, ohm })),
    ohms.map((ohm) => ({ type: 'resistor', id, a, b, ohm })),
    fc
      .record({ ratedPower: fc.constantFrom(2, 5, 21, 55), exponent: fc.constantFrom(0.5, 0.55, 0.6) })
      .map(({ ratedPower, exponent }) => ({
        type: 'lamp',
        id,
        a,
        b,
        ratedVoltage: 12,
        ratedPower,
        exponent,
        coldResistance: 12 / ratedPower,
      })),
    fc
      .constantFrom(0.01, 0.1)
      .map((onResistance) => ({ type: 'diode', id, a, b, forwardVoltage: 0.7, onResistance, reverseLeak: 1e-6 })),
  ]
  if (!allLaws) return fc.oneof(...plain)
  const more: fc.Arbitrary<NetworkElement>[] = [
    fc
      .integer({ min: 1, max: 20 })
      .map((current) => ({ type: 'constantCurrent', id, a, b, current, minimumVoltage: 8 })),
    fc.integer({ min: 5, max: 200 }).map((power) => ({ type: 'constantPower', id, a, b, power, minimumVoltage: 6 })),
    fc.constantFrom('constant' as const, 'fan' as const).map((loading) => ({
      type: 'motor',
      id,
      a,
      b,
      ratedVoltage: 13,
      runningCurrent: 9,
      stallResistance: 0.4,
      loading,
    })),
    fc
      .integer({ min: 5, max: 90 })
      .map((limit) => ({ type: 'alternator', id, a, b, setpoint: 14.2, internalResistance: 0.02, limit })),
    fc
      .integer({ min: 0, max: 20 })
      .map((acceptance) => ({ type: 'battery', id, a, b, emf: 12.4, internalResistance: 0.02, acceptance })),
  ]
  return fc.oneof(...plain, ...more)
}

/** Connected random networks on a resistive tree, so that no node floats; one or two batteries. */
export const resistiveNetworks = ({ largest, allLaws = false }: Size): fc.Arbitrary<Network> =>
  fc.integer({ min: 2, max: largest }).chain((count) => {
    const name = (i: number): string => (i === 0 ? '0' : `k${i}`)
    const tree = Array.from({ length: count }, (_, i) =>
      fc
        .tuple(fc.nat(i), ohms)
        .map(
          ([parent, ohm]): NetworkElement => ({ type: 'resistor', id: `t${i}`, a: name(i + 1), b: name(parent), ohm }),
        ),
    )
    const chords = fc
      .array(fc.tuple(fc.nat(count), fc.nat(count)), { maxLength: count })
      .chain((pairs) =>
        fc.tuple(...pairs.filter(([i, j]) => i !== j).map(([i, j], e) => joining(`c${e}`, name(i), name(j), allLaws))),
      )
    const source = fc.integer({ min: 1, max: count }).map(
      (i): NetworkElement => ({
        type: 'battery',
        id: `s${i}`,
        a: name(i),
        b: '0',
        emf: 12.6,
        internalResistance: 0.01,
      }),
    )
    return fc
      .tuple(fc.tuple(...tree), chords, source)
      .map(([branches, extra, battery]) => ({ reference: '0', elements: [...branches, ...extra, battery] }))
  })
