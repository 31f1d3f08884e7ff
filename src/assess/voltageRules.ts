/** Rule `load-voltage`: each load that states what it needs, in every case that feeds it. */
import type { Device } from '../model/build.ts'
import { type Ceiling, ceilingOf } from './ceiling.ts'
import type { Link } from './circuit.ts'
import type { Context } from './context.ts'
import { type Finding, VERDICTS } from './finding.ts'
import {
  amps,
  BATTERY_CAUTION,
  deviceIdOf,
  deviceName,
  deviceZone,
  endpointOf,
  FUEL_CAUTION,
  finding,
  list,
  own,
  percent,
  volts,
  wireName,
} from './make.ts'
import { chain, FED_VOLTS, hiddenDraws, type Solved, type Step } from './solveCases.ts'
import { sourceVolts } from './sourceVolts.ts'
import { cure, DROP_SHARE } from './voltageRemedy.ts'

interface Judged {
  readonly solved: Solved
  readonly voltage: number
  /** Less `meant`. */
  readonly source: number
  /** V that resistors on the way take on purpose. */
  readonly meant: number
  readonly unsure: readonly string[]
  /** What may draw more than was solved. */
  readonly hidden: readonly string[]
  /** V that it still has with all of that drawn, where the verdict does not hang on it; `hidden` is then empty. */
  readonly atLeast?: { readonly voltage: number; readonly draws: readonly string[] }
}

/** Data that touch every figure of a case, whichever load is looked at. */
const sourceGap = ({ build }: Context, solved: Solved): string[] =>
  solved.missing
    .filter(({ subject }) => {
      const kind = own(build.collections.devices, subject.slice('devices/'.length))?.spec.kind
      return subject.startsWith('devices/') && (kind === 'battery' || kind === 'alternator')
    })
    .map(({ subject, datum }) => `${datum} of ${deviceName(build, subject.slice('devices/'.length))}`)

export const voltageFindings = (context: Context): Finding[] => {
  const { build, cases } = context
  const ceilings = new Map<Solved, Ceiling | undefined>()
  const ceiling = (solved: Solved): Ceiling | undefined => {
    if (!ceilings.has(solved)) ceilings.set(solved, ceilingOf(context, solved))
    return ceilings.get(solved)
  }
  const findings: Finding[] = []
  const spoilt: Spoilt[] = []
  for (const device of Object.values(build.collections.devices)) {
    if (device.restricted) continue
    for (const load of device.loads ?? []) {
      // What it draws is asked for by `missing-data`.
      if (!load.law) continue
      const needs = neededVolts(load)
      if (needs === undefined) {
        if (WORKS.has(device.spec.kind)) findings.push(needsFinding(context, device, load))
        continue
      }
      const judged: Judged[] = []
      for (const solved of cases) {
        if (!solved.solved || solved.kase.battery === 'reversed' || solved.kase.supply) continue
        // A lamp or telltale that dims for the seconds of cranking does nobody harm.
        if (solved.kase.engine === 'cranking' && (load.law.type === 'lamp' || device.spec.kind === 'lamp')) continue
        const id = solved.bound.loadElement(device.id, load.id)
        const current = solved.elements.get(id)
        const [a, b] = [load.from, load.to].map((pin) => solved.voltages[endpointOf(device.id, pin)])
        const source = sourceVolts(solved)
        if (current == null || a == null || b == null || source === undefined || a - b < FED_VOLTS) continue
        const way = [
          ...walk(solved, endpointOf(device.id, load.from), 'up'),
          ...walk(solved, endpointOf(device.id, load.to), 'down'),
        ]
        // A resistor put there on purpose, as for the lower speeds of a blower, is no loss of the way.
        const meant = way.reduce(
          (sum, { element, drop }) =>
            own(build.collections.devices, element)?.spec.kind === 'resistor' ? sum + drop : sum,
          0,
        )
        judged.push({
          solved,
          voltage: a - b,
          source: source - meant,
          meant,
          unsure: [
            ...way
              .filter(({ element }) => solved.bound.unsure.has(element))
              .map(({ element }) => element.replace('wire:', '')),
            ...sourceGap(context, solved),
          ],
          ...hiddenFrom(load, device.id, needs, solved, a - b),
        })
      }
      if (judged.length === 0) {
        const unfed = unfedFinding(context, device, load.id, load.from)
        if (unfed) findings.push(unfed)
        continue
      }
      const found = judgeLoad(context, device.id, load.id, needs, judged)
      if (!found) continue
      if (found.spoilt) spoilt.push(found.spoilt)
      else findings.push(found.finding)
    }
  }
  return [...findings, ...byCulprit(context, spoilt)]

  function hiddenFrom(
    load: Load,
    device: string,
    needs: number,
    solved: Solved,
    now: number,
  ): Pick<Judged, 'hidden' | 'atLeast'> {
    // Enough, but not at the far end of the ± of a charging current that nobody measured.
    const reckoned =
      now - (solved.plusMinus ?? 0) < needs
        ? solved.bound.reckoned.map(
            ({ element }) => `charging current taken after twenty minutes of ${deviceName(build, element)}`,
          )
        : []
    const draws = hiddenDraws(solved).map(
      ({ subject, datum }) => `${datum} of ${deviceName(build, subject.slice('devices/'.length))}`,
    )
    if (reckoned.length > 0) return { hidden: [...reckoned, ...draws] }
    const most = draws.length > 0 ? ceiling(solved) : undefined
    if (!most) return { hidden: draws }
    const [a, b] = [load.from, load.to].map((pin) => most.nodes.get(solved.bound.nodeOf(endpointOf(device, pin))))
    const source = sourceVolts({ ...most, bound: solved.bound })
    if (a == null || b == null || source === undefined) return { hidden: draws }
    const voltage = a - b
    const stands = voltage >= needs && source - voltage <= DROP_SHARE * source
    return stands ? { hidden: [], atLeast: { voltage, draws } } : { hidden: draws }
  }
}

