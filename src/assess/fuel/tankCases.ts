/**
 * The tank in five cases: fuel drawn, tank filled, liquid warmed, vapour made by hot return fuel, vent covered or shut.
 * Pressures are those of the space above the fuel against the air outside.
 */
import { fuelExpansion } from '../../engineering/fluids/fuelExpansion.ts'
import { petrolVapourPressure } from '../../engineering/fluids/petrolVapourPressure.ts'
import { sealedSpace } from '../../engineering/fluids/sealedSpace.ts'
import { vapourGrowth } from '../../engineering/fuel/vapourGrowth.ts'
import { combine, type Datum, entered, isKnown, type Known, known, lacking, lackOf, step } from '../chain/chain.ts'
import type { Verdict } from '../finding.ts'
import { type FuelChain, PETROL_HEAT } from './chain.ts'
import { ATMOSPHERE } from './facts.ts'
import { GAS_CONSTANT, gasOver, VAPOUR_MOLAR, ventLoss } from './losses.ts'
import { vapourPressureAt } from './suction.ts'

/** Share of the tank that is left in the case of vapour: little fuel warms fast and leaves much space. */
const LITTLE = 0.25
/** J/kg: Heywood table D.4, petrol [from memory]; NBS Misc. Pub. 97, 316 at 42 °C [read]. The least makes the most vapour. */
const HEAT_OF_VAPORISATION = 305e3

export interface TankCase {
  readonly id: 'drawn' | 'filled' | 'warmed' | 'vapour' | 'shut'
  readonly name: string
  /** What passes the vent, m³/s; absent where it is shut or nothing but liquid counts. */
  readonly flow?: Datum
  /** Pressure above (or vacuum below) the air, Pa, always 0 or more. */
  readonly pressure?: Datum
  readonly sense: 'pressure' | 'vacuum'
  /** Space left above the fuel, m³. */
  readonly space?: Datum
  readonly limit?: Datum
  readonly verdict: Verdict
  readonly says: string
  readonly missing: readonly string[]
  readonly working: readonly string[]
}

const kPa = (pressure: number): string => `${(pressure / 1e3).toFixed(2)} kPa`
const litres = (volume: number): string => `${(volume * 1e3).toFixed(1)} l`

