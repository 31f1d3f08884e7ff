/** Rules `energy-balance`, `battery-reserve` and `parked-days`: what charges, what lasts, what drains. */
import { propagate, working, workingLines } from '../../engineering/calculation.ts'
import { batteryRuntime, peukertRanges } from '../../engineering/electrical/energy/batteryRuntime.ts'
import { parkedTime, selfDischargeSheet } from '../../engineering/electrical/energy/parkedTime.ts'
import type { Device } from '../../model/build.ts'
import type { Context } from '../context.ts'
import { joinedPosts } from '../door/joinedPosts.ts'
import { ignitionOn } from '../earths/ignition.ts'
import { joined, machineOf } from '../earths/machineReturn.ts'
import { starterMotors } from '../earths/starterTurns.ts'
import type { Finding } from '../finding.ts'
import { amps, BATTERY_CAUTION, celsius, deviceZone, finding, list, own, percent } from '../make.ts'
import { shortedFuses } from '../protection/opening.ts'
import type { Solved } from '../solveCases.ts'
import { leastCharge } from './crankingCharge.ts'
import { type EnergyRow, energyOf } from './energy.ts'

const HOUR = 3600
const DAY = 24 * HOUR
/** Starter batteries are rated over 20 h (EN 50342 [from memory]). */
const RATE = 20 * HOUR
/** State of charge that the reserve runs down to: below half a starter battery ages fast. Common practice, no published source. */
const DOWN_TO = 0.5
/** Exponent where none is entered: the range of flooded batteries, 1.2–1.6 (read). */
const FLOODED = { value: 1.4, plusMinus: 0.2 }
/** Share in 30 d at 20 °C where none is entered: about 5 % (read), by makers 2–10 %. */
const SELF = { value: 0.05, plusMinus: 0.03 }
/** A reserve and a stand shorter than this are told. Common practice, no published source. */
const SHORT_RESERVE = HOUR
const SHORT_STAND = 21 * DAY

const hours = (seconds: number): string =>
  seconds < HOUR ? `${Math.round(seconds / 60)} min` : `${(seconds / HOUR).toPrecision(2)} h`
const days = (seconds: number): string => `${Math.round(seconds / DAY)} days`
const largest = ({ byCircuit }: EnergyRow): string =>
  list(byCircuit.slice(0, 3).map(({ circuit, current }) => `${circuit} ${amps(current)}`))
const told = (row: EnergyRow): string =>
  `“${row.caseName}”: ${amps(row.available ?? 0)} hot, ${amps(row.load)} taken, ${(row.balance ?? 0) < 0 ? 'short of' : 'to spare'} ${amps(Math.abs(row.balance ?? 0))}`

type Base = Pick<Finding, 'rule' | 'system' | 'subject' | 'about'> & { readonly zone?: string | undefined }
/** What no energy can be told of while a battery's posts are joined, and why. */
const withheld = (context: Context, base: Base, asked: string): Finding | undefined => {
  const [first] = joinedPosts(context)
  if (!first) return undefined
  const { battery, way } = first
  const by = list(way.map((id) => own(context.build.collections.devices, id)?.name ?? id))
  return finding({
    ...base,
    verdict: 'unknown',
    says: `${asked} cannot be told: ${by === '' ? 'its wiring' : by} joins the two posts of ${battery.name}, and the short takes all that any source gives.`,
    todo: `Part the posts of ${battery.name} first (finding of its own).`,
    missing: `currents with the posts of ${battery.name} parted`,
  })
}

