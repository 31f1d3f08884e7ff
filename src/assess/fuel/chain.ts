/** The fuel chain: stations from the tank to the engine, each with what engine power it can feed; the weakest named. */

import { pumpHeat } from '../../engineering/fluids/pumpHeat.ts'
import { airForFuel } from '../../engineering/fuel/airForFuel.ts'
import { FUELS } from '../../engineering/fuel/fuels.ts'
import { injectorDuty } from '../../engineering/fuel/injectorDuty.ts'
import { injectorPower } from '../../engineering/fuel/injectorPower.ts'
import { injectorPressure } from '../../engineering/fuel/injectorPressure.ts'
import { curveFaults } from '../../engineering/fuel/pumpCurve.ts'
import type { Build } from '../../model/build.ts'
import {
  type Chain,
  combine,
  type Datum,
  entered,
  figure,
  isKnown,
  type Known,
  known,
  lacking,
  type Station,
  step,
} from '../chain/chain.ts'
import { supersede } from '../chain/readings.ts'
import type { Verdict } from '../finding.ts'
import { deviceName, kilowatts, percent, volts } from '../make.ts'
import { type Solved, solveCase } from '../solveCases.ts'
import { type Delivery, deliveryOf, regulatedInTank } from './delivery.ts'
import { type FuelFacts, factsOf } from './facts.ts'
import { injectorDeadTime } from './injectorVolts.ts'
import { flowAtLoss, type Loss, ventLoss } from './losses.ts'
import { HIGH, suctionOf, vapourPressureAt } from './suction.ts'

/** Specific heat of petrol, J/(kg·K): Çengel & Boles, table A-3, gasoline 2.08 kJ/(kg·K) at 20 °C [from memory]. */
export const PETROL_HEAT = 2080
/** Flow in hand for wear and a hot tank. Common practice, no published source. */
export const MARGIN = 1.1
/** Share of the rail pressure that filter or line may lose. Common practice, no published source. */
const LOSS_SHARE = 0.1
/** m³/s, beyond any car. */
const FAR = 1e-3

export interface FuelStation extends Station {
  readonly capacity: Datum | undefined
  readonly verdict: Verdict
  readonly says: string
  readonly todo: string
  /** Data that a verdict waits for. */
  readonly missing: readonly string[]
  /** What likely went wrong, where something was refused. */
  readonly problems: readonly string[]
}
export interface FuelChain extends Chain {
  readonly id: 'fuel'
  readonly stations: readonly FuelStation[]
  readonly target: Datum
  /** The station that gives out first, among those whose capacity is known. */
  readonly weakest: FuelStation | undefined
  readonly facts: FuelFacts
  readonly delivery: Delivery
  readonly duty: Datum
}

export const litresPerHour = (flow: number): string => `${(flow * 3.6e6).toFixed(0)} l/h`
export const bar = (pressure: number, digits = 2): string => `${(pressure / 1e5).toFixed(digits)} bar`
const gramsPerMinute = (flow: number): string => `${(flow * 6e4).toFixed(0)} g/min`
const INSPECT = 'Nothing by this arithmetic; have the fuel system inspected.'

type Draft = Omit<FuelStation, 'missing' | 'problems' | 'capacity'> & { readonly capacity?: Datum | undefined }

