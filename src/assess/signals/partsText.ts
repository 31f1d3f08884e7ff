/**
 * What resistors may be chosen from, as a person writes it: a series with its span, `E24 47 Ω … 10 kΩ`, or what is in the
 * drawer, `100 Ω, 220 Ω 5 % ×2, 1 kΩ`. Without a percentage the series' customary tolerance holds, or the one given beside.
 */

import { SERIES, type Series } from '../../engineering/signals/preferredValues.ts'
import type { Part } from '../../engineering/signals/resistanceSwitch/design.ts'
import { seriesParts } from '../../engineering/signals/resistanceSwitch/parts.ts'
import { parseQuantity } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'

/** Ω, span of a series when none is written: what through-hole resistors for signals are sold in. */
const SPAN = { least: 10, most: 100e3 }

const ohmsOf = (text: string): number => parseQuantity('resistance', text, { unit: 'Ω' }).value

const seriesOf = (text: string, tolerance: number | undefined): Part[] | undefined => {
  const found = /^(E\d+)(?:[\s:]+(.+?)\s*(?:…|\.\.\.?|to|-|–)\s*(.+))?$/i.exec(text)
  const name = found?.[1]?.toUpperCase()
  if (!found || name === undefined || !(SERIES as readonly string[]).includes(name)) return undefined
  return seriesParts(
    name as Series,
    found[2] === undefined ? SPAN.least : ohmsOf(found[2]),
    found[3] === undefined ? SPAN.most : ohmsOf(found[3]),
    ...(tolerance === undefined ? [] : [tolerance]),
  )
}

/** `tolerance`: share, for every part that has no percentage of its own. Refuses with every entry that cannot be read. */
export const partsFrom = (text: string, tolerance?: number): Part[] => {
  const series = seriesOf(text.trim(), tolerance)
  if (series) return series
  const problems: Problem[] = []
  const parts = text
    .split(/[,;\n]/)
    .map((entry) => entry.trim())
    .filter(Boolean)
    .flatMap((entry): Part[] => {
      const stock = /[×x*]\s*(\d+)\s*$/.exec(entry)
      const before = stock ? entry.slice(0, stock.index).trim() : entry
      const percent = /±?\s*([\d.]+)\s*%\s*$/.exec(before)
      const share = percent ? Number(percent[1]) / 100 : tolerance
      if (share === undefined) {
        problems.push({
          code: 'missing-input',
          path: 'parts',
          says: `“${entry}” has no tolerance.`,
          todo: 'Write it behind the value, such as 220 Ω 1 %, or give one for all.',
        })
        return []
      }
      try {
        return [
          {
            nominal: ohmsOf(percent ? before.slice(0, percent.index).trim() : before),
            tolerance: share,
            ...(stock ? { stock: Number(stock[1]) } : {}),
          },
        ]
      } catch (error) {
        if (!(error instanceof Refusal)) throw error
        problems.push(...error.problems)
        return []
      }
    })
  if (parts.length === 0 && problems.length === 0)
    problems.push({
      code: 'missing-input',
      path: 'parts',
      says: 'There is no resistor to choose from.',
      todo: `Write a series (${SERIES.join(', ')}), or what is in the drawer: 100 Ω 1 %, 220 Ω 1 % ×2.`,
    })
  if (problems.length > 0) throw new Refusal(problems)
  return parts
}
