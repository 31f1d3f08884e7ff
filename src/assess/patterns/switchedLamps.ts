/** Fuse, switch, splice and lamps: what lamp groups, stop lamps and reversing lamps have in common. */
import { loadCurrent } from '../sizing/loadCurrent.ts'
import type { Answers } from './answers.ts'
import { contact, dropLimit, lamp, lampLaw, stallOf, total } from './parts.ts'
import { type Colours, fuseOhm, type Pen, SWITCH_OHM } from './pen.ts'
import { route } from './route.ts'

export interface SwitchedLamps {
  readonly id: string
  readonly name: string
  readonly lampId: (n: number) => string
  readonly lampName: (n: number) => string
  readonly switchName: string
  readonly positions: Readonly<Record<string, readonly (readonly [string, string])[]>>
  readonly from: string
  readonly to: string
  readonly colours: Colours
}

export const switchedLamps = (pen: Pen, answers: Answers, it: SwitchedLamps): { fuse: string; contact: string } => {
  const places = answers.texts('lamps')
  const law = lampLaw(answers, 'power')
  const all = total(
    pen,
    places.map(() => law),
  )
  const box = answers.has('box') ? answers.text('box') : undefined
  const fuse = pen.fuse(`fuse-${it.id}`, it.name, answers.text('feed'), box, all)
  const button = contact(pen, `${it.id}-switch`, it.switchName, answers.text('switch'), it.positions)
  const shared = [pen.wire(`${fuse}.2`, `${button}.${it.from}`, 'RD', all.current, { behind: fuse })]
  lampsFrom(pen, answers, {
    ...it,
    places,
    law,
    from: `${button}.${it.to}`,
    fuse,
    shared,
    limit: dropLimit(answers),
    ohm: fuseOhm(pen, fuse) + SWITCH_OHM,
  })
  return { fuse, contact: button }
}

/** Lamps fed from one terminal, over a splice where there is more than one; each to the stud that is nearer. */
export const lampsFrom = (
  pen: Pen,
  answers: Answers,
  it: {
    readonly id: string
    readonly name: string
    readonly places: readonly string[]
    readonly law: ReturnType<typeof lampLaw>
    readonly lampId: (n: number) => string
    readonly lampName: (n: number) => string
    readonly from: string
    readonly fuse: string
    readonly shared: readonly string[]
    readonly limit: number
    readonly ohm: number
    readonly colours: Colours
    /** What is put there in place of a lamp; it has pins + and −. */
    readonly make?: (place: string, n: number) => string
  },
): readonly string[] => {
  const one = loadCurrent(it.law, pen.chargeVolts)
  const whole = one * it.places.length
  const studs = ['earth', 'earth2'].flatMap((name) => (answers.has(name) ? [pen.stud(answers.text(name))] : []))
  const shared = [...it.shared]
  let from = it.from
  if (it.places.length > 1) {
    const joint = pen.splice(`splice-${it.id}`, `Splice, ${it.name}`, it.places[0]!)
    shared.push(pen.wire(it.from, `${joint}.1`, it.colours, whole, { behind: it.fuse }))
    from = `${joint}.2`
  }
  return it.places.map((place, index) => {
    const made = it.make?.(place, index + 1) ?? lamp(pen, it.lampId(index + 1), it.lampName(index + 1), place, it.law)
    const stall = stallOf(it.law)
    const feed = pen.wire(pen.tap(from), `${made}.+`, it.colours, one, { behind: it.fuse, stall })
    const back = pen.wire(`${made}.-`, nearest(pen, place, studs), 'BN', one, { behind: it.fuse, stall })
    // Where the lamps share a wire, it carries all of them; each way is limited by its own drop.
    pen.way(it.limit, [...shared, feed, back], whole, it.ohm)
    return made
  })
}

export const nearest = (pen: Pen, place: string, studs: readonly string[]): string => {
  const far = (stud: string) => {
    const found = route(pen.build, place, pen.at(stud))
    return found === undefined
      ? Number.POSITIVE_INFINITY
      : found.path.reduce((sum, id) => sum + (pen.build.collections.runs[id]?.length?.value ?? 1), 0)
  }
  return [...studs].sort((a, b) => far(a) - far(b))[0]!
}