export const fuelChain = (build: Build, full: Solved | undefined): FuelChain => {
  const facts = factsOf(build, full)
  const { fuel, target, consumption, density: restDensity, hotDensity: density, readings } = facts
  const delivery = deliveryOf(facts)
  const { flow } = delivery
  const powerOf = (volumeFlow: Datum): Datum => {
    const power = combine(
      [volumeFlow, density, consumption],
      (v = 0, rho = 0, b = 1) => (v * rho) / b,
      'P = V·ρ/b: the power that this flow feeds, ρ as hot as the tank gets',
    )
    return isKnown(power) && isKnown(volumeFlow)
      ? known(
          power.value,
          power.plusMinus,
          ...power.working,
          `with numbers: ${(volumeFlow.value * 3.6e6).toFixed(1)} l/h × ${(density as Known).value.toFixed(1)} kg/m³ / ${((consumption as Known).value * 3.6e9).toFixed(0)} g/(kW·h) = ${kilowatts(power.value)}`,
          ...(density as Known).working,
          ...volumeFlow.working,
        )
      : power
  }
  const burnt = combine([target, consumption], (p = 0, b = 0) => p * b, 'Fuel burnt M = P·b at the target power')
  const burntVolume = combine([burnt, density], (m = 0, rho = 1) => m / rho, 'Fuel burnt by volume, M/ρ')
  const targetText = isKnown(target) ? kilowatts(target.value) : 'the target power'

  const judged = (draft: Draft, needed: readonly Datum[]): FuelStation => {
    const without = needed.filter((datum) => !isKnown(datum))
    // What a figure refused is told even where the verdict does not wait for it: it has a cause.
    const refused = [...needed, ...draft.figures.map(({ datum }) => datum)].flatMap((datum) =>
      isKnown(datum) ? [] : datum.problems.map(({ says, todo }) => `${says} ${todo}`),
    )
    return {
      ...draft,
      capacity: draft.capacity,
      missing: [...new Set(without.flatMap((datum) => (isKnown(datum) ? [] : datum.missing)))],
      problems: [...new Set(refused)],
    }
  }
  const against = (capacity: Datum, inHand: number, worst: 'no-go' | 'marginal' = 'no-go'): Verdict => {
    if (!isKnown(capacity) || !isKnown(target)) return 'unknown'
    return capacity.value < target.value
      ? worst
      : capacity.value < inHand * target.value || capacity.value - capacity.plusMinus < target.value
        ? 'marginal'
        : 'sound'
  }
  const pumpName = fuel.pump ? deviceName(build, fuel.pump.device) : 'The fuel pump'

  const tank = (): FuelStation => {
    const vent = ventLoss(facts)
    const vacuum = vent.gaps.length > 0 ? lacking(...vent.gaps) : vent.at(burntVolume)
    const limit = entered(fuel.tank?.greatestVacuum, 'vacuum that the tank stands')
    const most = isKnown(limit) && vent.gaps.length === 0 ? flowAtLoss(vent.pressure, limit.value, FAR) : undefined
    const capacity = !isKnown(limit)
      ? limit
      : vent.gaps.length > 0
        ? lacking(...vent.gaps)
        : most === undefined
          ? undefined
          : powerOf(known(most, 0, `Fuel drawn at which the vent leaves ${bar(limit.value, 3)} of vacuum in the tank`))
    const hot = entered(fuel.hotTemperature, 'hottest fuel in the tank')
    const verdict = capacity === undefined ? 'sound' : against(capacity, MARGIN)
    return judged(
      {
        id: 'tank',
        name: 'Tank and vent',
        about: fuel.tank?.vent ?? 'vent not described',
        figures: [
          figure('burnt', 'fuel drawn at target power', 'V', 'volumeFlow', burntVolume),
          figure('vacuum', 'vacuum that the vent leaves', 'Δp', 'pressureDifference', vacuum),
          figure('hot', 'hottest fuel', 'T', 'temperature', hot, 'entered'),
          figure('vapour', 'its vapour pressure', 'pv', 'pressureAbsolute', vapourPressureAt(facts, hot)),
        ],
        capacity,
        verdict,
        says:
          verdict === 'unknown'
            ? 'Whether the vent lets in what the engine draws is not known.'
            : `The vent lets in what ${targetText} draws${isKnown(vacuum) ? ` at ${(vacuum.value / 1e3).toFixed(2)} kPa of vacuum` : ''}.`,
        todo: verdict === 'sound' ? INSPECT : 'See the cases of the tank.',
      },
      capacity === undefined ? [] : [capacity, target],
    )
  }

  const suction = (): FuelStation => {
    const found = suctionOf(facts, delivery.losses.suction, flow, burntVolume)
    const capacity = found.mostFlow === undefined ? undefined : powerOf(found.mostFlow)
    const verdict: Verdict = !isKnown(found.margin)
      ? 'unknown'
      : found.margin.value < 0
        ? 'no-go'
        : found.margin.value - found.margin.plusMinus < 0 || !isKnown(found.marginHigh) || found.marginHigh.value < 0
          ? 'marginal'
          : 'sound'
    const kilopascal = (datum: Datum): string =>
      isKnown(datum) ? `${(datum.value / 1e3).toFixed(1).replace('-', '−')} kPa` : 'unknown'
    return judged(
      {
        id: 'suction',
        name: 'Strainer and suction line',
        about: 'from the tank to the pump’s inlet; a pump that returns fuel draws its whole flow at any power',
        figures: [
          figure('velocity', 'velocity in the line', 'v', 'speed', delivery.losses.suction.velocity(flow)),
          figure('loss', 'lost on the way', 'Δp', 'pressureDifference', found.loss),
          figure('margin', 'left above boiling, hot, low tank, at sea level', 'm', 'pressureDifference', found.margin),
          figure('margin-high', `the same at ${HIGH} m`, 'm', 'pressureDifference', found.marginHigh),
        ],
        capacity,
        verdict,
        says: isKnown(found.margin)
          ? `With the hottest fuel and a low tank ${kilopascal(found.margin)} are left above boiling at the pump’s inlet at sea level, ${kilopascal(found.marginHigh)} at ${HIGH} m.`
          : 'How near the fuel comes to boiling at the pump’s inlet is not known.',
        todo:
          verdict === 'sound'
            ? INSPECT
            : 'Bring the pump below the fuel or into the tank, a wider and shorter suction line, a clean strainer, and keep the tank cool: the less fuel returns hot, the cooler it stays.',
      },
      [found.margin],
    )
  }

  const pump = (): FuelStation => {
    const capacity = powerOf(flow)
    const power = combine([facts.volts, facts.amps], (u = 0, i = 0) => u * i, 'Power into the pump, U·I')
    const heat = step(pumpHeat, { power, flow, pressure: delivery.across, density, heat: PETROL_HEAT })
    const faults = curveFaults((fuel.pump?.curve ?? []).map(([pressure, at]) => [pressure.value, at.value]))
    const first = against(capacity, MARGIN)
    // What is fed and not described can only take volts from the pump.
    const doubtful =
      facts.hidden.length > 0 &&
      !readings['fuel-pump-volts'] &&
      (first === 'sound' || (isKnown(facts.volts) && facts.volts.value < 0.5))
    const verdict = doubtful ? 'unknown' : first
    const at = isKnown(delivery.across) ? bar(delivery.across.value) : 'its pressure'
    return judged(
      {
        id: 'pump',
        name: pumpName,
        about: fuel.pump ? 'at its solved volts, against rail, boost and losses' : 'no pump entered',
        figures: [
          supersede(
            'volts',
            'volts at the pump, full load',
            'U',
            'voltage',
            facts.solvedVolts,
            readings['fuel-pump-volts'],
          ),
          figure('amps', 'current', 'I', 'current', facts.amps),
          figure('across', 'pressure across the pump', 'p', 'pressureDifference', delivery.across),
          figure('flow', 'flow there', 'V', 'volumeFlow', flow),
          figure('heat', 'heat into the fuel in one pass', 'ΔT', 'temperatureDifference', heat.rise),
          figure('efficiency', 'of its power becomes pressure', 'η', 'ratio', heat.efficiency),
        ],
        capacity,
        verdict,
        says:
          isKnown(capacity) && isKnown(facts.volts) && isKnown(flow)
            ? `${pumpName} gets ${volts(facts.volts.value)} at full load and gives ${litresPerHour(flow.value)} at ${at}: enough for ${kilowatts(capacity.value)} of the ${targetText} aimed at.${delivery.notCounted.length > 0 ? ' Losses on the way that are not entered are not counted.' : ''}`
            : 'Whether the fuel pump feeds the target power is not known.',
        todo:
          verdict === 'sound'
            ? INSPECT
            : verdict === 'marginal'
              ? `Keep more than ${percent(MARGIN - 1)} in hand: raise the voltage at the pump, or fit a larger pump.`
              : isKnown(burntVolume) && isKnown(facts.volts)
                ? `Raise the voltage at the pump (thicker feed and earth, see its load-voltage finding), or fit a pump that gives ${litresPerHour(burntVolume.value * MARGIN)} at ${at} and ${volts(facts.volts.value)}.`
                : 'Enter what is missing.',
      },
      [
        capacity,
        target,
        ...(doubtful ? [lacking(...facts.hidden)] : []),
        ...(faults.length > 0 ? [{ missing: [], problems: faults }] : []),
      ],
    )
  }

  /** Filter and pressure line: the flow at which its loss takes a tenth of the rail pressure. */
  const onTheWay = (id: 'filter' | 'feed', name: string, about: string, loss: Loss, reading?: Known): FuelStation => {
    const allowed = combine([facts.rail], (p = 0) => p * LOSS_SHARE, '')
    const burnsOnly = id === 'feed' && regulatedInTank(facts)
    const carried = burnsOnly ? burntVolume : flow
    const at = burnsOnly ? 'what is burnt' : 'the pump’s flow'
    const computed = loss.at(carried)
    const lost = reading ?? computed
    const measuredPressure =
      reading && isKnown(flow) ? (at: number) => reading.value * (at / flow.value) ** 2 : undefined
    const pressure = reading ? measuredPressure : loss.gaps.length > 0 ? undefined : loss.pressure
    const most = pressure && isKnown(allowed) ? flowAtLoss(pressure, allowed.value, FAR) : undefined
    const capacity: Datum | undefined = !isKnown(allowed)
      ? allowed
      : pressure === undefined
        ? reading
          ? flow
          : lacking(...loss.gaps)
        : most === undefined
          ? undefined
          : powerOf(
              known(
                most,
                0,
                `Flow at which it loses ${percent(LOSS_SHARE)} of the rail pressure, ${bar(allowed.value)} (common practice, no published source)`,
                ...(isKnown(lost) ? lost.working : []),
              ),
            )
    const verdict = capacity === undefined ? 'sound' : against(capacity, MARGIN, 'marginal')
    const rated = fuel.filter?.ratedFlow
    const beyondRating = id === 'filter' && rated !== undefined && isKnown(flow) && flow.value > rated.value
    const worse = reading && isKnown(computed) && reading.value - reading.plusMinus > 2 * computed.value
    return judged(
      {
        id,
        name,
        about,
        figures: [
          ...(id === 'feed'
            ? [figure('velocity', 'velocity in the narrowest', 'v', 'speed', loss.velocity(carried))]
            : []),
          id === 'filter'
            ? supersede(
                'loss',
                'lost at the pump’s flow',
                'Δp',
                'pressureDifference',
                computed,
                readings['fuel-filter-loss'],
              )
            : figure('loss', `lost at ${at}`, 'Δp', 'pressureDifference', computed),
        ],
        capacity,
        verdict: worse || beyondRating ? (verdict === 'sound' ? 'marginal' : verdict) : verdict,
        says: isKnown(lost)
          ? `The ${name.toLowerCase()} loses ${bar(lost.value, 3)} at ${at}${worse ? `, where its sheet gives ${bar((computed as Known).value, 3)}: it is blocked or the wrong part` : ''}${beyondRating ? '; the flow is beyond its rating' : ''}.`
          : `What the ${name.toLowerCase()} loses is not known.`,
        todo:
          verdict === 'sound' && !worse && !beyondRating
            ? INSPECT
            : verdict === 'unknown'
              ? 'Enter what is missing, or measure before and after it at full flow.'
              : worse
                ? 'Fit a new filter and measure again.'
                : 'Fit a larger one.',
      },
      capacity === undefined ? [] : [capacity, target],
    )
  }

  const rail = (): FuelStation => {
    const returns = delivery.losses.return
    const back = returns.at(flow)
    const least = fuel.regulator?.leastFlow
    const spare = combine(
      [flow, burntVolume],
      (v = 0, u = 0) => v - u,
      'Returned at target power: pump flow less fuel burnt',
    )
    const capacity = least
      ? powerOf(
          combine(
            [flow, entered(least, 'return that the regulator needs')],
            (v = 0, r = 0) => v - r,
            'Pump flow less the return that the regulator needs',
          ),
        )
      : undefined
    const allowed = isKnown(facts.rail) ? facts.rail.value * LOSS_SHARE : undefined
    const tooMuch = !regulatedInTank(facts) && isKnown(back) && allowed !== undefined && back.value > allowed
    const starved = least !== undefined && capacity !== undefined && against(capacity, 1) === 'no-go'
    const noReturn = regulatedInTank(facts)
    const verdict: Verdict = starved
      ? 'no-go'
      : tooMuch
        ? 'marginal'
        : capacity
          ? against(capacity, 1)
          : noReturn || isKnown(back)
            ? 'sound'
            : 'unknown'
    return judged(
      {
        id: 'rail',
        name: 'Rail, regulator and return',
        about: `regulator ${fuel.regulator?.place ?? 'not described'}, referenced to ${fuel.railReference === undefined ? 'what is not entered' : `the ${fuel.railReference}`}`,
        figures: [
          supersede(
            'rail',
            'rail above its reference',
            'p',
            'pressureGauge',
            entered(fuel.railPressure, 'rail pressure'),
            readings['fuel-rail-pressure'],
            'entered',
          ),
          figure(
            'injectors',
            'across the injectors at full load',
            'Δp',
            'pressureDifference',
            facts.railAcrossInjectors,
          ),
          figure('return', 'left to return at target power', 'V', 'volumeFlow', spare),
          ...(noReturn
            ? []
            : [figure('back', 'back-pressure of the return at idle', 'Δp', 'pressureDifference', back)]),
        ],
        capacity,
        verdict,
        says: starved
          ? `At ${targetText} less returns than the ${litresPerHour(least.value)} that the regulator needs: rail pressure falls away.`
          : tooMuch
            ? `With the engine idling the return line holds ${bar((back as Known).value, 3)} against the regulator: rail pressure then rises above what is set.`
            : noReturn
              ? 'The regulator in the tank spills there: no line returns, and the line to the rail carries what is burnt.'
              : isKnown(back)
                ? `The return line takes the pump’s whole flow with ${bar(back.value, 3)}.${isKnown(spare) && spare.value < 0 ? ` At ${targetText} nothing is left to return and rail pressure falls away: the pump lacks it, not this line.` : ''}`
                : 'What the return line holds against the regulator is not known.',
        todo:
          verdict === 'sound'
            ? INSPECT
            : starved
              ? 'Raise what the pump gives: see the pump.'
              : tooMuch
                ? 'Fit a wider or shorter return line.'
                : 'Enter what is missing.',
      },
      [...(noReturn ? [] : [back]), ...(capacity ? [capacity] : [])],
    )
  }

  let duty: Datum = lacking('injectors')
  const injectors = (): FuelStation => {
    const set = fuel.injectors
    const card = set?.card
    const flowAsTested = card ? entered(card.slope, 'slope of the injector card') : entered(set?.flow, 'injector flow')
    const across = facts.railAcrossInjectors
    const computed: Datum = !set
      ? lacking('injectors')
      : step(injectorPressure, {
          flow: flowAsTested,
          testPressure: card ? entered(card.pressure, '') : entered(set.flowPressure, 'the pressure of that flow'),
          // Without a card the flow is entered for the fuel in use, tested cool; which fuel that is cancels.
          testDensity: card
            ? entered(card.fluid.density, '')
            : isKnown(restDensity)
              ? known(restDensity.value)
              : known(745),
          pressure: across,
          density: card || isKnown(density) ? density : known(745),
        }).flowInUse
    const reading = readings['injector-static-flow']
    const inUse = reading ?? computed
    const count = set?.count ?? 1
    duty = set
      ? step(injectorDuty, { power: target, specificConsumption: consumption, count, flow: inUse }).duty
      : lacking('injectors')
    const capacity = step(injectorPower, {
      count,
      flow: inUse,
      duty: facts.dutyLimit,
      specificConsumption: consumption,
    }).power
    const commanded = combine(
      [duty, injectorDeadTime(facts), entered(build.sheets.engine?.targetSpeed, 'speed at target power')],
      // Sequential: one pulse of each in two turns, 4π rad.
      (share = 0, dead = 0, speed = 0) => share + (dead * speed) / (4 * Math.PI),
      'Commanded share of time = duty + dead time × speed / 4π: one pulse of each injector in two turns (sequential)',
    )
    const limit = fuel.dutyLimit
    const verdict: Verdict =
      isKnown(duty) && limit !== undefined
        ? duty.value > limit
          ? 'no-go'
          : duty.value > 0.95 * limit || duty.value + duty.plusMinus > limit
            ? 'marginal'
            : 'sound'
        : 'unknown'
    return judged(
      {
        id: 'injectors',
        name: 'Injectors',
        about: set ? `${set.count}, ${card ? `card “${card.name}”` : 'by the sheet'}` : 'none entered',
        figures: [
          supersede('flow', 'static flow of each, in use', 'Q', 'massFlow', computed, reading),
          figure('duty', `duty at ${targetText}`, 'D', 'ratio', duty),
          figure('commanded', 'commanded, dead time added', 'D′', 'ratio', commanded),
        ],
        capacity,
        verdict,
        says:
          isKnown(duty) && isKnown(inUse) && limit !== undefined
            ? `${count} injectors of ${gramsPerMinute(inUse.value)} need ${percent(duty.value)} duty for ${targetText}; the limit is ${percent(limit)}.${isKnown(commanded) && commanded.value > 1 ? ` With dead time the command is ${percent(commanded.value)} of the time there is: they never close.` : ''}`
            : 'Injector duty at target power is not known.',
        todo:
          verdict === 'sound'
            ? INSPECT
            : isKnown(duty) && limit !== undefined && isKnown(inUse) && isKnown(across) && isKnown(target)
              ? `Fit injectors of at least ${gramsPerMinute((inUse.value * duty.value) / limit)} at ${bar(across.value, 1)}, or aim at ${kilowatts((target.value * limit) / duty.value)}.`
              : 'Enter what is missing.',
      },
      [duty, facts.dutyLimit],
    )
  }

  const engine = (): FuelStation => {
    const s = fuel.fuel === undefined ? lacking('fuel') : known(FUELS[fuel.fuel].stoichiometric)
    const air = step(airForFuel, {
      fuel: burnt,
      lambda: entered(fuel.lambda, 'lambda at full load'),
      stoichiometric: s,
    }).air
    return judged(
      {
        id: 'engine',
        name: 'Engine',
        about: build.sheets.engine?.name ?? 'not entered',
        figures: [
          figure('target', 'target power', 'P', 'power', target, 'entered'),
          figure(
            'consumption',
            'specific consumption',
            'b',
            'specificFuelConsumption',
            consumption,
            fuel.consumptionFuel ? 'computed' : 'entered',
          ),
          figure('fuel', 'fuel burnt', 'M', 'massFlow', burnt),
          figure('air', 'air that goes with it', 'A', 'massFlow', air),
        ],
        verdict: isKnown(burnt) ? 'sound' : 'unknown',
        says: isKnown(burnt)
          ? `${targetText} burn ${gramsPerMinute(burnt.value)}; lambda makes the air of it, never more fuel.`
          : 'What the engine burns is not known.',
        todo: isKnown(burnt) ? 'Nothing.' : 'Enter what is missing.',
      },
      [burnt],
    )
  }

  const stations = [
    tank(),
    suction(),
    pump(),
    onTheWay('filter', 'Filter', 'between pump and rail', delivery.losses.filter, readings['fuel-filter-loss']),
    onTheWay('feed', 'Pressure line', 'from the pump to the rail', delivery.losses.feed),
    rail(),
    injectors(),
    engine(),
  ]
  const limited = stations.filter(({ capacity }) => capacity !== undefined && isKnown(capacity))
  const weakest = limited.reduce<FuelStation | undefined>(
    (least, station) =>
      least === undefined || (station.capacity as Known).value < (least.capacity as Known).value ? station : least,
    undefined,
  )
  return { id: 'fuel', title: 'Fuel', stations, target, weakest, facts, delivery, duty }
}

/** The chain of a build by itself, for a screen that tries something: only the full-load case is solved. */
export const fuelChainOf = (build: Build): FuelChain => {
  const kase = Object.values(build.collections.cases).find(({ engine }) => engine === 'full load')
  return fuelChain(build, kase === undefined ? undefined : solveCase(build, kase))
}