export const balanceFindings = (context: Context): Finding[] => {
  const { build, cases } = context
  const alternator = Object.values(build.collections.devices).find(({ spec }) => spec.kind === 'alternator')
  if (!alternator) return []
  const charging = energyOf(context).filter(
    ({ case: id }) =>
      own(build.collections.cases, id)?.alternator !== 'off' &&
      // What a fuse would end is no load to buy an alternator for.
      cases.every((solved) => solved.case !== id || shortedFuses(context, solved).length === 0),
  )
  const base = {
    rule: 'energy-balance',
    system: 'electrical',
    subject: `devices/${alternator.id}`,
    about: alternator.name,
    zone: deviceZone(build, alternator.id),
  } as const
  const shorted = withheld(context, base, `Whether ${alternator.name} keeps up`)
  if (shorted) return [shorted]
  const unsolved = cases.filter(
    ({ solved, kase }) => !solved && kase.alternator !== 'off' && kase.battery === 'connected' && !kase.supply,
  )
  const gaps = new Set<string>()
  const { spec } = alternator
  if (spec.kind === 'alternator') {
    const modes = new Set(Object.values(build.collections.cases).map((kase) => kase.alternator))
    if (modes.has('idle') && !spec.hotOutputIdle) gaps.add(`hot output at idle of ${alternator.name}`)
    if (modes.has('cruise') && !spec.hotOutputCruise) gaps.add(`hot output at cruise of ${alternator.name}`)
    if (charging.length > 0 && !joined(machineOf(context, alternator)))
      gaps.add(`way of ${alternator.name} to the battery and back`)
  }
  const known = charging.filter(({ balance }) => balance !== null)
  if (known.length === 0 && gaps.size === 0 && unsolved.length === 0) return []
  const modeOf = (row: EnergyRow) => own(build.collections.cases, row.case)?.alternator
  const short = known.filter(({ balance }) => balance! < 0).sort((a, b) => a.balance! - b.balance!)
  const close = known.filter((row) => row.balance! >= 0 && row.balance! < row.availablePlusMinus)
  const worst = [...known].sort((a, b) => a.balance! - b.balance!)[0]
  if (short.length === 0) for (const row of known) for (const gap of row.missing) gaps.add(gap)
  const lines = known.map((row) => `${told(row)}; largest: ${largest(row)}`)
  if (short.length === 0 && gaps.size > 0) {
    const missing = list([...gaps].slice(0, 4))
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `Whether ${alternator.name} keeps up cannot be judged: ${missing}${gaps.size > 4 ? ` and ${gaps.size - 4} more` : ''} ${gaps.size === 1 ? 'is' : 'are'} not entered.`,
        todo: `Enter ${missing}.`,
        missing: list([...gaps]),
        working: lines,
      }),
    ]
  }
  if (!worst) return []
  const first = short[0] ?? close[0] ?? worst
  const bad = short.some((row) => modeOf(row) === 'cruise')
  return [
    finding({
      ...base,
      verdict: bad ? 'no-go' : short.length > 0 || close.length > 0 ? 'marginal' : 'sound',
      says:
        short.length > 0
          ? `${alternator.name} does not keep up in ${list(short.slice(0, 3).map(told))}: the battery gives the rest and runs down. Largest: ${largest(first)}.`
          : close.length > 0
            ? `Whether ${alternator.name} keeps up hangs on its ± ${amps(first.availablePlusMinus)}: ${told(first)}.`
            : `${alternator.name} keeps up in every case, least in ${told(worst)}.`,
      todo:
        short.length > 0
          ? `Fit an alternator that gives at least ${amps(first.load * 1.1)} hot at that speed, or switch off ${first.byCircuit[0]?.circuit ?? 'loads'} there.`
          : close.length > 0
            ? `Measure the output of ${alternator.name} hot at that speed.`
            : 'Nothing.',
      working: [
        'balance = hot output at this speed − current that the car takes, each load averaged over its duty; charging the battery comes out of what is to spare.',
        ...lines,
        'A tenth more than is taken, to charge the battery: common practice, no published source.',
      ],
      cautions: short.length > 0 ? [BATTERY_CAUTION] : [],
    }),
  ]
}

const theBattery = ({ build }: Context) =>
  Object.values(build.collections.devices).find(({ spec }) => spec.kind === 'battery')