type Load = NonNullable<Device['loads']>[number]
/** Kinds that do work, so that too few volts are felt; a gauge’s or sender’s resistance only reads. */
const WORKS: ReadonlySet<Device['spec']['kind']> = new Set([
  'lamp',
  'motor',
  'pump',
  'heater',
  'solenoid',
  'injector',
  'coil',
  'module',
])

/** As entered; else the voltage below which its law says that it no longer draws what it should. */
const neededVolts = ({ needs, law }: Load): number | undefined =>
  needs?.value ?? (law && 'minimumVoltage' in law ? law.minimumVoltage.value : undefined)

const needsFinding = ({ build }: Context, device: Device, load: Load): Finding => {
  const missing = `least voltage at which ${load.name ?? load.id} of ${device.name} does its job`
  return finding({
    rule: 'load-voltage',
    verdict: 'unknown',
    system: 'electrical',
    subject: `devices/${device.id}`,
    part: load.id,
    about: device.name,
    zone: deviceZone(build, device.id),
    says: `Whether ${device.name} gets enough volts cannot be judged: the ${missing} is not entered.`,
    todo: `Enter the ${missing}.`,
    missing,
  })
}

/** A load that no case feeds, where something on its shortest way from the battery has figures missing: they are why. */
const unfedFinding = (
  { build, circuit, cases }: Context,
  device: Device,
  load: string,
  pin: string,
): Finding | undefined => {
  const start = endpointOf(device.id, pin)
  const from = new Map<string, Link | undefined>([[start, undefined]])
  const queue = [start]
  let end: string | undefined
  for (let here = queue.shift(); here !== undefined && end === undefined; here = queue.shift()) {
    if (circuit.positive.includes(here)) end = here
    for (const link of circuit.linksAt.get(here) ?? []) {
      const next = link.a === here ? link.b : link.a
      if (link.kind === 'earth' || link.kind === 'output' || from.has(next)) continue
      from.set(next, link)
      queue.push(next)
    }
  }
  if (end === undefined) return undefined
  const passed = new Set([`devices/${deviceIdOf(end)}`])
  for (let here: string = end, link = from.get(here); link !== undefined; link = from.get(here)) {
    passed.add(`${link.kind === 'wire' ? 'wires' : 'devices'}/${link.id}`)
    here = link.a === here ? link.b : link.a
  }
  const gaps = new Set(
    cases.flatMap(({ missing }) =>
      missing
        .filter(({ subject }) => subject.startsWith('devices/') && passed.has(subject))
        .map(({ subject, datum }) => `${datum} of ${deviceName(build, subject.slice('devices/'.length))}`),
    ),
  )
  if (gaps.size === 0) return undefined
  return finding({
    rule: 'load-voltage',
    verdict: 'unknown',
    system: 'electrical',
    subject: `devices/${device.id}`,
    part: load,
    about: device.name,
    zone: deviceZone(build, device.id),
    says: `The voltage at ${device.name} is not known: ${list([...gaps])} ${gaps.size === 1 ? 'is' : 'are'} missing on its way from the battery.`,
    todo: `Enter ${list([...gaps])}.`,
    missing: list([...gaps]),
  })
}

