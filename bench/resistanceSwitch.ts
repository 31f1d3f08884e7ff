/** Resistance switch design: proven by branch and bound, and equal to every choice tried where that can be waited for. */
import { preferredValues } from '../src/engineering/signals/preferredValues.ts'
import { type DesignQuestion, designSwitch, type Part } from '../src/engineering/signals/resistanceSwitch/design.ts'
import { exhaustive } from '../src/engineering/signals/resistanceSwitch/exhaustive.testing.ts'
import { type Row, seconds } from './rows.ts'

const parts = (least: number, most: number): Part[] =>
  preferredValues('E24', least, most).map((nominal) => ({ nominal, tolerance: 0.01 }))

/** A plain controller input: 5 V not shared with the converter, 30 mV of earth, 1 µA of leakage, 10 bits. */
const QUESTION: Omit<DesignQuestion, 'topology' | 'buttons' | 'parts' | 'pullUps'> = {
  endOfLine: false,
  circuit: {
    supply: { low: 4.9, high: 5.1 },
    reference: { low: 4.95, high: 5.05 },
    earthOffset: { low: -0.01, high: 0.03 },
    leakage: { low: -1e-6, high: 1e-6 },
    bits: 10,
    linearity: 2,
  },
  around: { contact: 5, short: 5, insulation: 1e6 },
}
const volts = (value: number): string => `${(value * 1000).toFixed(2)} mV`

export const benchSwitch = (): Row[] =>
  (['branches', 'chain'] as const).flatMap((topology): Row[] => {
    const wide = parts(100, 91e3)
    const eight: DesignQuestion = { ...QUESTION, topology, buttons: 8, parts: wide, pullUps: wide }
    const { smallestGap, proof, pullUp, resistors } = designSwitch(eight)
    const time = seconds(() => designSwitch(eight), 5)
    const small: DesignQuestion = {
      ...QUESTION,
      topology,
      buttons: 4,
      parts: parts(100, 9100),
      pullUps: [{ nominal: 1000, tolerance: 0.01 }],
    }
    const found = designSwitch(small)
    const every = exhaustive(small)
    const apart = Math.abs(found.smallestGap - every)
    const slow = seconds(() => exhaustive(small), 1)
    const fast = seconds(() => designSwitch(small), 5)
    return [
      {
        name: `${topology}, 8 buttons and pull-up from 72 values of E24, proven`,
        value: `${(time * 1000).toFixed(1)} ms; smallest gap ${volts(smallestGap)}, at most ${volts(proof.unreachable)} with resistors of any value; ${proof.nodes} choices looked at, ${proof.cut} cut; pull-up ${pullUp.nominal} Ω, ${resistors.map(({ nominal }) => nominal).join(', ')} Ω`,
        reach: '< 1 s',
        reached: time < 1,
      },
      {
        name: `${topology}, 4 buttons from two decades of E24 against every choice`,
        value: `${volts(found.smallestGap)} and ${volts(every)}; ${(fast * 1000).toFixed(2)} ms against ${(slow * 1000).toFixed(0)} ms, ${(slow / fast).toFixed(0)} × faster`,
        reach: 'the same optimum',
        reached: apart <= found.proof.within,
      },
    ]
  })