export const tankCases = (chain: FuelChain): readonly TankCase[] => {
  const { facts } = chain
  const { fuel, density } = facts
  const tank = fuel.tank ?? {}
  const vent = ventLoss(facts)
  const through = (flow: Datum, loss = vent): Datum => (loss.gaps.length > 0 ? lacking(...loss.gaps) : loss.at(flow))
  const vacuumLimit = entered(tank.greatestVacuum, 'vacuum that the tank stands')
  const pressureLimit = entered(tank.greatestPressure, 'pressure that the tank stands')
  const volume = entered(tank.volume, 'volume of the tank')
  const fill: Datum =
    tank.largestFill && tank.largestFill.value > 1
      ? {
          missing: [],
          problems: [
            {
              code: 'out-of-range',
              says: `The tank is said to fill to ${(tank.largestFill.value * 100).toFixed(0)} % of its volume.`,
              todo: 'Enter a share of at most 1: look whether a per cent or litres were meant.',
            },
          ],
        }
      : entered(tank.largestFill, 'share of the volume that filling can reach')
  const cold = entered(fuel.fillTemperature, 'coldest fuel that it is filled with')
  const hot = entered(fuel.hotTemperature, 'hottest fuel in the tank')

  const make = (
    draft: Omit<TankCase, 'verdict' | 'missing' | 'working' | 'says'>,
    needed: readonly Datum[],
    judge: () => readonly [Verdict, string],
  ): TankCase => {
    const lack = lackOf(needed)
    if (lack) {
      const causes = lack.problems.map(({ says, todo }) => `${says} ${todo}`)
      return {
        ...draft,
        verdict: 'unknown',
        says: `Not known${lack.missing.length > 0 ? `: ${lack.missing.join(', ')}` : ''}${causes.length > 0 ? `. ${causes.join(' ')}` : ''}`,
        missing: lack.missing,
        working: [],
      }
    }
    const [verdict, says] = judge()
    const working = [draft.flow, draft.pressure, draft.space, draft.limit]
      .filter((datum): datum is Datum => datum !== undefined)
      .flatMap((datum) => (isKnown(datum) ? datum.working : []))
    return { ...draft, verdict, says, missing: [], working }
  }
  const against = (pressure: Datum, limit: Datum): Verdict => {
    const [p, most] = [pressure as Known, limit as Known]
    return p.value - p.plusMinus > most.value
      ? 'no-go'
      : p.value + p.plusMinus > 0.7 * most.value
        ? 'marginal'
        : 'sound'
  }

  const burnt = combine(
    [chain.target, facts.consumption, facts.hotDensity],
    (p = 0, b = 0, rho = 1) => (p * b) / rho,
    'Air in = fuel burnt by volume, P·b/ρ: what returns to the tank needs no air',
  )
  const drawnVacuum = through(burnt)
  const drawn = make(
    {
      id: 'drawn',
      name: 'Fuel drawn at target power',
      flow: burnt,
      pressure: drawnVacuum,
      sense: 'vacuum',
      limit: vacuumLimit,
    },
    [drawnVacuum, vacuumLimit],
    () => [
      against(drawnVacuum, vacuumLimit),
      `The vent leaves ${kPa((drawnVacuum as Known).value)} of vacuum; the tank stands ${kPa((vacuumLimit as Known).value)}.`,
    ],
  )

  const fillFlow = entered(tank.fillFlow, 'flow of the filling nozzle')
  const coldVapour = vapourPressureAt(facts, cold)
  const hotVapour = vapourPressureAt(facts, hot)
  // Air comes in, but what goes out is full of vapour; where its share is not known it is reckoned as air, and said so.
  const out =
    isKnown(hotVapour) && isKnown(hot) ? ventLoss(facts, gasOver(hotVapour.value, hot.value, ATMOSPHERE)) : undefined
  const fillPressure = through(fillFlow, out)
  const filled = make(
    { id: 'filled', name: 'Filling', flow: fillFlow, pressure: fillPressure, sense: 'pressure', limit: pressureLimit },
    [fillPressure, pressureLimit],
    () => [
      against(fillPressure, pressureLimit),
      `Vapour leaves at ${kPa((fillPressure as Known).value)} above the air if it may only leave by this vent; a filler with its own air pipe needs less.${out ? '' : ' Reckoned as air: full of vapour it is more.'} Back-pressure shuts the nozzle early.`,
    ],
  )

  const full = combine([volume, fill], (v = 0, share = 0) => v * share, 'Fuel in a tank filled as far as it goes')
  const warmVolume = step(fuelExpansion, {
    density,
    volume: full,
    temperature: cold,
    otherTemperature: hot,
  }).otherVolume
  const space = combine(
    [volume, warmVolume],
    (v = 0, w = 0) => v - w,
    'Space left: volume of the tank less that of the warm fuel',
  )
  const shownSpace: Datum =
    isKnown(space) && isKnown(warmVolume)
      ? known(space.value, space.plusMinus, ...warmVolume.working, ...space.working)
      : space
  const warmed = make(
    { id: 'warmed', name: 'Full of cold fuel, then warm', space: shownSpace, sense: 'pressure' },
    [space],
    () => {
      const left = (space as Known).value
      const share = left / (volume as Known).value
      return [
        left < 0 ? 'no-go' : share < 0.03 ? 'marginal' : 'sound',
        left < 0
          ? `The fuel needs ${litres(-left)} more than the tank has: it is pushed out of the vent or bursts a tank that is shut.`
          : `${litres(left)} of space are left (${(share * 100).toFixed(1)} % of the tank).`,
      ]
    },
  )

  const low = combine([volume], (v = 0) => v * LITTLE, 'A quarter of the tank left')
  const power = combine(
    [facts.volts, facts.amps],
    (u = 0, i = 0) => u * i,
    'Heat into the tank: the pump’s electrical power, nearly all of which ends in the fuel; heat from rail and exhaust not counted',
  )
  const warming: Datum =
    facts.readings['tank-warming-rate'] !== undefined
      ? combine(
          [facts.readings['tank-warming-rate']],
          (k = 0) => k / 3600,
          'Rise of the fuel as measured, K in an hour',
        )
      : tank.warmingRate
        ? combine(
            [entered(tank.warmingRate, 'rise of the fuel in an hour')],
            (k = 0) => k / 3600,
            'Rise as entered, K in an hour',
          )
        : combine(
            [power, low, density],
            (w = 0, v = 1, rho = 1) => w / (v * rho * PETROL_HEAT),
            'Rise = U·I / (m·c), m a quarter of the tank, nothing lost to the air: the most the pump alone can do',
          )
  const reid = entered(fuel.reidPressure, 'Reid vapour pressure of the fuel')
  const ullage = combine([volume, low], (v = 0, f = 0) => v - f, 'Space above that fuel')
  const center = (datum: Datum, less = 0): Datum => (isKnown(datum) ? known(datum.value - less) : datum)
  const bare = (datum: Datum): Datum => (isKnown(datum) ? known(datum.value) : datum)
  const shownGrowth = step(vapourGrowth, {
    space: ullage,
    before: center(hot, 1),
    after: center(hot),
    vapourBefore: bare(vapourPressureAt(facts, center(hot, 1))),
    vapourAfter: bare(hotVapour),
    pressure: ATMOSPHERE,
  }).volume
  // Temperature and Reid pressure stand in both vapour pressures: taken once, or what cancels would count twice.
  const spread = combine(
    [ullage, hot, reid],
    (space = 0, t = 0, r = 0) =>
      vapourGrowth.compute({
        space,
        before: t - 1,
        after: t,
        vapourBefore: petrolVapourPressure.compute({ reid: r, temperature: t - 1 }).vapourPressure,
        vapourAfter: petrolVapourPressure.compute({ reid: r, temperature: t }).vapourPressure,
        pressure: ATMOSPHERE,
      }).volume,
    'Vapour out for one kelvin',
  )
  const growth: Datum =
    isKnown(shownGrowth) && isKnown(spread)
      ? known(shownGrowth.value, spread.plusMinus, ...shownGrowth.working)
      : shownGrowth
  const boils = isKnown(hotVapour) && hotVapour.value >= ATMOSPHERE
  const vapourFlow: Datum = boils
    ? combine(
        [power, hot],
        (w = 0, t = 1) => (w / HEAT_OF_VAPORISATION) * ((GAS_CONSTANT * t) / (VAPOUR_MOLAR * ATMOSPHERE)),
        'The fuel boils: vapour = heat / heat of vaporisation (305 kJ/kg, Heywood table D.4, from memory), as a gas of 66 g/mol',
      )
    : combine([growth, warming], (v = 0, k = 0) => v * k, 'Vapour out = growth for one kelvin × kelvins a second')
  const shownVapour: Datum =
    isKnown(vapourFlow) && isKnown(growth) && isKnown(warming) && !boils
      ? known(vapourFlow.value, vapourFlow.plusMinus, ...warming.working, ...growth.working, ...vapourFlow.working)
      : vapourFlow
  const vapourPressure = through(vapourFlow, out)
  const vapour = make(
    {
      id: 'vapour',
      name: 'Vapour by hot return fuel',
      flow: shownVapour,
      pressure: vapourPressure,
      sense: 'pressure',
      limit: pressureLimit,
    },
    [vapourFlow, vapourPressure, pressureLimit],
    () => [
      boils ? 'no-go' : against(vapourPressure, pressureLimit),
      `${boils ? 'At its hottest the fuel boils: ' : ''}${((vapourFlow as Known).value * 6e4).toFixed(2)} l/min of vapour leave, at ${kPa((vapourPressure as Known).value)}; a canister must take or pass them on.`,
    ],
  )

  const shutLack = lackOf([volume, full, warmVolume, coldVapour, hotVapour])
  const shutPressure: Datum =
    shutLack ??
    combine(
      [volume, fill, density, cold, hot, reid],
      (v = 0, share = 0, rho = 0, t0 = 1, t1 = 1, r = 0) => {
        const f = v * share
        const w = fuelExpansion.compute({ density: rho, volume: f, temperature: t0, otherTemperature: t1 }).otherVolume
        const [p0, p1] = [t0, t1].map(
          (temperature) => petrolVapourPressure.compute({ reid: r, temperature }).vapourPressure,
        ) as [number, number]
        return v - w <= 0
          ? Number.POSITIVE_INFINITY
          : sealedSpace.compute({
              pressure: ATMOSPHERE,
              space: v - f,
              temperature: t0,
              vapour: p0,
              spaceAfter: v - w,
              temperatureAfter: t1,
              vapourAfter: p1,
            }).rise
      },
      'Shut at the air’s pressure and warmed; temperatures, fill and vapour pressure each taken once for the ±',
    )
  const emptyCold = combine([volume, full], (v = 0, f = 0) => v - f, 'Space above the cold fuel')
  const shutSteps = step(sealedSpace, {
    pressure: ATMOSPHERE,
    space: emptyCold,
    temperature: cold,
    vapour: coldVapour,
    spaceAfter: shownSpace,
    temperatureAfter: hot,
    vapourAfter: hotVapour,
  }).rise
  const shutShown: Datum =
    isKnown(shutPressure) && isKnown(shutSteps)
      ? known(shutPressure.value, shutPressure.plusMinus, ...shutSteps.working, ...shutPressure.working)
      : shutPressure
  const shut = make(
    {
      id: 'shut',
      name: 'Vent covered on a slope, or shut by its rollover valve',
      ...(isKnown(shutPressure) && !Number.isFinite(shutPressure.value)
        ? {}
        : {
            pressure:
              tank.relief && isKnown(shutPressure) && tank.relief.value < shutPressure.value
                ? known(
                    tank.relief.value,
                    tank.relief.plusMinus ?? 0,
                    'Held by the relief of cap or second vent',
                    ...(isKnown(shutShown) ? shutShown.working : []),
                  )
                : shutShown,
          }),
      sense: 'pressure',
      limit: pressureLimit,
    },
    [shutPressure, pressureLimit],
    () => {
      const pressure = (shutPressure as Known).value
      if (!Number.isFinite(pressure))
        return ['no-go', 'Warm fuel fills the whole tank: nothing but its walls holds it.']
      const relief = tank.relief?.value
      if (relief !== undefined && relief < pressure)
        return [
          relief < 0.7 * (pressureLimit as Known).value
            ? 'sound'
            : relief > (pressureLimit as Known).value
              ? 'no-go'
              : 'marginal',
          `Shut without relief it would come to ${kPa(pressure)}; the cap or second vent relieves at ${kPa(relief)}, the tank stands ${kPa((pressureLimit as Known).value)}. The relief must stand above the fuel on any slope. Opening the cap then throws vapour and fuel: cold, outdoors, slowly.`,
        ]
      const finite = Number.isFinite((shutPressure as Known).plusMinus) ? shutPressure : known(pressure)
      const verdict = against(finite, pressureLimit)
      return [
        verdict,
        `Parked full and cold with the vent shut, warmed to its hottest: ${kPa(pressure)}; the tank stands ${kPa((pressureLimit as Known).value)}.${verdict === 'no-go' ? ' It needs a second vent whose mouth stays above the fuel on that slope, or a cap that relieves.' : ''} Opening the cap then throws vapour and fuel: cold, outdoors, slowly.`,
      ]
    },
  )
  return [drawn, filled, warmed, vapour, shut]
}

