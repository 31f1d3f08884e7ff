/** Rules `unfused-stretch` and `fuse-against-conductor`: what stands above each conductor, and whether it suits. */
import { working, workingLines } from '../engineering/calculation.ts'
import { conductorCurrent } from '../engineering/electrical/conductorCurrent.ts'
import type { FuseType } from '../engineering/electrical/fuseGates.ts'
import { fuseHold } from '../engineering/electrical/fuseHold.ts'
import type { Device, Wire } from '../model/build.ts'
import { spread } from './circuit.ts'
import { capacity } from './conductorRules.ts'
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import {
  amps,
  BATTERY_CAUTION,
  celsius,
  deviceIdOf,
  finding,
  list,
  own,
  restrictedWire,
  squareMillimetres,
  wireName,
} from './make.ts'
import { live, protectedBy } from './protection.ts'
import {
  CLASS_SOURCE,
  CLASS_TEMPERATURE,
  conductorFacts,
  hottestZone,
  OVERLOAD_RISE,
  SIZES,
  zonesOfUnknownHeat,
} from './wireData.ts'

export const unfusedFindings = ({ build, circuit }: Context): Finding[] => {
  const { wires, devices } = build.collections
  const told = new Set<string>()
  const findings: Finding[] = []
  const report = (first: Wire, source: string, beyond: readonly string[]) => {
    const alternator = [first.from, first.to].some((end) => own(devices, deviceIdOf(end))?.spec.kind === 'alternator')
    findings.push(
      finding({
        rule: 'unfused-stretch',
        verdict: 'no-go',
        system: 'electrical',
        subject: `wires/${first.id}`,
        about: wireName(build, first.id),
        zone: hottestZone(build, first)?.zone,
        says: `${wireName(build, first.id)} is live from ${source} with no fuse above it${beyond.length > 0 ? `, and so ${beyond.length === 1 ? 'is' : 'are'} ${list(beyond)} beyond it` : ''}.`,
        todo: alternator
          ? `Put a bolt-down fuse into ${first.id} at its battery end, above the alternator’s full output.`
          : `Put a fuse into ${first.id} within 0.2 m of ${source}, rated below what ${first.id}${beyond.length > 0 ? ' and the wires beyond it' : ''} can carry.`,
        working: [
          `Followed from ${source} over wires, splices and contacts as far as the next fuse.`,
          'Every conductor is protected at its source end; the starter cable alone may be a documented exception. Common practice, no published source.',
        ],
        cautions: [BATTERY_CAUTION, 'A short to the body here is limited by nothing but the battery.'],
      }),
    )
  }
  // A blank reason documents nothing.
  const exempt = (wire: Wire) => (wire.unfusedBecause ?? '').trim() !== '' || restrictedWire(build, wire.id)
  const ofSource = (source: string, fromAlternator: boolean) => {
    // First wires are those that leave what is one piece with the terminal or lies beyond an exempt wire.
    const near = spread(circuit, [source], (link) => {
      if (!live(link)) return false
      const wire = link.kind === 'wire' ? own(wires, link.id) : undefined
      return wire === undefined ? link.kind === 'inside' : exempt(wire)
    })
    for (const wire of Object.values(wires)) {
      if (exempt(wire) || told.has(wire.id)) continue
      const start = near.has(wire.from) ? wire.from : near.has(wire.to) ? wire.to : undefined
      if (start === undefined) continue
      const end = start === wire.from ? wire.to : wire.from
      // A fuse at the battery end protects the alternator's cable: its other end can only give what the alternator gives.
      if (fromAlternator && own(devices, deviceIdOf(end))?.spec.kind === 'fuse') continue
      told.add(wire.id)
      const beyond: string[] = []
      spread(
        circuit,
        [end],
        (link) => live(link) && link.id !== wire.id && !near.has(link.a) && !near.has(link.b),
        (link) => {
          if (link.kind !== 'wire' || told.has(link.id)) return
          told.add(link.id)
          const other = own(wires, link.id)
          if (other && !exempt(other)) beyond.push(link.id)
        },
      )
      report(wire, source, beyond)
    }
  }
  for (const source of circuit.positive) ofSource(source, false)
  for (const source of circuit.alternators) ofSource(source, true)
  return findings
}

const TYPE: Record<NonNullable<Extract<Device['spec'], { kind: 'fuse' }>['pattern']>, FuseType | undefined> = {
  blade: 'blade',
  'mini blade': 'blade',
  'high-current blade': 'maxi',
  'bolt-down': 'bolt-down',
  glass: undefined,
}

export const fuseFindings = (context: Context): Finding[] => {
  const { build } = context
  const findings: Finding[] = []
  for (const [id, below] of protectedBy(context)) {
    const fuse = own(build.collections.devices, id)
    if (fuse?.spec.kind !== 'fuse' || fuse.restricted) continue
    const { rating, pattern } = fuse.spec
    for (const wireId of below) {
      const wire = own(build.collections.wires, wireId)
      if (wire && !restrictedWire(build, wireId)) findings.push(judge(context, fuse, rating?.value, pattern, wire))
    }
  }
  return findings
}

