/** What can be tried on the fuel chain, each at its station, and what it does to the build. Nothing here is stored. */
import type { FuelChain } from '../../assess/fuel/chain.ts'
import { thinnestPumpWires } from '../../assess/fuel/pumpVolts.ts'
import { list } from '../../assess/make.ts'
import { FUELS, type FuelName } from '../../engineering/fuel/fuels.ts'
import type { Build, Change, Sheet } from '../../model/build.ts'
import type { Measure } from '../../model/measure.ts'
import { applyChanges } from '../../model/read.ts'
import type { Kind } from '../../units/kinds.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { readMeasure } from '../parts/quantityText.ts'

interface Common {
  readonly id: string
  readonly station: string
  readonly label: string
}
interface MeasureLever<K extends Kind = Kind> extends Common {
  readonly kind: K
  readonly stored: Measure<K> | undefined
  readonly apply: (build: Build, value: Measure<K>) => Build
}
interface ChoiceLever extends Common {
  readonly options: readonly string[]
  readonly stored: string
  readonly apply: (build: Build, value: string) => Build
}
interface TextLever extends Common {
  readonly words: string
  readonly apply: (build: Build, value: string | undefined) => Build
}
export type Lever = MeasureLever | ChoiceLever | TextLever
// Written through these two so that a lever that may be left out still has its parameters typed.
// A lever reads text of its own kind and hands its own `apply` nothing else.
const measured = <K extends Kind>(lever: MeasureLever<K>): Lever => lever as unknown as MeasureLever
const chosen = (lever: ChoiceLever): Lever => lever
const said = (lever: TextLever): Lever => lever
/** Typed text by lever. */
export type Tried = Readonly<Record<string, string>>

const withFuel = (build: Build, change: Partial<Sheet<'fuel'>>): Build => ({
  ...build,
  sheets: { ...build.sheets, fuel: { ...build.sheets.fuel, ...change } },
})
type Injectors = NonNullable<Sheet<'fuel'>['injectors']>
/** A change of injectors is carried through: coil, resistor, shortest pulse and plug are tried with the flow. */
const injectorLevers = (set: Injectors): readonly Lever[] => {
  const put = (to: Build, change: Partial<Injectors>): Build =>
    to.sheets.fuel?.injectors ? withFuel(to, { injectors: { ...to.sheets.fuel.injectors, ...change } }) : to
  return [
    ...(set.card
      ? []
      : [
          measured({
            id: 'injectors',
            station: 'injectors',
            label: 'Flow of each injector, as tested',
            kind: 'massFlow',
            stored: set.flow,
            apply: (to, flow) => put(to, { flow }),
          }),
        ]),
    measured({
      id: 'coil',
      station: 'injectors',
      label: 'Resistance of each coil',
      kind: 'resistance',
      stored: set.resistance,
      apply: (to, resistance) => put(to, { resistance }),
    }),
    measured({
      id: 'series',
      station: 'injectors',
      label: 'Resistor in series with each',
      kind: 'resistance',
      stored: set.seriesResistance,
      apply: (to, seriesResistance) => put(to, { seriesResistance }),
    }),
    measured({
      id: 'shortest',
      station: 'injectors',
      label: 'Shortest pulse that repeats',
      kind: 'time',
      stored: set.shortestPulse,
      apply: (to, shortestPulse) => put(to, { shortestPulse }),
    }),
    said({
      id: 'plug',
      station: 'injectors',
      label: 'Plug that the injector takes',
      words: set.connector ?? '',
      apply: (to, connector) => put(to, { connector }),
    }),
    said({
      id: 'adapter',
      station: 'injectors',
      label: 'Adapter between plug and injector',
      words: set.adapter ?? '',
      apply: (to, adapter) => put(to, { adapter }),
    }),
  ]
}
const MEASURED = 'as measured'
const AS_NEW = 'new, as its sheet says'