const walk = (solved: Solved, endpoint: string, direction: 'up' | 'down'): Step[] =>
  chain(solved, solved.bound.nodeOf(endpoint), direction)

const judgeLoad = (
  context: Context,
  device: string,
  load: string,
  needs: number,
  judged: readonly Judged[],
): { readonly finding: Finding; readonly spoilt?: Spoilt } | undefined => {
  const { build } = context
  const alone = (draft: Parameters<typeof finding>[0]) => ({ finding: finding(draft) })
  const rank = ({ voltage, source, unsure, hidden }: Judged) => {
    if (unsure.length > 0) return 2
    if (voltage < needs && source >= needs) return 0
    if (voltage < needs || source - voltage > DROP_SHARE * source) return 1
    return hidden.length > 0 ? 2 : 3
  }
  const worst = [...judged].sort((a, b) => rank(a) - rank(b) || a.voltage - b.voltage)[0]
  if (!worst) return undefined
  const { solved, voltage, source, unsure, hidden } = worst
  const record = own(build.collections.devices, device)!
  const name = record.name
  const where = `“${solved.kase.name}”`
  const base = {
    rule: 'load-voltage',
    system: 'electrical',
    subject: `devices/${device}`,
    part: load,
    about: name,
    zone: deviceZone(build, device),
    cautions:
      record.spec.kind === 'pump' && build.sheets.fuel?.pump?.device === device
        ? [BATTERY_CAUTION, FUEL_CAUTION]
        : [BATTERY_CAUTION],
  } as const
  if (unsure.length > 0)
    return alone({
      ...base,
      verdict: 'unknown',
      says: `The voltage at ${name} is not known: figures are missing on the way to it (${list([...new Set(unsure)].slice(0, 4))}).`,
      todo: `Enter cross-section, material and length, or the figure named, of ${list([...new Set(unsure)].slice(0, 4))}.`,
      missing: list([...new Set(unsure)]),
    })
  const spec = record.loads!.find(({ id }) => id === load)!
  const steps = [
    ...walk(solved, endpointOf(device, spec.from), 'up'),
    ...walk(solved, endpointOf(device, spec.to), 'down'),
  ].sort((a, b) => b.drop - a.drop)
  const biggest = steps.filter(({ element }) => element.startsWith('wire:')).slice(0, 3)
  const lines = [
    `U = U(${device}.${spec.from}) − U(${device}.${spec.to}), solved over the whole network in ${where}`,
    `with numbers: U = ${volts(solved.voltages[endpointOf(device, spec.from)]!)} − ${volts(solved.voltages[endpointOf(device, spec.to)]!)} = ${volts(voltage)}; needed ${volts(needs)}; source ${volts(source)}`,
    ...steps
      .slice(0, 6)
      .map(({ element, drop, current }) => `${element.replace('wire:', '')}: ${volts(drop)} lost at ${amps(current)}`),
    'Source: Kirchhoff’s laws; wires at the largest resistance their standard allows, as warm as their current, their neighbours and the hottest place on their way make them.',
  ]
  const fed = `${name} gets ${volts(voltage)} in ${where}`
  if (rank(worst) === 2)
    return alone({
      ...base,
      verdict: 'unknown',
      says: `${fed} or less: ${list(hidden.slice(0, 4))}${hidden.length > 4 ? ` and ${hidden.length - 4} more` : ''} ${hidden.length === 1 ? 'is' : 'are'} not entered, and what is fed beside it takes volts from it.`,
      todo: `Enter the ${list(hidden.slice(0, 4))}.`,
      missing: list(hidden),
      working: lines.slice(0, 2),
    })
  if (voltage >= needs && source - voltage <= DROP_SHARE * source)
    return alone({
      ...base,
      verdict: 'sound',
      says: `${fed}, its worst case, and needs ${volts(needs)}.`,
      todo: 'Nothing.',
      working: [
        ...lines.slice(0, 2),
        ...(worst.atLeast
          ? [
              `Not entered: ${list(worst.atLeast.draws)}. Even with all that the fuse above lets through for good (135 % of its rating) ${volts(worst.atLeast.voltage)} are left.`,
            ]
          : []),
      ],
    })
  if (voltage < needs && source < needs)
    return alone({
      ...base,
      verdict: 'marginal',
      says: `${fed} and needs ${volts(needs)}; the source itself gives ${volts(source)}, so no thicker wire helps.`,
      todo: 'Expect it to do less in this case, or switch other loads off.',
      working: lines,
    })
  const culprit = biggest[0]?.element.slice('wire:'.length)
  const wayIn = ({ solved: there, meant }: Judged) => ({
    solved: there,
    from: endpointOf(device, spec.from),
    to: endpointOf(device, spec.to),
    needs,
    current: Math.abs(there.elements.get(there.bound.loadElement(device, load)) ?? 0),
    meant,
  })
  const elsewhere = judged.filter((each) => each !== worst && rank(each) <= 1 && each.source >= needs).map(wayIn)
  const way = { ...wayIn(worst), steps, elsewhere }
  const { says: todo, culprit: spoiler } = cure(context, way, { voltage, source })
  const found = finding({
    ...base,
    verdict: voltage < needs ? 'no-go' : 'marginal',
    says:
      voltage < needs
        ? `${fed} and needs ${volts(needs)}; ${culprit === undefined ? 'the way to it' : `${wireName(build, culprit)}`} loses ${volts(biggest[0]?.drop ?? 0)} of the ${volts(source - voltage)} on the way.`
        : `${fed}: ${percent((source - voltage) / source)} of ${volts(source)} is lost on the way${culprit === undefined ? '' : `, ${volts(biggest[0]!.drop)} of it in ${culprit}`}.`,
    todo,
    working:
      voltage < needs
        ? lines
        : [...lines, 'Limit 10 %: ABYC E-11, non-critical loads, as a supplier’s wire chart prints it.'],
  })
  return spoiler === undefined
    ? { finding: found }
    : {
        finding: found,
        spoilt: {
          finding: found,
          solved,
          wire: spoiler.wire,
          size: spoiler.size,
          now: voltage,
          mended: spoiler.voltage,
        },
      }
}