const judge = (
  { build }: Context,
  fuse: Device,
  rating: number | undefined,
  pattern: keyof typeof TYPE | undefined,
  wire: Wire,
): Finding => {
  const about = wireName(build, wire.id)
  const place = hottestZone(build, wire)
  const base = {
    rule: 'fuse-against-conductor',
    system: 'electrical',
    subject: `wires/${wire.id}`,
    about,
    zone: place?.zone,
    cautions: [BATTERY_CAUTION],
  } as const
  const facts = conductorFacts(wire)
  const type = pattern === undefined ? undefined : TYPE[pattern]
  const gaps = [
    rating === undefined ? `rating of ${fuse.name}` : undefined,
    type === undefined ? `type of ${fuse.name} with published gates (blade, high-current blade, bolt-down)` : undefined,
    wire.area ? undefined : `cross-section of ${wire.id}`,
    wire.material ? undefined : `material of ${wire.id}`,
    wire.insulation ? undefined : `insulation class of ${wire.id}`,
    place ? undefined : `ambient temperature of a zone that ${wire.id} passes`,
  ].filter((gap): gap is string => gap !== undefined)
  if (gaps.length > 0 || rating === undefined || !type || !facts || !wire.insulation || !place || !wire.area)
    return finding({
      ...base,
      verdict: 'unknown',
      says: `${about} behind ${fuse.name} cannot be judged: ${list(gaps)} ${gaps.length === 1 ? 'is' : 'are'} not entered.`,
      todo: `Enter the ${list(gaps)}.`,
      missing: list(gaps),
    })
  const limit = CLASS_TEMPERATURE[wire.insulation]
  const carries = capacity(facts, limit, place.ambient)
  const overload = capacity(facts, limit + OVERLOAD_RISE, place.ambient)
  const hold = rating * (type === 'bolt-down' ? 1 : 1.1)
  const gate = rating * 1.35
  const fails = carries === undefined || hold > carries
  const gateFails = overload === undefined || gate > overload
  const share = `${amps(hold)} that ${fuse.name} passes without end at a rating of ${amps(rating)}`
  // A hotter zone could only make it worse: what fails stays failed, what holds is not known to hold.
  const cold = zonesOfUnknownHeat(build, wire)
  if (!fails && !gateFails && cold.length > 0) {
    const missing = `ambient temperature of ${list(cold)}`
    return finding({
      ...base,
      verdict: 'unknown',
      says: `${about} behind ${fuse.name} suits the warmest place entered, ${place.name} (${celsius(place.ambient)}); the ${missing} is not entered.`,
      todo: `Enter the ${missing}.`,
      missing,
    })
  }
  if (!fails && !gateFails)
    return finding({
      ...base,
      verdict: 'sound',
      says: `${about}, ${squareMillimetres(wire.area.value)}, carries ${amps(carries)} in ${place.name} (${celsius(place.ambient)}), above the ${share}.`,
      todo: 'Nothing.',
      working: [
        `${amps(hold)} against ${amps(carries)}; at 135 % ${amps(gate)} against ${amps(overload!)}: heat balance, class ${wire.insulation}.`,
        `Source: ${CLASS_SOURCE}`,
      ],
    })
  const bigger = SIZES.find((size) => {
    if (size.area <= wire.area!.value) return false
    const now = conductorFacts({ area: { value: size.area }, material: 'copper' })!
    return (
      (capacity(now, limit, place.ambient) ?? 0) >= hold &&
      (capacity(now, limit + OVERLOAD_RISE, place.ambient) ?? 0) >= gate
    )
  })
  const smaller = [3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 125, 150, 200]
    .filter(
      (size) =>
        size < rating && size * (type === 'bolt-down' ? 1 : 1.1) <= (carries ?? 0) && size * 1.35 <= (overload ?? 0),
    )
    .at(-1)
  const ways = [
    smaller === undefined ? undefined : `fit ${smaller} A in place of ${amps(rating)} if the load allows it`,
    bigger === undefined
      ? undefined
      : `fit ${bigger.size} in place of ${squareMillimetres(wire.area.value)} on ${wire.id}`,
  ].filter((way): way is string => way !== undefined)
  return finding({
    ...base,
    verdict: fails ? 'no-go' : 'marginal',
    says: fails
      ? `${about}, ${squareMillimetres(wire.area.value)}, carries ${carries === undefined ? 'nothing' : amps(carries)} in ${place.name} (${celsius(place.ambient)}, class ${wire.insulation}), less than the ${share}.`
      : `${about} carries ${amps(overload ?? 0)} at overload, less than the ${amps(gate)} at which ${fuse.name} may take its longest time to open.`,
    todo:
      ways.length === 0
        ? 'Choose another path, or an insulation of a higher class.'
        : `${ways.join('; or ').replace(/^f/, 'F')}.`,
    working: [
      ...workingLines(working(fuseHold, { type, rating })),
      ...(limit > place.ambient
        ? workingLines(
            working(conductorCurrent, {
              temperature: limit,
              metal: facts.metal,
              resistance: facts.resistance,
              conductorDiameter: facts.conductorDiameter,
              outerDiameter: facts.outerDiameter,
              ambient: place.ambient,
            }),
          )
        : [`${place.name} is hotter than class ${wire.insulation} allows.`]),
      `Source: ${CLASS_SOURCE}; resistance ${facts.from}; diameters ${facts.diametersFrom}`,
    ],
  })
}
