/**
 * Rules of the loom as a made thing: holes and sleeves against their bundles, bare edges, bends, runs and wires whose
 * lengths are missing or cannot be.
 */
import { bendSource, leastBend } from '../../engineering/electrical/loom/bend.ts'
import { leastBundle, quickBundle } from '../../engineering/electrical/loom/bundle.ts'
import type { Build, Entity } from '../../model/build.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { BATTERY_CAUTION, deviceIdOf, finding, list, own, restrictedWire, wireName } from '../make.ts'
import { route } from '../patterns/route.ts'
import { cutOf, runCalled } from './cut.ts'
import { bundleOf, isWire, type LoomRun, loomRuns, type Strand, strandsThrough } from './loom.ts'
import { loomSettings } from './settings.ts'

const mm = (metres: number): string => `${(metres * 1e3).toFixed(metres < 0.01 ? 1 : 0)} mm`
const m = (metres: number): string => `${metres.toFixed(2)} m`

/** At most so many by name; the rest by number. */
const named = (items: readonly string[]): string =>
  items.length <= 4 ? list(items) : `${items.slice(0, 3).join(', ')} and ${items.length - 3} more`

export const loomFindings = ({ build }: Context): Finding[] => {
  const runs = loomRuns(build)
  return [
    ...Object.values(build.collections.passages).flatMap((passage) => passageFindings(build, passage, runs)),
    ...runs.flatMap((run) => runFindings(build, run)),
    ...wireFindings(build),
  ]
}

/** Airbag wiring is routed by those whose work it is. */
const leftAlone = (build: Build, strands: readonly Strand[]): boolean =>
  strands.every(({ wires }) => wires.every((id) => restrictedWire(build, id)))

type Room = { readonly verdict: 'marginal' | 'unknown' | 'fits'; readonly says: string; readonly working: string[] }

/** Whether strands go into a round room of `bore` m. */
const roomFor = (build: Build, strands: readonly Strand[], bore: number): Room => {
  const known = strands.flatMap(({ diameter }) => (diameter === undefined ? [] : [diameter]))
  const least = known.length === 0 ? 0 : leastBundle(known)
  const missing = strands.filter(({ diameter }) => diameter === undefined)
  // Even cut square and melted together they would not go in: no need to know the rest.
  if (least > bore)
    return {
      verdict: 'marginal',
      says: `cannot take them: ${missing.length > 0 ? 'those of known diameter alone' : 'they'} fill a circle of ${mm(least)}`,
      working: [`√Σd² of ${known.length} diameters = ${mm(least)}; room ${mm(bore)}`],
    }
  if (missing.length > 0) return { verdict: 'unknown', says: named(missing.map(({ from }) => from)), working: [] }
  const { handLaid } = loomSettings(build)
  if (quickBundle(known) * handLaid.value <= bore) return { verdict: 'fits', says: '', working: [] }
  const bundle = bundleOf(build, strands)
  if (bundle === undefined) return { verdict: 'fits', says: '', working: [] }
  const working = [
    `tightest packing found of ${strands.length}: ${mm(bundle.floor)}; × ${handLaid.value} laid by hand = ${mm(bundle.laid)}; room ${mm(bore)}`,
    `Hand-laid factor from ${handLaid.from}.`,
    ...new Set(strands.map(({ from }) => `Outer diameters: ${from}.`)),
  ]
  if (bundle.floor > bore)
    return {
      verdict: 'marginal',
      says: `cannot take them: packed as tightly as they were ever found to go they measure ${mm(bundle.floor)}`,
      working,
    }
  if (bundle.laid > bore)
    return {
      verdict: 'marginal',
      says: `is tight: laid by hand they measure about ${mm(bundle.laid)}, at the very tightest ${mm(bundle.floor)}`,
      working,
    }
  return { verdict: 'fits', says: '', working }
}

