/**
 * What gives a load its volts back with the least work. A wire with a no-go of its own is mended first, and the case solved
 * again with it mended; then the smallest single wire that cures the rest; else the two that lose most. No wire is made
 * more than four times as thick: beyond that the terminals no longer take it and the way itself is wrong.
 */
import type { Build } from '../model/build.ts'
import { mendedWires } from './conductorRules.ts'
import type { Context } from './context.ts'
import { solveAgain } from './earths/resolve.ts'
import { list, own, restrictedWire, volts } from './make.ts'
import type { Solved, Step } from './solveCases.ts'
import { sourceVolts } from './sourceVolts.ts'
import { conductorFacts, sizeName, sizesLike, warmed, wireLength } from './wireData.ts'

/** Of the source's voltage. ABYC E-11: 10 % for non-critical loads (read in a supplier's wire chart). */
export const DROP_SHARE = 0.1
/** Times the section, or this section, m², which a 6.3 mm blade terminal still takes. Common practice, no published source. */
const THICKEST = 4
const ORDINARY = 4e-6
const mostFor = (area: number): number => Math.max(THICKEST * area, ORDINARY)
/** Share of a wire's current below which it is others' wire: a rail is not relaid for one lamp. Common practice. */
const ITS_OWN = 0.25
/** K at which a wire is reckoned whose temperature is not known. */
const WARM = 333.15

interface Size {
  readonly size: string
  readonly area: number
}
export interface Reading {
  readonly voltage: number
  /** Volts at the source, less what a resistor takes on purpose. */
  readonly source: number
}
/** A load in a case, and the wires that lose volts on its way, in any order. */
export interface Way {
  readonly solved: Solved
  readonly from: string
  readonly to: string
  readonly needs: number
  /** A through the load. */
  readonly current: number
  /** V that resistors on the way take on purpose. */
  readonly meant: number
  readonly steps: readonly Step[]
  /** The same load in the other cases in which it gets too little: a cure must serve there as well. */
  readonly elsewhere: readonly Omit<Way, 'steps' | 'elsewhere'>[]
}
export interface Cure {
  readonly says: string
  /** Set where mending this wire alone, which has a no-go of its own, is enough. */
  readonly culprit?: { readonly wire: string; readonly size: string; readonly voltage: number }
}

const isEnough = (needs: number, { voltage, source }: Reading): boolean =>
  voltage >= needs && source - voltage <= DROP_SHARE * source

/** Ω that a wire of the build has less of when its section becomes `area`, as copper at the temperature it has now. */
const spared = (build: Build, id: string, area: number, temperature: number): number | undefined => {
  const wire = own(build.collections.wires, id)
  const length = wire && wireLength(build, wire)
  const now = wire && conductorFacts(wire)
  const then = conductorFacts({ area: { value: area }, material: 'copper' })
  if (!now || !then || length === undefined) return undefined
  return (warmed(now, temperature) - warmed(then, temperature)) * length
}

type Changes = ReadonlyMap<string, Size>

/** The load's volts with these wires changed; undefined where that cannot be solved. */
const readWith = (build: Build, way: Omit<Way, 'steps' | 'elsewhere'>, changes: Changes): Reading | undefined => {
  const { solved } = way
  const set: Record<string, { ohm: number }> = {}
  for (const [id, { area }] of changes) {
    const element = solved.bound.network.elements.find((one) => one.id === `wire:${id}`)
    const less = spared(build, id, area, solved.temperatures[id] ?? WARM)
    if (element?.type !== 'resistor' || less === undefined) return undefined
    set[element.id] = { ohm: element.ohm - less }
  }
  const solution = solveAgain(build, solved, { set })
  if (solution === undefined) return undefined
  const [a, b] = [way.from, way.to].map((end) => solution.voltages.get(solved.bound.nodeOf(end)))
  const source = sourceVolts({ bound: solved.bound, elements: solution.currents, nodes: solution.voltages })
  if (a == null || b == null || source === undefined) return undefined
  return { voltage: a - b, source: source - way.meant }
}

/** What it then reads, where that is enough in every case. */
const cures = (build: Build, way: Way, changes: Changes): Reading | undefined => {
  const reading = readWith(build, way, changes)
  if (reading === undefined || !isEnough(way.needs, reading)) return undefined
  const everywhere = way.elsewhere.every((other) => {
    const there = readWith(build, other, changes)
    return there !== undefined && isEnough(way.needs, there)
  })
  return everywhere ? reading : undefined
}

interface Lossy {
  readonly id: string
  readonly step: Step
  /** Thicker ones, thinnest first. */
  readonly sizes: readonly Size[]
}
const lossyWires = (build: Build, way: Way): readonly Lossy[] => {
  const all = way.steps.flatMap((step): Lossy[] => {
    const id = step.element.startsWith('wire:') ? step.element.slice('wire:'.length) : undefined
    const area = id === undefined ? undefined : own(build.collections.wires, id)?.area?.value
    if (id === undefined || area === undefined || restrictedWire(build, id)) return []
    const sizes = sizesLike(area).filter((size) => size.area > area && size.area <= mostFor(area))
    return sizes.length === 0 ? [] : [{ id, step, sizes }]
  })
  const sorted = all.sort((a, b) => b.step.drop - a.step.drop)
  const its = sorted.filter(({ step }) => way.current >= ITS_OWN * step.current)
  return its.length > 0 ? its : sorted
}