export const reserveFindings = (context: Context): Finding[] => {
  const { build } = context
  const battery = theBattery(context)
  if (battery?.spec.kind !== 'battery') return []
  const base = {
    rule: 'battery-reserve',
    system: 'electrical',
    subject: `devices/${battery.id}`,
    about: battery.name,
    zone: deviceZone(build, battery.id),
  } as const
  const shorted = withheld(context, base, `How long ${battery.name} lasts with the alternator dead`)
  if (shorted) return [shorted]
  const rows = energyOf(context).filter(({ case: id }) => {
    const kase = own(build.collections.cases, id)
    return kase?.alternator === 'off' && kase.engine !== 'off'
  })
  const row = rows.sort((a, b) => b.battery - a.battery)[0]
  if (!row) return []
  const { capacity, peukertExponent, stateOfCharge } = battery.spec
  const gaps = [...(capacity ? [] : [`capacity of ${battery.name}`]), ...row.missing]
  if (gaps.length > 0 || !capacity)
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `How long ${battery.name} lasts with the alternator dead cannot be told: ${list(gaps.slice(0, 4))} ${gaps.length === 1 ? 'is' : 'are'} not entered.`,
        todo: `Enter ${list(gaps.slice(0, 4))}.`,
        missing: list(gaps),
      }),
    ]
  const from = stateOfCharge?.value ?? 1
  if (from <= DOWN_TO || row.battery < 1e-3) return []
  const exponent = {
    value: peukertExponent?.value ?? FLOODED.value,
    plusMinus: peukertExponent ? (peukertExponent.plusMinus ?? 0) : FLOODED.plusMinus,
  }
  const inputs = {
    capacity: capacity.value,
    rate: RATE,
    exponent: exponent.value,
    current: row.battery,
    share: from - DOWN_TO,
  }
  const { time } = propagate(batteryRuntime, {
    ...inputs,
    capacity: { value: capacity.value, plusMinus: capacity.plusMinus ?? 0 },
    exponent,
  }).outputs
  context.figures.batteryReserve = time.value
  const short = time.value < SHORT_RESERVE
  return [
    finding({
      ...base,
      verdict: short ? 'marginal' : 'sound',
      says: `With the alternator dead ${battery.name} gives ${amps(row.battery)} in “${row.caseName}” for ${hours(time.value)} ± ${hours(time.plusMinus)}, down to ${percent(DOWN_TO)} of its charge (Peukert, rated form).`,
      todo: short
        ? `Reckon with ${hours(Math.max(0, time.value - time.plusMinus))} to get home, or switch off what you can: ${largest(row)}.`
        : 'Nothing.',
      working: [
        ...workingLines(working(batteryRuntime, inputs)),
        peukertExponent
          ? 'Exponent as entered.'
          : `Exponent 1.4 ± 0.2: ${peukertRanges.title}; enter that of the battery to narrow it.`,
        `Taken from ${percent(from)} to ${percent(DOWN_TO)} of charge; shorter than an hour is told: common practice, no published source.`,
      ],
    }),
  ]
}

const parkedBase = ({ build }: Context, { id, name }: Device) =>
  ({
    rule: 'parked-days',
    system: 'electrical',
    subject: `devices/${id}`,
    about: name,
    zone: deviceZone(build, id),
  }) as const

export const parkedFindings = (context: Context): Finding[] => {
  const { build, cases } = context
  const battery = theBattery(context)
  if (battery?.spec.kind !== 'battery') return []
  const shorted = withheld(context, parkedBase(context, battery), 'After how many days of standing it still cranks')
  if (shorted) return [shorted]
  const parked = cases.find(
    ({ solved, kase }) =>
      solved &&
      kase.engine === 'off' &&
      kase.battery === 'connected' &&
      !kase.supply &&
      ignitionOn(build, kase) !== true &&
      Object.keys(kase.switches).length === 0 &&
      Object.values(kase.outputs).every((duty) => duty === 0),
  )
  const cranking = cases.filter(
    ({ kase }) => kase.engine === 'cranking' && !kase.supply && kase.battery === 'connected',
  )
  const coldest = cranking.sort((a, b) => (a.kase.ambient?.value ?? 1e3) - (b.kase.ambient?.value ?? 1e3))[0]
  if (!parked || !coldest) return []
  const row = energyOf(context).find(({ case: id }) => id === parked.case)
  if (!row) return []
  return [judgeParked(context, battery.id, row, parked, coldest)]
}

