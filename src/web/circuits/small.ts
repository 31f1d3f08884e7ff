/** Volts and amps for a table: what is below a thousandth is said to be so, for the digits there mean nothing. */
import { formatQuantity } from '../../units/index.ts'

export const ampsText = (current: number | null | undefined): string => {
  if (current === null || current === undefined) return 'unknown'
  const size = Math.abs(current)
  return size < 1e-3 ? 'under 1\u202fmA' : formatQuantity('current', size, { digits: 3 })
}

export const dropText = (from: number | null | undefined, to: number | null | undefined): string => {
  if (typeof from !== 'number' || typeof to !== 'number') return 'unknown'
  const drop = Math.abs(from - to)
  return drop < 1e-3 ? 'under 1\u202fmV' : formatQuantity('voltage', drop, { digits: 2 })
}