const fitWords = (build: Build, changes: Changes): string =>
  list(
    [...changes].map(
      ([id, { size }]) => `${size} in place of ${sizeName(build.collections.wires[id]!.area!.value)} on ${id}`,
    ),
  )

/** V that a size of this wire gives back, the current staying as it is: to pass over sizes that cannot do. */
const gain = (build: Build, { id, step }: Lossy, { area }: Size, solved: Solved): number =>
  (spared(build, id, area, solved.temperatures[id] ?? WARM) ?? 0) * step.current
/** A load draws less or more at other volts, so an estimate may be off by so much. */
const NEARLY = 0.8

interface Tried {
  readonly changes: Changes
  readonly reading: Reading
}

/** The thinnest of the sizes of one wire, other changes given, that is enough. */
const oneWire = (build: Build, way: Way, wire: Lossy, others: Changes, lacks: number): Tried | undefined => {
  for (const size of wire.sizes) {
    if (gain(build, wire, size, way.solved) < NEARLY * lacks) continue
    const changes = new Map([...others, [wire.id, size]])
    const reading = cures(build, way, changes)
    if (reading) return { changes, reading }
  }
  return undefined
}

const lackOf = (needs: number, { voltage, source }: Reading): number =>
  Math.max(needs - voltage, source - voltage - DROP_SHARE * source, 0)

const smallest = (build: Build, way: Way, others: Changes, now: Reading): Tried | undefined => {
  const wires = lossyWires(build, way).filter(({ id }) => !others.has(id))
  const lacks = lackOf(way.needs, now)
  for (const wire of wires.slice(0, 3)) {
    const found = oneWire(build, way, wire, others, lacks)
    if (found) return found
  }
  const [first, second] = wires
  if (!first || !second) return undefined
  // Both a step at a time, the one that loses more of the two first; no single size of either was enough.
  for (const size of first.sizes) {
    const changes = new Map([...others, [first.id, size]])
    const found = oneWire(build, way, second, changes, lacks - gain(build, first, size, way.solved))
    if (found) return found
  }
  return undefined
}

export const cure = (context: Context, way: Way, now: Reading): Cure => {
  const { build } = context
  const mends = mendedWires(context)
  const mended = new Map<string, Size>()
  for (const { element } of [...way.steps].sort((a, b) => b.drop - a.drop).slice(0, 3)) {
    const id = element.replace('wire:', '')
    const size = mends.get(id)
    if (size) mended.set(id, size)
  }
  const after = mended.size === 0 ? now : readWith(build, way, mended)
  const first =
    mended.size === 0 || after === undefined
      ? ''
      : `Mend ${list([...mended.keys()])} first (${mended.size === 1 ? 'its own finding' : 'their own findings'}); this then reads ${volts(after.voltage)}.`
  if (first !== '' && after !== undefined && cures(build, way, mended)) {
    const [culprit] = mended
    return {
      says: first,
      ...(mended.size === 1 && culprit
        ? { culprit: { wire: culprit[0], size: culprit[1].size, voltage: after.voltage } }
        : {}),
    }
  }
  const found = after === undefined ? undefined : smallest(build, way, mended, after)
  const lead = first === '' ? 'Fit' : `${first} Then fit`
  if (found) {
    const own = new Map([...found.changes].filter(([id]) => !mended.has(id)))
    return { says: `${lead} ${fitWords(build, own)}: ${volts(found.reading.voltage)}.` }
  }
  const rest = lossyWires(build, way).filter(({ id }) => !mended.has(id))
  const most = rest.map((wire) => ({
    wire,
    size: wire.sizes.at(-1)!,
    gain: gain(build, wire, wire.sizes.at(-1)!, way.solved),
  }))
  // A second wire only where it gives back about as much as the first.
  const worth = most.slice(0, 2).filter((each) => each.gain >= (most[0]?.gain ?? 0) / 2)
  const one: Changes = new Map(worth.map(({ wire, size }) => [wire.id, size]))
  const best = one.size === 0 ? undefined : readWith(build, way, new Map([...mended, ...one]))
  const otherwise = 'its contacts, shorten the way, or feed it from nearer the battery'
  if (best === undefined) return { says: `${first === '' ? 'Look at' : `${first} Then look at`} ${otherwise}.` }
  return {
    says: `${lead} ${fitWords(build, one)}: ${volts(best.voltage)}. ${shortfall(way.needs, best)} in many small parts: look at ${otherwise}.`,
  }
}

const shortfall = (needs: number, reading: Reading): string => {
  const lacks = lackOf(needs, reading)
  return lacks > 0 ? `The last ${volts(lacks)} go` : 'In other cases too much still goes'
}

/** One wire made thick enough to give back `volts`, or as thick as is worth fitting. */
export const thicker = (build: Build, step: Step, wanted: number): string => {
  const id = step.element.replace('wire:', '')
  const area = own(build.collections.wires, id)?.area?.value
  const sizes = area === undefined ? [] : sizesLike(area).filter((size) => size.area > area)
  const less = (size: Size) => (spared(build, id, size.area, WARM) ?? 0) * step.current
  const size = sizes.find((one) => less(one) >= wanted) ?? sizes.findLast((one) => one.area <= mostFor(area!))
  return size === undefined || area === undefined || less(size) <= 0
    ? 'Shorten the way, or look at its contacts.'
    : `Fit ${size.size} in place of ${sizeName(area)} on ${id}.`
}
