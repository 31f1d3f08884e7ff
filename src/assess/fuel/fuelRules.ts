/**
 * Rules on the fuel system: `pump-supports-power`, `injector-duty`, `fuel-suction`, `fuel-filter`, `fuel-feed`,
 * `fuel-return`, `tank-case`, `tank-vent`, `tank-sender`, `injector-fit`. None says more than that the arithmetic holds.
 */
import { isKnown } from '../chain/chain.ts'
import type { Context } from '../context.ts'
import type { Finding, Verdict } from '../finding.ts'
import { deviceZone, FUEL_CAUTION, finding, list, QUALIFIED_FUEL } from '../make.ts'
import { type FuelChain, type FuelStation, fuelChain } from './chain.ts'
import { injectorFit } from './injectorFit.ts'
import { tankCases, ventWords } from './tankCases.ts'
import { tankSender } from './tankSender.ts'

export const VAPOUR_CAUTION =
  'Petrol vapour is heavier than air, runs along the floor and into pits, and ignites from a lamp, a heater or a relay: work outdoors or with air moving at floor level, and never weld or cut near a tank, full or empty.'

/** One chain an assessment: several rules read it. */
const chains = new WeakMap<Context, FuelChain>()
const chainIn = (context: Context): FuelChain => {
  const kept = chains.get(context)
  if (kept) return kept
  const made = fuelChain(
    context.build,
    context.cases.find(({ kase }) => kase.engine === 'full load'),
  )
  chains.set(context, made)
  return made
}

const base = (rule: string, about: string, part?: string) =>
  ({
    rule,
    system: 'fuel',
    subject: 'sheet/fuel',
    about,
    ...(part === undefined ? {} : { part }),
    cautions: [FUEL_CAUTION, VAPOUR_CAUTION, QUALIFIED_FUEL],
  }) as const

const judgement = (
  verdict: Verdict,
  missing: readonly string[],
  problems: readonly string[],
  says: string,
  todo: string,
): { verdict: Verdict; says: string; todo: string; missing?: string } =>
  verdict !== 'unknown'
    ? { verdict, says, todo }
    : {
        verdict,
        says: [
          says,
          ...problems,
          ...(missing.length > 0 ? [`${list(missing)} ${missing.length === 1 ? 'is' : 'are'} missing.`] : []),
        ].join(' '),
        todo: missing.length > 0 ? `Enter ${list(missing)}.` : 'Mend what is said above.',
        missing: list(missing) || 'figures of the fuel sheet that agree with one another',
      }

const workingOf = (station: FuelStation): readonly string[] =>
  [
    ...(station.capacity && isKnown(station.capacity) ? station.capacity.working : []),
    ...station.figures.flatMap(({ datum, superseded, reading, name }) => [
      ...(reading && superseded && isKnown(superseded)
        ? [`${name}: reading ${reading} stands in place of the computed figure.`]
        : []),
      ...(isKnown(datum) ? datum.working : []),
    ]),
  ].filter((line, index, all) => line !== '' && all.indexOf(line) === index)

const ofStation = (context: Context, id: string, rule: string, about: string): Finding[] => {
  const station = chainIn(context).stations.find((each) => each.id === id)
  if (!station) return []
  return [
    finding({
      ...base(rule, about),
      zone: id === 'pump' ? deviceZone(context.build, context.build.sheets.fuel?.pump?.device ?? '') : undefined,
      ...judgement(station.verdict, station.missing, station.problems, station.says, station.todo),
      working: workingOf(station),
    }),
  ]
}

export const pumpFindings = (context: Context): Finding[] => {
  if (!context.build.sheets.fuel?.pump) return []
  const { facts, delivery, stations } = chainIn(context)
  const pump = stations.find(({ id }) => id === 'pump')
  const supported = pump?.capacity
  if (pump?.verdict !== 'unknown' || pump.missing.every((datum) => !facts.hidden.includes(datum))) {
    if (isKnown(facts.volts)) context.figures.pumpVolts = facts.volts.value
    if (isKnown(delivery.flow)) context.figures.pumpFlow = delivery.flow.value
    if (supported && isKnown(supported)) context.figures.powerSupportedByPump = supported.value
  }
  return ofStation(context, 'pump', 'pump-supports-power', 'Fuel pump against target power').map((found) => ({
    ...found,
    working: [...found.working, 'Margin 10 %: common practice, no published source.'],
  }))
}