export const leversOf = (build: Build, chain: FuelChain): readonly Lever[] => {
  const { fuel, engine, air } = build.sheets
  const wires = thinnestPumpWires(build, chain.facts.full)
  const feed = fuel?.lines?.find(({ duty }) => duty === 'pressure')
  const filterReading = chain.facts.readings['fuel-filter-loss']
  const levers: (Lever | false | undefined)[] = [
    measured({
      id: 'hot',
      station: 'tank',
      label: 'Hottest fuel',
      kind: 'temperature',
      stored: fuel?.hotTemperature,
      apply: (to, value) => withFuel(to, { hotTemperature: value }),
    }),
    wires.length > 0 &&
      measured({
        id: 'wires',
        station: 'pump',
        label: `Cross-section of ${list(wires)}`,
        kind: 'area',
        stored: build.collections.wires[wires[0]!]?.area,
        apply: (to, value) => ({
          ...to,
          collections: {
            ...to.collections,
            wires: {
              ...to.collections.wires,
              ...Object.fromEntries(wires.map((id) => [id, { ...to.collections.wires[id]!, area: value }])),
            },
          },
        }),
      }),
    filterReading &&
      chosen({
        id: 'filter',
        station: 'filter',
        label: 'Filter',
        options: [MEASURED, AS_NEW],
        stored: MEASURED,
        apply: (to, value) => {
          if (value === MEASURED) return to
          // The reading is of the old filter and goes with it.
          const { [filterReading.id]: _gone, ...readings } = to.collections.readings
          return { ...to, collections: { ...to.collections, readings } }
        },
      }),
    feed &&
      measured({
        id: 'bore',
        station: 'feed',
        label: `Bore of ${feed.name}`,
        kind: 'length',
        stored: feed.bore,
        apply: (to, value) =>
          withFuel(to, {
            lines: (to.sheets.fuel?.lines ?? []).map((line) => (line.id === feed.id ? { ...line, bore: value } : line)),
          }),
      }),
    measured({
      id: 'rail',
      station: 'rail',
      label: 'Rail pressure as set',
      kind: 'pressureGauge',
      stored: fuel?.railPressure,
      apply: (to, value) => withFuel(to, { railPressure: value }),
    }),
    engine?.charging !== undefined &&
      engine.charging !== 'none' &&
      measured({
        id: 'ratio',
        station: 'rail',
        label: 'Pressure ratio of the charger',
        kind: 'ratio',
        stored: air?.pressureRatio,
        apply: (to, value) => ({
          ...to,
          sheets: { ...to.sheets, air: { ...to.sheets.air, pressureRatio: value } },
        }),
      }),
    ...(fuel?.injectors ? injectorLevers(fuel.injectors) : []),
    measured({
      id: 'power',
      station: 'engine',
      label: 'Target power',
      kind: 'power',
      stored: engine?.targetPower,
      apply: (to, value) =>
        to.sheets.engine
          ? { ...to, sheets: { ...to.sheets, engine: { ...to.sheets.engine, targetPower: value } } }
          : to,
    }),
    fuel?.fuel !== undefined &&
      chosen({
        id: 'fuel',
        station: 'engine',
        label: 'Fuel',
        options: Object.keys(FUELS),
        stored: fuel.fuel,
        apply: (to, value) => {
          const other = value as FuelName
          // What the engine burns was known for the fuel it had; another one scales by heating value, once.
          return withFuel(to, {
            fuel: other,
            consumptionFuel: fuel.consumptionFuel ?? fuel.fuel,
            density: { value: Number(FUELS[other].density.toFixed(1)), unit: 'kg/m³' },
          })
        },
      }),
  ]
  return levers.filter((lever): lever is Lever => typeof lever === 'object')
}

/** Only what differs, record by record: an edit that touches nothing else. */
const changesBetween = (before: Build, after: Build): readonly Change[] => [
  ...(['engine', 'fuel', 'air'] as const).flatMap((sheet) =>
    before.sheets[sheet] === after.sheets[sheet] ? [] : [{ sheet, value: after.sheets[sheet] }],
  ),
  ...Object.entries(after.collections.wires).flatMap(([id, value]) =>
    before.collections.wires[id] === value ? [] : [{ collection: 'wires' as const, id, value }],
  ),
  ...Object.keys(before.collections.readings).flatMap((id) =>
    id in after.collections.readings ? [] : [{ collection: 'readings' as const, id, value: null }],
  ),
]

export interface Trial {
  readonly build: Build
  readonly changes: readonly Change[]
  /** By lever: what could not be read. */
  readonly problems: Readonly<Record<string, readonly Problem[]>>
}

/** The build as it would be; `undefined` where nothing is tried. Text that cannot be read is told and left out. */
export const trialOf = (build: Build, levers: readonly Lever[], tried: Tried): Trial | undefined => {
  let after = build
  const problems: Record<string, readonly Problem[]> = {}
  for (const lever of levers) {
    const text = tried[lever.id]
    if (text === undefined || (text.trim() === '' && !('words' in lever))) continue
    try {
      if ('options' in lever) {
        if (text !== lever.stored) after = lever.apply(after, text)
        continue
      }
      if ('words' in lever) {
        const words = text.trim()
        if (words === lever.words) continue
        const wanted = lever.apply(after, words === '' ? undefined : words)
        applyChanges(build, changesBetween(build, wanted))
        after = wanted
        continue
      }
      const value = readMeasure(lever.kind, text, lever.stored)
      if (value === undefined) continue
      const wanted = lever.apply(after, value)
      applyChanges(build, changesBetween(build, wanted))
      after = wanted
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems[lever.id] = error.problems
    }
  }
  const changes = changesBetween(build, after)
  if (changes.length === 0 && Object.keys(problems).length === 0) return undefined
  return { build: after, changes, problems }
}