const passageFindings = (build: Build, passage: Entity<'passages'>, runs: readonly LoomRun[]): Finding[] => {
  const strands = strandsThrough(passage.id, runs)
  if (strands.length === 0 || leftAlone(build, strands)) return []
  const through = runs.filter(({ run }) => run.passage === passage.id)
  const count = new Set(through.flatMap(({ wires }) => wires)).size
  const wires = count === 1 ? 'one wire' : `${count} wires`
  const base = {
    system: 'electrical',
    subject: `passages/${passage.id}`,
    about: passage.name,
    zone: through[0]?.run.zone,
  } as const
  const { name, hole, bore, grommet, through: wall } = passage
  const found: Finding[] = []
  if (grommet === undefined)
    found.push(
      finding({
        ...base,
        rule: 'passage-edge',
        verdict: 'unknown',
        says: `${wires} ${count === 1 ? 'goes' : 'go'} through ${name}; whether it has a grommet is not entered.`,
        todo: `Enter whether ${name} has a grommet.`,
        missing: `whether ${name} has a grommet`,
      }),
    )
  else if (!grommet && wall !== 'plastic' && wall !== 'wood')
    found.push(
      finding({
        ...base,
        rule: 'passage-edge',
        verdict: wall === 'metal' ? 'no-go' : 'marginal',
        says:
          wall === 'metal'
            ? `${wires} ${count === 1 ? 'goes' : 'go'} through ${name}, a hole in metal without a grommet.`
            : `${wires} ${count === 1 ? 'goes' : 'go'} through ${name} without a grommet; what the hole is in is not entered.`,
        todo: `Fit a grommet to ${name} before the loom goes through${wall === 'metal' ? '' : ', or enter what the hole is in'}.`,
        working: ['An edge of metal cuts insulation as the car shakes. Common practice, no published source.'],
        cautions: [BATTERY_CAUTION],
      }),
    )
  const room = bore ?? (grommet === false ? hole : undefined)
  // Whatever the grommet leaves, it leaves less than the hole.
  const judged = room ?? hole
  const missing = bore === undefined && grommet !== false ? 'bore of the grommet' : 'diameter of the hole'
  const verdict = judged && roomFor(build, strands, judged.value)
  if (verdict?.verdict === 'marginal')
    found.push(
      finding({
        ...base,
        rule: 'passage-room',
        verdict: 'marginal',
        says: `${name}, ${mm(judged!.value)} ${room === undefined ? 'without its grommet' : 'clear'}, ${verdict.says} (${wires}).`,
        todo: `Give ${name} a larger hole and grommet, or take some of the wires another way.`,
        working: verdict.working,
      }),
    )
  else if (room === undefined || verdict?.verdict === 'unknown') {
    const datum = verdict?.verdict === 'unknown' ? verdict.says : `${missing} at ${name}`
    found.push(
      finding({
        ...base,
        rule: 'passage-room',
        verdict: 'unknown',
        says: `Whether ${wires} ${count === 1 ? 'goes' : 'go'} through ${name} is not known: ${datum} ${/ and \d+ more| and (cross|outer)/.test(datum) ? 'are' : 'is'} not entered.`,
        todo: `Enter ${datum}.`,
        missing: datum,
      }),
    )
  }
  return found
}

