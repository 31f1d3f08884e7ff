import type { Effect } from './effects.ts'
import { type Hypothesis, PRIOR_WEIGHTS } from './hypothesis.ts'

/** A part of the car that may be at fault, as the binding of a car or a bare file names it. */
export type Part =
  | {
      readonly kind: 'bulb_holder' | 'exposed' | 'connector' | 'crimp' | 'solder'
      readonly id: string
      readonly element: string
    }
  | {
      readonly kind: 'wire'
      readonly id: string
      readonly element: string
      /** Node of the body or engine that the wire may chafe on; nodes of neighbours in its bundle. */
      readonly chafesOn?: string
      readonly neighbours?: readonly { readonly node: string; readonly name: string }[]
    }
  | { readonly kind: 'fuse' | 'switch' | 'battery'; readonly id: string; readonly element: string }
  | { readonly kind: 'load'; readonly id: string; readonly element: string; readonly a: string; readonly b: string }

/** Resistance of bare copper on bare steel or copper (Ω), as the bare format takes it. */
const SHORT_OHM = 0.01
/** A bad joint's resistance is even on a log scale between 0.3 Ω and 100 Ω, taken at six points. */
const JOINT_OHMS = [0.3, 1, 3, 10, 30, 100] as const
const HALF_A_STEP = 1.8
/** Shares of a part's prior: resistive rather than open, a wire chafed rather than broken, a device shorted. */
const RESISTIVE = 0.55
const INTERMITTENT = 0.08
const CHAFED = 0.5
const SHORTED = 0.15

const made = (part: string, mode: string, weight: number, effect: Effect, intermittent = false): Hypothesis => ({
  id: `${part}:${mode}`,
  part,
  mode,
  weight,
  effects: [effect],
  ...(intermittent ? { intermittent } : {}),
})

/**
 * Every single fault of the parts: joints and contacts open, resistive or coming and going, wires open or chafed through
 * to the body or a neighbour, fuses blown, devices dead or shorted. `weights` are the priors by kind of part; the shares
 * of the modes are common practice, no published source.
 */
export const singleFaults = (
  parts: readonly Part[],
  weights: Readonly<Record<string, number>> = PRIOR_WEIGHTS,
): Hypothesis[] =>
  parts.flatMap((part): Hypothesis[] => {
    const { id, element, kind } = part
    const weight = weights[kind] ?? PRIOR_WEIGHTS[kind]!
    if (kind === 'fuse' || kind === 'battery') return [made(id, 'open', weight, { kind: 'open', element })]
    if (kind === 'load')
      return [
        made(id, 'dead', weight * (1 - SHORTED), { kind: 'open', element }),
        made(id, 'shorted', weight * SHORTED, { kind: 'bridge', a: part.a, b: part.b, ohm: SHORT_OHM }),
      ]
    if (kind === 'wire') {
      const touched: [string, string][] = [
        ...(part.chafesOn === undefined ? [] : [['chafed to the body', part.chafesOn] as [string, string]]),
        ...(part.neighbours ?? []).map(({ node, name }): [string, string] => [`chafed to ${name}`, node]),
      ]
      const share = touched.length > 0 ? CHAFED : 0
      return [
        made(id, 'open', weight * (1 - share), { kind: 'open', element }),
        ...touched.map(([mode, to]) =>
          made(id, mode, (weight * share) / touched.length, { kind: 'chafed', element, to, ohm: SHORT_OHM }),
        ),
      ]
    }
    return [
      made(id, 'open', weight * (1 - RESISTIVE - INTERMITTENT), { kind: 'open', element }),
      made(id, 'comes and goes', weight * INTERMITTENT, { kind: 'open', element }, true),
      ...JOINT_OHMS.map((ohm) =>
        made(id, `${ohm} Ω`, (weight * RESISTIVE) / JOINT_OHMS.length, {
          kind: 'ohm',
          element,
          ohm,
          within: HALF_A_STEP,
        }),
      ),
    ]
  })