/** Where the vent ends, and its rollover valve: what can be said without knowing the law of the place. */
export const ventWords = (
  chain: FuelChain,
): { readonly verdict: Verdict; readonly says: string; readonly missing: readonly string[] } => {
  const { tank } = chain.facts.fuel
  const missing = [
    ...(tank?.ventEnd === undefined ? ['where the vent ends'] : []),
    ...(tank?.rolloverValve === undefined ? ['whether the vent has a rollover valve'] : []),
  ]
  const end = tank?.ventEnd
  const lines = [
    end === 'open inside the car'
      ? 'The vent ends inside the car: petrol vapour gathers where people and switches are.'
      : end === 'open below the car' || end === 'open elsewhere'
        ? 'An open vent may be unlawful: canister and purge are a choice. It must end low, outside, away from exhaust, switches and the cabin’s air.'
        : end === 'canister'
          ? 'The vent ends in a canister; the canister needs its purge to the intake and its own way to fresh air.'
          : '',
    tank?.rolloverValve === false
      ? 'No rollover valve: on its side the car empties its tank through the vent.'
      : tank?.rolloverValve
        ? 'The rollover valve must stand at the top of the tank and upright; ask the inspector where it may be.'
        : '',
  ].filter((line) => line !== '')
  const verdict: Verdict =
    end === 'open inside the car'
      ? 'no-go'
      : tank?.rolloverValve === false || (end !== undefined && end !== 'canister')
        ? 'marginal'
        : missing.length > 0
          ? 'unknown'
          : 'sound'
  return { verdict, says: lines.join(' ') || 'Nothing is entered about the vent.', missing }
}