const runFindings = (build: Build, lying: LoomRun): Finding[] => {
  const { run, strands } = lying
  if (strands.length === 0 || leftAlone(build, strands)) return []
  const name = runCalled(build, run.id)
  const about = `R${name.slice(1)}, ${lying.fromName} to ${lying.toName}`
  const base = { system: 'electrical', subject: `runs/${run.id}`, about, zone: run.zone } as const
  const found: Finding[] = []
  if (run.length === undefined) {
    const hang = lying.wires.filter((id) => !own(build.collections.wires, id)?.length)
    if (hang.length > 0)
      found.push(
        finding({
          ...base,
          rule: 'run-length',
          verdict: 'unknown',
          says: `${about}: its length is not entered, so ${named(hang)} cannot be cut.`,
          todo: `Measure ${name} along its way and enter its length.`,
          missing: `length of ${name}`,
        }),
      )
  } else {
    const [a, b] = [run.from, run.to].map((id) => own(build.collections.branchPoints, id))
    if (a?.x !== undefined && a.y !== undefined && b?.x !== undefined && b.y !== undefined) {
      const straight = Math.hypot(b.x - a.x, b.y - a.y)
      const most = run.length.value + (run.length.plusMinus ?? 0)
      // A place on the plan is told to the centimetre.
      if (most < straight - 0.02)
        found.push(
          finding({
            ...base,
            rule: 'run-too-short',
            verdict: 'marginal',
            says: `${about} is entered as ${m(run.length.value)}, yet its ends lie ${m(straight)} apart on the plan.`,
            todo: `Measure ${name} again, or put ${a.name} and ${b.name} where they are.`,
            working: [
              `straight line between (${a.x}, ${a.y}) and (${b.x}, ${b.y}) m: ${m(straight)}; longest by its ±: ${m(most)}`,
            ],
          }),
        )
    }
  }
  if (run.sleeveBore) {
    const room = roomFor(build, strands, run.sleeveBore.value)
    if (room.verdict === 'marginal')
      found.push(
        finding({
          ...base,
          rule: 'sleeve-room',
          verdict: 'marginal',
          says: `${about}: its ${run.sleeve ?? 'sleeve'}, ${mm(run.sleeveBore.value)} inside, ${room.says}.`,
          todo: `Take a larger sleeve for ${name}.`,
          working: room.working,
        }),
      )
    else if (room.verdict === 'unknown')
      found.push(
        finding({
          ...base,
          rule: 'sleeve-room',
          verdict: 'unknown',
          says: `${about}: whether its wires go into its ${run.sleeve ?? 'sleeve'} is not known: ${room.says} is not entered.`,
          todo: `Enter ${room.says}.`,
          missing: room.says,
        }),
      )
  }
  if (run.bend && lying.largest > 0) {
    const { free, held } = leastBend(lying.largest)
    if (run.bend.value < free)
      found.push(
        finding({
          ...base,
          rule: 'bend-radius',
          verdict: 'marginal',
          says:
            run.bend.value < held
              ? `${about} is bent to ${mm(run.bend.value)}, tighter than the ${mm(held)} that its largest wire stands even where it is held on both sides.`
              : `${about} is bent to ${mm(run.bend.value)}; its largest wire, ${mm(lying.largest)} thick, wants ${mm(free)}, or ${mm(held)} where it is held on both sides of the bend.`,
          todo: `Lay ${name} in a wider bend${run.bend.value < held ? '' : ', or hold it on both sides of the bend'}.`,
          working: [
            `10 × ${mm(lying.largest)} = ${mm(free)}; held: 3 × ${mm(lying.largest)} = ${mm(held)}`,
            `Source: ${bendSource.title}`,
          ],
        }),
      )
  }
  return found
}

const wireFindings = (build: Build): Finding[] =>
  Object.values(build.collections.wires).flatMap((wire): Finding[] => {
    if (!isWire(wire) || restrictedWire(build, wire.id)) return []
    const about = wireName(build, wire.id)
    const base = { system: 'electrical', subject: `wires/${wire.id}`, about } as const
    const path = wire.path ?? []
    if (wire.length) {
      const { along } = cutOf(build, wire)
      if (along === undefined) return []
      const runs = path.map((id) => own(build.collections.runs, id)!.length!)
      const spread = Math.hypot(wire.length.plusMinus ?? 0, ...runs.map(({ plusMinus }) => plusMinus ?? 0))
      if (wire.length.value + spread >= along) return []
      return [
        finding({
          ...base,
          rule: 'wire-too-short',
          verdict: 'marginal',
          says: `${about} is ${m(wire.length.value)} long, its path through the loom ${m(along)}: it does not reach.`,
          todo: `Cut ${wire.id} anew, or take it a shorter way.`,
          working: [
            `${runs.map(({ value }) => value.toFixed(2)).join(' + ')} m of runs = ${m(along)}, without tails; ± of both together ${m(spread)}`,
          ],
        }),
      ]
    }
    if (path.length > 0) return []
    const [start, goal] = [wire.from, wire.to].map((end) => own(build.collections.devices, deviceIdOf(end))?.at)
    // Without a place in the loom its length alone is asked for, by `missing-data`.
    if (start === undefined || goal === undefined || start === goal) return []
    const way = route(build, start, goal)
    const point = (id: string): string => own(build.collections.branchPoints, id)?.name ?? id
    return [
      finding({
        ...base,
        rule: 'wire-path',
        verdict: 'unknown',
        says: way
          ? `${about} has no path through the loom and no length, so it cannot be cut.`
          : `${about} has neither path nor length, and no run leads from ${point(start)} to ${point(goal)}.`,
        todo: way
          ? `Enter its path; the shortest leads through ${way.path.join(', ')}.`
          : `Enter the run that joins ${point(start)} and ${point(goal)}, or the length of ${wire.id}.`,
        missing: `path of ${wire.id} through the loom`,
      }),
    ]
  })