export const injectorFindings = (context: Context): Finding[] => {
  if (!context.build.sheets.fuel?.injectors) return []
  const { duty } = chainIn(context)
  if (isKnown(duty)) context.figures.injectorDuty = duty.value
  return ofStation(context, 'injectors', 'injector-duty', 'Injector duty at target power')
}

/** The rest of the chain: a station with nothing entered about it is not asked after, save the suction side. */
export const fuelStationFindings = (context: Context): Finding[] => {
  const { fuel } = context.build.sheets
  if (!fuel?.pump) return []
  const has = (duty: string): boolean => (fuel.lines ?? []).some((line) => line.duty === duty)
  return [
    ...ofStation(context, 'suction', 'fuel-suction', 'Margin against vapour at the fuel pump'),
    ...(fuel.filter || chainIn(context).facts.readings['fuel-filter-loss']
      ? ofStation(context, 'filter', 'fuel-filter', 'Fuel filter')
      : []),
    ...(has('pressure') ? ofStation(context, 'feed', 'fuel-feed', 'Fuel pressure line') : []),
    ...(has('return') ? ofStation(context, 'rail', 'fuel-return', 'Fuel regulator and return line') : []),
  ]
}

export const tankFindings = (context: Context): Finding[] => {
  if (!context.build.sheets.fuel?.tank) return []
  const chain = chainIn(context)
  const vent = ventWords(chain)
  const sender = tankSender(context.build)
  return [
    ...tankCases(chain).map((each) =>
      finding({
        ...base('tank-case', `Tank: ${each.name.toLowerCase()}`, each.id),
        ...judgement(
          each.verdict,
          each.missing,
          each.missing.length > 0 ? [] : [each.says],
          'How the tank stands this is not known.',
          each.verdict === 'sound'
            ? 'Nothing by this arithmetic; have the tank and its vent inspected.'
            : 'Widen the vent, leave more space above the fuel, or keep the tank cooler; have it inspected.',
        ),
        ...(each.verdict === 'unknown' ? {} : { says: each.says }),
        working: each.working,
      }),
    ),
    ...(sender
      ? [
          finding({
            ...base('tank-sender', `Tank and ${sender.name.toLowerCase()}`),
            ...judgement(sender.verdict, sender.missing, [], sender.says, sender.todo),
            working: ['Volume of the fuel sheet against the litres of the level sender, each as entered.'],
          }),
        ]
      : []),
    finding({
      ...base('tank-vent', 'Where the tank’s vent ends'),
      ...judgement(
        vent.verdict,
        vent.missing,
        [],
        vent.says,
        vent.verdict === 'sound'
          ? 'Nothing by this rule; local law decides, have it inspected.'
          : 'Lead the vent to a canister with purge, or to where local law lets it end, with a rollover valve at the tank’s top.',
      ),
      working: [
        'Tank and vent: over-pressure relieved automatically, valves designed to prevent fire risk: UN vehicle regulation text 5.5.3, numbering of the bus regulations; UN R34 for fire risks. Local law decides.',
      ],
    }),
  ]
}

export const injectorFitFindings = (context: Context): Finding[] => {
  const set = context.build.sheets.fuel?.injectors
  if (!set) return []
  // Asked only where something about the fit is entered: the coil’s resistance alone belongs to the electrical rules.
  const asked =
    set.resistance ?? set.shortestPulse ?? set.connector ?? set.loomConnector ?? set.card ?? set.seriesResistance
  return injectorFit(chainIn(context))
    .filter(({ id, verdict }) =>
      // Pump against injectors is told by the pump’s own finding; dead times that contradict themselves are told always.
      asked === undefined ? id === 'dead time' && verdict !== 'sound' : id !== 'pump',
    )
    .map((point) =>
      finding({
        ...base('injector-fit', point.name, point.id.replace(' ', '-')),
        ...judgement(point.verdict, point.missing, [], point.says, point.todo),
        working: point.working,
      }),
    )
}

export const FUEL_RULES: readonly ((context: Context) => readonly Finding[])[] = [
  pumpFindings,
  injectorFindings,
  fuelStationFindings,
  tankFindings,
  injectorFitFindings,
]
