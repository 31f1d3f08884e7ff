/** Parts and money: what to buy and where, what to give back, what has been spent, what grows old on the shelf. */
import type { Build, Entity } from '../model/build.ts'
import type { Problem } from '../units/problem.ts'
import { daysBetween } from './arrival.ts'

type Part = Entity<'parts'>
export interface PartLine {
  readonly id: string
  readonly name: string
  readonly status: Part['status']
  readonly quantity?: number
  readonly price?: number
  readonly currency?: string
  readonly due?: string
  /** Open jobs that need it. */
  readonly jobs: readonly string[]
}
export interface Sum {
  readonly currency: string
  /** Bought: ordered, arrived, on the shelf, fitted. */
  readonly spent: number
  /** Wanted. */
  readonly toSpend: number
}
export interface PartsAndMoney {
  /** Wanted parts by supplier; those without one under an empty name. */
  readonly shopping: readonly { readonly supplier: string; readonly parts: readonly PartLine[] }[]
  /** Ordered and not here, soonest first. */
  readonly coming: readonly PartLine[]
  readonly toReturn: readonly {
    readonly id: string
    readonly name: string
    readonly from?: string
    readonly backBy?: string
    readonly overdue: boolean
  }[]
  /** Past its day, or within the next 90 days. */
  readonly ageing: readonly {
    readonly id: string
    readonly name: string
    readonly bestBefore: string
    readonly past: boolean
  }[]
  readonly sums: readonly Sum[]
  /** Prices and the like that are missing, so that the sums are too small. */
  readonly unknown: readonly Problem[]
}

const BOUGHT: readonly Part['status'][] = ['ordered', 'arrived', 'on the shelf', 'fitted']
/** Soon enough to think of it; a choice. */
const AGEING_DAYS = 90

export const partsAndMoney = (build: Build, today: string): PartsAndMoney => {
  const parts = Object.values(build.collections.parts)
  const open = Object.values(build.collections.jobs).filter(({ status }) => status === 'to do' || status === 'doing')
  const line = ({ id, name, status, quantity, price, currency, due }: Part): PartLine => ({
    id,
    name,
    status,
    ...(quantity === undefined ? {} : { quantity }),
    ...(price === undefined ? {} : { price }),
    ...(currency === undefined ? {} : { currency }),
    ...(due === undefined ? {} : { due }),
    jobs: open.filter(({ needs }) => needs?.parts?.includes(id)).map((job) => job.id),
  })
  const wanted = parts.filter(({ status }) => status === 'wanted')
  const suppliers = [...new Set(wanted.map(({ supplier }) => supplier ?? ''))].sort((a, b) =>
    a === '' ? 1 : b === '' ? -1 : a.localeCompare(b, 'en'),
  )
  const counted = parts.filter(({ status }) => status === 'wanted' || BOUGHT.includes(status))
  const priced = counted.filter(({ price, currency }) => price !== undefined && currency !== undefined)
  const currencies = [...new Set(priced.flatMap(({ currency }) => currency ?? []))].sort()
  const total = (currency: string, which: (part: Part) => boolean): number =>
    // Cents are whole numbers; sums of them in halves of bits are not.
    Math.round(
      priced.reduce((sum, part) => sum + (part.currency === currency && which(part) ? part.price! : 0), 0) * 100,
    ) / 100
  return {
    shopping: suppliers.map((supplier) => ({
      supplier,
      parts: wanted.filter((part) => (part.supplier ?? '') === supplier).map(line),
    })),
    coming: parts
      .filter(({ status }) => status === 'ordered')
      .sort((a, b) => (a.due ?? '9999').localeCompare(b.due ?? '9999'))
      .map(line),
    toReturn: parts
      .filter(({ status }) => status === 'borrowed')
      .map(({ id, name, from, backBy }) => ({
        id,
        name,
        ...(from === undefined ? {} : { from }),
        ...(backBy === undefined ? {} : { backBy }),
        overdue: backBy !== undefined && backBy < today,
      }))
      .sort((a, b) => (a.backBy ?? '9999').localeCompare(b.backBy ?? '9999')),
    ageing: parts
      .flatMap(({ id, name, status, bestBefore }) =>
        bestBefore === undefined || status === 'returned' || status === 'removed'
          ? []
          : [{ id, name, bestBefore, past: bestBefore < today }],
      )
      .filter(({ bestBefore }) => daysBetween(today, bestBefore) <= AGEING_DAYS)
      .sort((a, b) => a.bestBefore.localeCompare(b.bestBefore)),
    sums: currencies.map((currency) => ({
      currency,
      spent: total(currency, ({ status }) => BOUGHT.includes(status)),
      toSpend: total(currency, ({ status }) => status === 'wanted'),
    })),
    unknown: counted
      .filter((part) => !priced.includes(part))
      .map(({ id, name, price }) => ({
        code: price === undefined ? 'no-price' : 'no-currency',
        path: `parts/${id}/${price === undefined ? 'price' : 'currency'}`,
        says: `The ${price === undefined ? 'price' : 'currency'} of ${name} is unknown, so it is in no sum.`,
        todo: `Enter its ${price === undefined ? 'price' : 'currency'}.`,
      })),
  }
}
