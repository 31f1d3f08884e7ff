/** The runs of a loom with what lies in them: how thick, in what sleeve, how tight they bend, and what is not known. */
import { leastBend } from '../../engineering/electrical/loom/bend.ts'
import { type Bundle, bundleOfWires, leastBundle } from '../../engineering/electrical/loom/bundle.ts'
import { type Tubing, tubingFor } from '../../engineering/electrical/loom/convolutedTubing.ts'
import { outlineOf } from '../../engineering/electrical/loom/wireOutline.ts'
import type { Build, Entity, Wire } from '../../model/build.ts'
import { own } from '../make.ts'
import { sizeName } from '../wireData.ts'
import { loomSettings } from './settings.ts'

/** A wire, a twisted pair or a screened cable: what lies in a bundle as one round thing. */
export interface Strand {
  readonly wires: readonly string[]
  /** m; undefined: not known. */
  readonly diameter: number | undefined
  /** Where the diameter is from; of an unknown one, the datum that is missing. */
  readonly from: string
}

export interface LoomRun {
  readonly run: Entity<'runs'>
  readonly fromName: string
  readonly toName: string
  readonly zoneName: string
  readonly strands: readonly Strand[]
  readonly wires: readonly string[]
  /** What keeps the bundle unknown, a datum each. */
  readonly missing: readonly string[]
  /** m: thinner no bundle of the strands that are known can be. */
  readonly least: number
  /** m, outer diameter of its largest known strand. */
  readonly largest: number
  readonly sleeve: SleeveKind
}
export type SleeveKind = 'tubing' | 'tape' | 'other' | 'none'

const naturally = (a: string, b: string): number => a.localeCompare(b, 'en', { numeric: true })

const sleeveKind = (sleeve: string | undefined): SleeveKind => {
  if (sleeve === undefined) return 'none'
  if (/tape/i.test(sleeve)) return 'tape'
  return /conduit|tub(e|ing)/i.test(sleeve) ? 'tubing' : 'other'
}

/** Metal that happens to join two points is no wire of a loom. */
export const isWire = (wire: Wire): boolean => wire.notForCurrent !== true

const strandsOf = (build: Build, wires: readonly Wire[]): Strand[] => {
  const { wall } = loomSettings(build)
  const here = new Map(wires.map((wire) => [wire.id, wire]))
  const done = new Set<string>()
  const strands: Strand[] = []
  for (const wire of wires) {
    if (done.has(wire.id)) continue
    const mate = wire.twistedWith !== undefined && !done.has(wire.twistedWith) ? here.get(wire.twistedWith) : undefined
    const pair = mate ? [wire, mate] : [wire]
    for (const { id } of pair) done.add(id)
    const ids = pair.map(({ id }) => id)
    const outer = pair.find((each) => each.outer)?.outer
    if (outer && (pair.length === 1 || pair.some(({ screened }) => screened))) {
      strands.push({ wires: ids, diameter: outer.value, from: 'as entered' })
      continue
    }
    if (pair.some(({ screened }) => screened)) {
      strands.push({
        wires: ids,
        diameter: undefined,
        from: `outer diameter of the screened cable ${ids.join(' and ')}`,
      })
      continue
    }
    const each = pair.map((one) => outlineOfWire(one, wall))
    const unknown = each.find(({ diameter }) => diameter === undefined)
    strands.push({
      wires: ids,
      // Two wires twisted sweep the circle round both.
      diameter: unknown ? undefined : each.reduce((sum, { diameter }) => sum + diameter!, 0),
      from: unknown?.from ?? `${each[0]!.from}${pair.length > 1 ? '; twisted pair' : ''}`,
    })
  }
  return strands
}

const outlineOfWire = (wire: Wire, wall: 'thin' | 'thick'): { diameter: number | undefined; from: string } => {
  if (wire.outer) return { diameter: wire.outer.value, from: 'as entered' }
  if (!wire.area) return { diameter: undefined, from: `cross-section of ${wire.id}` }
  const outline = outlineOf(wire.area.value, wall)
  return outline
    ? { diameter: outline.diameter, from: `${outline.source.title}, ${outline.wall} wall [${outline.source.how}]` }
    : {
        diameter: undefined,
        from: `outer diameter of ${wire.id}: no table of ${wall} wall lists ${sizeName(wire.area.value)}`,
      }
}

/** In the order of the build; runs without wires too. */
export const loomRuns = (build: Build): LoomRun[] => {
  const { runs, wires, branchPoints, zones } = build.collections
  const inside = new Map<string, Wire[]>()
  for (const wire of Object.values(wires)) {
    if (!isWire(wire)) continue
    for (const id of new Set(wire.path ?? [])) {
      const here = inside.get(id)
      if (here) here.push(wire)
      else inside.set(id, [wire])
    }
  }
  return Object.values(runs).map((run): LoomRun => {
    const lying = (inside.get(run.id) ?? []).sort((a, b) => naturally(a.id, b.id))
    const strands = strandsOf(build, lying)
    const known = strands.flatMap(({ diameter }) => (diameter === undefined ? [] : [diameter]))
    return {
      run,
      fromName: own(branchPoints, run.from)?.name ?? run.from,
      toName: own(branchPoints, run.to)?.name ?? run.to,
      zoneName: own(zones, run.zone)?.name ?? run.zone,
      strands,
      wires: lying.map(({ id }) => id),
      missing: strands.filter(({ diameter }) => diameter === undefined).map(({ from }) => from),
      least: known.length === 0 ? 0 : leastBundle(known),
      largest: Math.max(0, ...known),
      sleeve: sleeveKind(run.sleeve),
    }
  })
}

/** Undefined: a diameter is missing, or nothing lies there. Takes some milliseconds the first time, then none. */
export const bundleOf = (build: Build, strands: readonly Strand[]): Bundle | undefined => {
  const diameters = strands.map(({ diameter }) => diameter)
  if (diameters.length === 0 || diameters.includes(undefined)) return undefined
  return bundleOfWires(diameters as number[], loomSettings(build).handLaid.value)
}

export interface Dressed {
  readonly bundle: Bundle | undefined
  /** m, over its tape; of a run in tubing or another sleeve the bundle itself. */
  readonly over: number | undefined
  /** The smallest tubing for it, where it is to lie in tubing; 'none': thicker than the table goes. */
  readonly tubing: Tubing | 'none' | undefined
  readonly bend: { readonly free: number; readonly held: number } | undefined
}

export const dressed = (build: Build, run: LoomRun): Dressed => {
  const bundle = bundleOf(build, run.strands)
  return {
    bundle,
    // Half over itself, tape lies twice on each side.
    over: bundle && (run.sleeve === 'tape' ? bundle.laid + 4 * loomSettings(build).tape.value : bundle.laid),
    tubing: run.sleeve === 'tubing' && bundle ? (tubingFor(bundle.laid) ?? 'none') : undefined,
    bend: run.missing.length > 0 || run.largest === 0 ? undefined : leastBend(run.largest),
  }
}

/** All that goes through a hole: the strands of every run that names it, each wire once. */
export const strandsThrough = (passage: string, runs: readonly LoomRun[]): Strand[] => {
  const seen = new Set<string>()
  return runs
    .filter(({ run }) => run.passage === passage)
    .flatMap(({ strands }) => strands)
    .filter(({ wires }) => {
      if (wires.every((wire) => seen.has(wire))) return false
      for (const wire of wires) seen.add(wire)
      return true
    })
}