/** A load that gets enough once one wire is mended which has a no-go of its own. */
interface Spoilt {
  readonly finding: Finding
  readonly solved: Solved
  /** The wire, the size that its own finding asks for, and the load's volts without and with it. */
  readonly wire: string
  readonly size: string
  readonly now: number
  readonly mended: number
}

/** Several loads that one wire spoils in one case are one finding: the wire's. */
const byCulprit = ({ build }: Context, spoilt: readonly Spoilt[]): Finding[] => {
  const groups = new Map<string, Spoilt[]>()
  for (const each of spoilt) {
    const key = `${each.wire} ${each.solved.case}`
    const there = groups.get(key)
    if (there) there.push(each)
    else groups.set(key, [each])
  }
  return [...groups.values()].flatMap((group): Finding[] => {
    const [first, ...others] = [...group].sort((a, b) => rankOf(a) - rankOf(b) || a.now - b.now)
    if (first === undefined) return []
    if (others.length === 0) return [first.finding]
    const { wire, size, solved } = first
    const all = [first, ...others]
    const about = wireName(build, wire)
    return [
      finding({
        rule: 'load-voltage',
        verdict: first.finding.verdict,
        system: 'electrical',
        subject: `wires/${wire}`,
        case: solved.case,
        about,
        zone: first.finding.zone,
        says: `${about} spoils ${all.length} loads in “${solved.kase.name}”: ${list(all.map(({ finding: { about: name, verdict }, now }) => `${name} gets ${volts(now)}${verdict === 'no-go' ? ', too little' : ''}`))}.`,
        todo: `Mend ${wire} first (its own finding); with ${size} there ${list(all.map(({ finding: { about: name }, mended }) => `${name} reads ${volts(mended)}`))}, which is enough.`,
        working: all.flatMap(({ finding: { about: name, says, working } }) => [
          `${name}: ${says}`,
          ...working.slice(0, 2),
        ]),
        cautions: [...new Set(all.flatMap(({ finding: { cautions } }) => cautions))],
      }),
    ]
  })
}
const rankOf = ({ finding: { verdict } }: Spoilt): number => VERDICTS.indexOf(verdict)
