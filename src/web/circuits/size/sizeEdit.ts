/** What can be sized, how it is asked, and the edit that takes the answer over. No arithmetic: `assess/sizing` answers. */
import { restrictedWire } from '../../../assess/make.ts'
import { type SizedWire, type SizeWish, sizeWire, sizeWiresOf } from '../../../assess/sizing/wireInBuild.ts'
import type { Build, Change, Device, Wire } from '../../../model/build.ts'
import { parseQuantity } from '../../../units/index.ts'
import { type Problem, Refusal } from '../../../units/problem.ts'
import { bench } from '../../workbench/bench.ts'

/** As typed. */
export interface Asked {
  readonly load: string
  readonly drop: string
}
interface Sizeable {
  readonly subject: string
  readonly name: string
}

export const sizeable = (build: Build, devices: readonly Device[], wires: readonly Wire[]): readonly Sizeable[] => [
  ...devices
    .filter(({ restricted, loads }) => restricted === undefined && (loads ?? []).length > 0)
    .map(({ id, name }) => ({ subject: `devices/${id}`, name })),
  ...wires
    .filter(({ id }) => !restrictedWire(build, id))
    .map(({ id, from, to }) => ({ subject: `wires/${id}`, name: `${id}: ${from} to ${to}` })),
]

/** V of which a drop in % is a share. */
const NOMINAL = 12

/** Reads what was typed; everything that cannot be read is told at once. */
const wishOf = ({ load, drop }: Asked): SizeWish => {
  const problems: Problem[] = []
  const read = <T>(take: () => T): T | undefined => {
    try {
      return take()
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems.push(...error.problems)
      return undefined
    }
  }
  const current = load.trim() === '' ? undefined : read(() => parseQuantity('current', load).value)
  const dropLimit =
    drop.trim() === ''
      ? undefined
      : read(() =>
          drop.includes('%') ? parseQuantity('ratio', drop).value * NOMINAL : parseQuantity('voltage', drop).value,
        )
  if (current !== undefined && current <= 0)
    problems.push({ code: 'out-of-range', says: `A load of ${load} is not above zero.`, todo: 'Enter its current.' })
  if (problems.length > 0) throw new Refusal(problems)
  return { current, dropLimit }
}

interface Answers {
  readonly sized: readonly SizedWire[]
  readonly problems: readonly Problem[]
}
export const answersTo = (build: Build, subject: string, asked: Asked, smaller: boolean): Answers => {
  const [collection, id = ''] = subject.split('/')
  const ask = (wish: SizeWish): readonly SizedWire[] =>
    collection === 'wires' ? [sizeWire(build, id, wish)] : sizeWiresOf(build, id, wish)
  try {
    const wish = wishOf(asked)
    const sized = ask(wish)
    const rating = sized.find(({ fuse }) => fuse?.smallest?.rating !== undefined)?.fuse?.smallest?.rating
    return { sized: smaller && rating !== undefined ? ask({ ...wish, rating }) : sized, problems: [] }
  } catch (error) {
    if (error instanceof Refusal) return { sized: [], problems: error.problems }
    throw error
  }
}

interface Taking {
  readonly changes: readonly Change[]
  readonly says: string
  readonly store: () => boolean
}
/** The wires that are thinner get the size that was found, and the fuse its rating where another was asked: one edit, one undo. */
export const takeOver = (build: Build, sized: readonly SizedWire[]): Taking => {
  const changes: Change[] = []
  const words: string[] = []
  const fuses = new Set<string>()
  for (const { wire, choice, fuse } of sized) {
    const found = choice.chosen?.candidate
    // What is thicker than it need be stays: the length of wire is bought, and the drop less.
    if (
      found !== undefined &&
      (wire.area === undefined || wire.area.value < found.area || wire.material === undefined)
    ) {
      const value: Wire = { ...wire, area: { value: found.area, unit: 'mm²' }, material: 'copper' }
      changes.push({ collection: 'wires', id: wire.id, value })
      words.push(`${wire.id} ${found.size}`)
    }
    const device = fuse === undefined ? undefined : build.collections.devices[fuse.device]
    if (fuse === undefined || device?.spec.kind !== 'fuse' || fuse.rating === fuse.fitted || fuses.has(device.id))
      continue
    fuses.add(device.id)
    const spec = { ...device.spec, rating: { value: fuse.rating, unit: 'A' } }
    changes.push({ collection: 'devices', id: device.id, value: { ...device, spec } })
    words.push(`${device.name} ${fuse.rating} A`)
  }
  return {
    changes,
    says: words.join(', '),
    store: () => bench.edit({ label: `Sized: ${words.join(', ')}`.slice(0, 160), changes }),
  }
}