const judgeParked = (context: Context, id: string, row: EnergyRow, parked: Solved, coldest: Solved): Finding => {
  const { build } = context
  const battery = own(build.collections.devices, id)!
  const spec = battery.spec.kind === 'battery' ? battery.spec : undefined
  const base = parkedBase(context, battery)
  const least = leastCharge(context, coldest)
  const gaps = [
    ...(spec?.capacity ? [] : [`capacity of ${battery.name}`]),
    ...(parked.kase.ambient ? [] : [`temperature of “${parked.kase.name}”`]),
    ...(coldest.kase.ambient ? [] : [`temperature of “${coldest.kase.name}”`]),
    ...row.missing,
    ...(least === undefined ? [`what “${coldest.kase.name}” needs to be solved with its starter`] : []),
  ]
  if (gaps.length > 0 || least === undefined || !spec?.capacity || !parked.kase.ambient)
    return finding({
      ...base,
      verdict: 'unknown',
      says: `After how many days of standing it still cranks cannot be told: ${list(gaps.slice(0, 4))} ${gaps.length === 1 ? 'is' : 'are'} not entered.`,
      todo: `Enter ${list(gaps.slice(0, 4))}.`,
      missing: list(gaps),
    })
  const cold = celsius(coldest.kase.ambient?.value ?? 0)
  if (least === 'never' && standsStill(coldest))
    return finding({
      ...base,
      verdict: 'unknown',
      says: `After how many days of standing it still cranks cannot be told: in “${coldest.kase.name}” no current reaches the starter, whatever the battery.`,
      todo: 'Mend the starter’s feed, its solenoid wire or its way back first (findings of their own).',
      missing: `a current through the starter in “${coldest.kase.name}”`,
    })
  if (least === 'never')
    return finding({
      ...base,
      verdict: 'marginal',
      says: `At ${cold} not even a full ${battery.name} turns the engine with enough left for the controller, by its resistance in the cold.`,
      todo: 'Enter the cold-cranking current of the battery, or fit one with a greater; look at the starter’s cables and straps.',
      working: CRANK_WORKING,
    })
  const charge = (spec.stateOfCharge?.value ?? 1) - least
  const self = {
    value: spec.selfDischarge?.value ?? SELF.value,
    plusMinus: spec.selfDischarge ? (spec.selfDischarge.plusMinus ?? 0) : SELF.plusMinus,
  }
  const draw = Math.max(0, row.battery)
  if (charge <= 0)
    return finding({
      ...base,
      verdict: 'marginal',
      says: `At ${cold} the engine cranks from ${percent(least)} of charge on, and ${battery.name} is entered at less.`,
      todo: 'Charge the battery before the next cold start.',
      working: CRANK_WORKING,
    })
  const inputs = {
    usable: charge * spec.capacity.value,
    draw,
    capacity: spec.capacity.value,
    selfDischarge: self.value,
    temperature: parked.kase.ambient.value,
  }
  const { time } = propagate(parkedTime, { ...inputs, selfDischarge: self }).outputs
  context.figures.parkedTime = time.value
  const short = time.value < SHORT_STAND
  return finding({
    ...base,
    verdict: short ? 'marginal' : 'sound',
    says: `Parked, the car draws ${draw < 1e-4 ? 'nothing' : `${(draw * 1e3).toPrecision(2)} mA`}; after ${days(time.value)} ± ${days(time.plusMinus)} it no longer cranks at ${cold}, which takes ${percent(least)} of charge.`,
    todo: short
      ? `Find what draws it: ${largest(row)}; or fit a battery switch, or a maintenance charger when it stands.`
      : 'Nothing.',
    working: [
      ...workingLines(working(parkedTime, inputs)),
      spec.selfDischarge
        ? 'Self-discharge as entered.'
        : `Self-discharge 5 ± 3 % in 30 d at 20 °C: battery suppliers’ texts name 5 % (read) and 2–10 % (read); ${selfDischargeSheet.title}.`,
      ...CRANK_WORKING,
      'Shorter than three weeks is told: common practice, no published source.',
    ],
  })
}

const CRANK_WORKING: readonly string[] = [
  'Least charge: the cranking case solved again with E(s) of the BCI table and R(s, T), until starter or controller gets too little; R in the cold by EN 50342 where the cold-cranking current is entered, else twice the warm one [from memory]; × (2 − s), and flat at 20 %: common practice, no published source.',
]

/** The starter takes nothing at all: a way is missing, not a stronger battery. */
const standsStill = ({ bound, elements }: Solved): boolean =>
  starterMotors(bound).every(({ id }) => Math.abs(elements.get(id) ?? 0) < 1)
