/** One joint or clearance: what it is to have, what it had when it was last seen to, and whether it is due to be seen to again. */

import type { Build, Entity } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import { byTime } from '../commissioning/evidence.ts'
import type { Verdict } from '../finding.ts'
import { everyText, spentOf } from '../lists/due.ts'
import { list } from '../make.ts'
import { KINDS_OF } from './kinds.ts'

export type Fixing = Entity<'fixings'>
export type SeenTo = Fixing['entries'][number]

/** Of these nobody’s torque wrench has the last word. */
const QUALIFIED = /brake|fuel|steer|suspen|wheel|hub|structure|mount|seat|belt|airbag/i
export const qualifiedFixing = ({ group = '' }: Fixing): boolean => QUALIFIED.test(group)

export const figureText = (
  fixing: Fixing,
  value: number,
  { plusMinus, unit }: { readonly plusMinus?: number | undefined; readonly unit?: string | undefined } = {},
): string => {
  const { kind, unit: usual } = KINDS_OF[fixing.of]
  return formatQuantity(kind, value as never, {
    unit: unit ?? fixing.asked?.unit ?? usual,
    ...(plusMinus === undefined ? {} : { plusMinus }),
  })
}

/** `85 N·m` as `85`: the unit follows once, behind the second figure. */
const withoutUnit = (figure: string): string => figure.replace(/\s\S+$/u, '')

/** `85 to 95 N·m`, `at least 85 N·m`; undefined where nothing is asked. */
export const askedText = (fixing: Fixing): string | undefined => {
  const { least, most, unit } = fixing.asked ?? {}
  const show = (value: number): string => figureText(fixing, value, { unit })
  if (least !== undefined && most !== undefined)
    return least === most ? show(least) : `${withoutUnit(show(least))} to ${show(most)}`
  return least !== undefined ? `at least ${show(least)}` : most !== undefined ? `at most ${show(most)}` : undefined
}

/** The newest time that it was seen to. */
export const newestEntry = ({ entries }: Fixing): SeenTo | undefined => byTime(entries).at(-1)

export interface Part {
  readonly verdict: Verdict
  readonly says: string
  readonly missing?: string
}
export interface FixingStanding {
  readonly fixing: Fixing
  readonly newest: SeenTo | undefined
  /** The figure against what is asked. */
  readonly value: Part
  /** Whether it is due again; absent where nothing says that it ever is. */
  readonly due: Part | undefined
  readonly qualified: boolean
}

const seenBy = ({ by, when, method, marked }: SeenTo): string =>
  `${[by ?? 'nobody’s name', when?.slice(0, 10) ?? 'no day', method].filter(Boolean).join(', ')}${marked === undefined ? '; not marked' : `; marked: ${marked}`}`

const figureStanding = (fixing: Fixing, newest: SeenTo | undefined, qualified: boolean): Part => {
  const asked = askedText(fixing)
  if (newest?.value === undefined)
    return {
      verdict: 'unknown',
      says: `${asked === undefined ? 'Nothing is entered that it is to have' : `It is to have ${asked}`}, and no figure is kept of it.`,
      missing: asked === undefined ? 'what it is to have, and its figure' : 'its figure',
    }
  const { value, plusMinus = 0 } = newest
  const had = `${figureText(fixing, value, newest)} (${seenBy(newest)})`
  if (asked === undefined)
    return {
      verdict: 'unknown',
      says: `It has ${had}; what it is to have is not entered.`,
      missing: 'what it is to have',
    }
  const { least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY } = fixing.asked!
  // A figure typed in another unit than its limits may differ in the last bit.
  const edge = 1e-9 * Math.max(1e-3, Math.abs(value))
  const outside = value < least - edge || value > most + edge
  const reaches = value + plusMinus >= least && value - plusMinus <= most
  const side = value < least ? 'below' : 'above'
  if (!outside)
    return {
      verdict: 'sound',
      says: `It has ${had}, asked ${asked}.${value - plusMinus < least - edge || value + plusMinus > most + edge ? ' Its ± reaches past that.' : ''}`,
    }
  return {
    verdict: qualified && !reaches ? 'no-go' : 'marginal',
    says: `It has ${had}, ${side} what is asked, ${asked}${reaches ? '; its ± reaches into it' : ''}.`,
  }
}

const dueOf = (build: Build, fixing: Fixing, newest: SeenTo | undefined, now: string): Part | undefined => {
  const { recheck, entries } = fixing
  if (!recheck) return undefined
  const { again, day, ...every } = recheck
  const spans = everyText(every)
  const rule = `${again ? 'Again after' : 'Once more after'} ${[spans, day && `the day ${day}`].filter(Boolean).join(', or ')}${spans.includes(' and ') ? ', whichever comes first' : ''}.`
  if (newest === undefined) return { verdict: 'unknown', says: rule, missing: 'when it was first seen to' }
  const dated = byTime(entries).filter(({ when }) => when !== undefined)
  if (!again && dated.length > 1) return { verdict: 'sound', says: `Seen to again on ${newest.when?.slice(0, 10)}.` }
  if (newest.when === undefined) return { verdict: 'unknown', says: rule, missing: 'the day when it was seen to' }
  const { past, left, missing } = spentOf(build, { ...every, day }, newest.when.slice(0, 10), now)
  if (past.length > 0) return { verdict: 'marginal', says: `Due to be seen to again: ${list(past)}. ${rule}` }
  if (missing.length > 0)
    return {
      verdict: 'unknown',
      says: `${left.length > 0 ? `Due ${list(left)} at the latest. ` : ''}${rule}`,
      missing: list(missing),
    }
  if (left.length === 0) return { verdict: 'unknown', says: rule, missing: 'after how far, how long or on which day' }
  return { verdict: 'sound', says: `Due ${list(left)}. ${rule}` }
}

/** `now`: YYYY-MM-DD. */
export const fixingStanding = (build: Build, fixing: Fixing, now: string): FixingStanding => {
  const newest = newestEntry(fixing)
  const qualified = qualifiedFixing(fixing)
  return {
    fixing,
    newest,
    value: figureStanding(fixing, newest, qualified),
    due: dueOf(build, fixing, newest, now),
    qualified,
  }
}
