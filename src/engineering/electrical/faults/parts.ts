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
  | {
      readonly kind: 'load'
      readonly id: string
      readonly element: string
      readonly a: string
      readonly b: string
      readonly turns?: Turning
    }

/** A motor that turns: V across it and A through it when it is sound, and Ω of it when it is held. */
export interface Turning {
  readonly volts: number
  readonly current: number
  readonly stalled: number
}

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

/** Of a motor: it drags, it is held fast. */
const DRAGS = 0.25
const HELD = 0.1
/**
 * Times its sound current that a motor draws which drags: a stiff bearing, something in its blades, an engine hard to
 * turn. From what a meter tells from a sound one up to where it hardly turns: common practice, no published source; of a
 * starter alone, a training text has "excessive" begin at 1.5 to 1.85 times what is usual (150–185 A where a
 * four-cylinder engine normally takes under 100 A; read).
 */
const DRAG_TIMES: readonly (readonly [least: number, most: number])[] = [
  [1.3, 1.8],
  [1.8, 3],
]
export const HELD_FAST = 'held fast'
export const DRAGGING = 'drags'

const made = (part: string, mode: string, weight: number, effect: Effect, intermittent = false): Hypothesis => ({
  id: `${part}:${mode}`,
  part,
  mode,
  weight,
  effects: [effect],
  ...(intermittent ? { intermittent } : {}),
})

/**
 * A motor that is braked draws more: as if so many ohms lay beside it. Held fast it is its own winding and no more
 * (I = V / R of the stalled motor, as the element's law has it).
 */
const dragging = (
  { id, a, b }: { readonly id: string; readonly a: string; readonly b: string },
  { volts, current, stalled }: Turning,
  weight: number,
): Hypothesis[] => {
  const sound = current / volts
  const most = 1 / stalled / sound
  // Braked as hard as may be it draws no more than held.
  const spans = DRAG_TIMES.flatMap(([least, upper]) =>
    most < 1.2 * least ? [] : [[least, Math.min(upper, most)] as const],
  )
  const besides = (times: number): number => 1 / (sound * (times - 1))
  return [
    ...spans.map(([least, upper]) =>
      made(
        id,
        `${DRAGGING}: ${least} to ${Number(upper.toPrecision(2))} times its current`,
        (weight * DRAGS) / spans.length,
        {
          kind: 'bridge',
          a,
          b,
          ohm: Math.sqrt(besides(least) * besides(upper)),
          within: Math.sqrt(besides(least) / besides(upper)),
        },
      ),
    ),
    ...(most > 1
      ? [
          made(id, `${HELD_FAST}: ${Number(most.toPrecision(2))} times its current`, weight * HELD, {
            kind: 'bridge',
            a,
            b,
            ohm: besides(most),
          }),
        ]
      : []),
  ]
}

/**
 * Every single fault of the parts: joints and contacts open, resistive or coming and going, wires open or chafed through
 * to the body or a neighbour, fuses blown, devices dead or shorted,
 * motors that drag. `weights` are the priors by kind of part; the shares
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
    if (kind === 'load') {
      const drags = part.turns ? dragging(part, part.turns, weight) : []
      const held = drags.length > 0 ? DRAGS + HELD : 0
      return [
        made(id, 'dead', weight * (1 - SHORTED - held), { kind: 'open', element }),
        made(id, 'shorted', weight * SHORTED, { kind: 'bridge', a: part.a, b: part.b, ohm: SHORT_OHM }),
        ...drags,
      ]
    }
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
