/** Rules `pump-supports-power` and `injector-duty`: whether the fuel system feeds the target power. */
import { run, type UncertainValues, working, workingLines } from '../engineering/calculation.ts'
import { injectorDemand } from '../engineering/fuel/injectorDemand.ts'
import { injectorDuty } from '../engineering/fuel/injectorDuty.ts'
import { injectorPressure } from '../engineering/fuel/injectorPressure.ts'
import { pumpDemand } from '../engineering/fuel/pumpDemand.ts'
import { pumpFlow } from '../engineering/fuel/pumpFlow.ts'
import type { Build } from '../model/build.ts'
import { Refusal } from '../units/problem.ts'
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import {
  deviceName,
  deviceZone,
  endpointOf,
  FUEL_CAUTION,
  finding,
  kilowatts,
  list,
  own,
  percent,
  QUALIFIED_FUEL,
  volts,
} from './make.ts'
import { chain, FED_VOLTS, hiddenDraws } from './solveCases.ts'

/** Standard atmosphere (ISO 2533): what the intake is at where the sheet has a ratio only. */
const ATMOSPHERE = 101325
/** Flow in hand for wear and a hot tank. Common practice, no published source. */
const MARGIN = 1.1

const present = (gaps: readonly (string | false | undefined)[]): string[] =>
  gaps.filter((gap): gap is string => typeof gap === 'string')

/** Boost above atmosphere at target power, Pa; 0 without a charger, undefined when not entered. */
const boostOf = ({ sheets }: Build): number | undefined => {
  if (sheets.engine?.charging === 'none') return 0
  const ratio = sheets.air?.pressureRatio?.value
  return ratio === undefined ? undefined : (ratio - 1) * ATMOSPHERE
}

const sheetFinding = (rule: string, about: string) =>
  ({ rule, system: 'fuel', subject: 'sheet/fuel', about, cautions: [FUEL_CAUTION, QUALIFIED_FUEL] }) as const

export const pumpFindings = (context: Context): Finding[] => {
  const { build, cases, figures } = context
  const { fuel, engine } = build.sheets
  if (!fuel?.pump) return []
  const pump = own(build.collections.devices, fuel.pump.device)
  const base = {
    ...sheetFinding('pump-supports-power', 'Fuel pump against target power'),
    zone: deviceZone(build, fuel.pump.device),
  }
  const full = cases.find(({ kase }) => kase.engine === 'full load')
  const load = pump?.loads?.[0]
  const [a, b] = load ? [load.from, load.to].map((pin) => full?.voltages[endpointOf(pump!.id, pin)]) : []
  const unsure =
    full && load
      ? [
          ...chain(full, full.bound.nodeOf(endpointOf(pump!.id, load.from)), 'up'),
          ...chain(full, full.bound.nodeOf(endpointOf(pump!.id, load.to)), 'down'),
        ]
          .filter(({ element }) => full.bound.unsure.has(element))
          .map(({ element }) => `cross-section, material or length of ${element.replace('wire:', '')}`)
      : []
  const sources = full
    ? full.missing
        .filter(({ subject }) =>
          ['battery', 'alternator'].includes(
            own(build.collections.devices, subject.split('/')[1] ?? '')?.spec.kind ?? '',
          ),
        )
        .map(({ subject, datum }) => `${datum} of ${deviceName(build, subject.split('/')[1]!)}`)
    : []
  const boost = boostOf(build)
  const across =
    fuel.railPressure && fuel.railReference
      ? fuel.railReference === 'manifold'
        ? boost === undefined
          ? undefined
          : fuel.railPressure.value + boost
        : fuel.railPressure.value
      : undefined
  const curve = [...(fuel.pump.curve ?? [])].sort((x, y) => x[0].value - y[0].value)
  const gaps = present([
    !pump && `the pump ${fuel.pump.device} among the devices`,
    pump && !load?.law && `what ${pump.name} draws`,
    !full && 'an operating case at full load',
    ...unsure,
    ...sources,
    full && (a == null || b == null) && 'the solved voltage at the pump in the full-load case',
    curve.length < 2 && 'the pump’s flow curve',
    !fuel.pump.ratedVoltage && 'the voltage of that curve',
    fuel.pump.voltageExponent === undefined && 'how its flow goes with voltage (exponent)',
    !fuel.railPressure && 'rail pressure',
    !fuel.railReference && 'what the rail pressure is referenced to',
    fuel.railReference === 'manifold' && boost === undefined && 'pressure ratio at target power',
    !fuel.density && 'density of the fuel',
    !fuel.specificConsumption && 'specific fuel consumption',
    !engine?.targetPower && 'target power',
  ])
  const unknown = (missing: readonly string[]) =>
    finding({
      ...base,
      verdict: 'unknown',
      says: `Whether the fuel pump feeds the target power is not known: ${list(missing)} ${missing.length === 1 ? 'is' : 'are'} missing.`,
      todo: `Enter ${list(missing)}.`,
      missing: list(missing),
    })
  if (gaps.length > 0 || a == null || b == null || across === undefined)
    return [unknown(gaps.length > 0 ? gaps : ['rail pressure'])]
  const voltage = a - b
  const hidden = full
    ? hiddenDraws(full).map(({ subject, datum }) => `${datum} of ${deviceName(build, subject.split('/')[1]!)}`)
    : []
  // Dead, while a relay or a neighbour is not described: that may be why.
  if (hidden.length > 0 && voltage < FED_VOLTS) return [unknown(hidden)]
  figures.pumpVolts = voltage
  const index = curve.findIndex(([pressure]) => pressure.value >= across)
  if (index < 1 && !(index === 0 && curve[0]![0].value === across))
    return [unknown([`a point of the pump’s curve at or beyond ${(across / 1e5).toFixed(2)} bar`])]
  const [low, high] = [curve[Math.max(index - 1, 0)]!, curve[Math.max(index, 1)]!]
  const given = {
    firstPressure: low[0].value,
    firstFlow: low[1].value,
    secondPressure: high[0].value,
    secondFlow: high[1].value,
    ratedVoltage: fuel.pump.ratedVoltage!.value,
    pressure: across,
    voltage,
    exponent: fuel.pump.voltageExponent!,
  }
  const target = engine!.targetPower!.value
  const consumption = fuel.specificConsumption!.value
  const density = fuel.density!.value
  let flow: number
  try {
    flow = run(pumpFlow, given).outputs.flow
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    if (voltage >= 3) return [unknown(error.problems.map(({ says }) => says))]
    flow = 0
  }
  const power = (flow * density) / consumption
  figures.pumpFlow = flow
  figures.powerSupportedByPump = power
  const litres = (value: number) => `${(value * 3.6e6).toFixed(0)} l/h`
  const needed = run(pumpDemand, { power: target, specificConsumption: consumption, density }).outputs.flow
  const verdict = power < target ? 'no-go' : power < MARGIN * target ? 'marginal' : 'sound'
  // What is fed and not described can only take volts from the pump.
  if (hidden.length > 0 && verdict === 'sound') return [unknown(hidden)]
  return [
    finding({
      ...base,
      verdict,
      says: `${pump!.name} gets ${volts(voltage)} at full load and gives ${litres(flow)} at ${(across / 1e5).toFixed(2)} bar: enough for ${kilowatts(power)} of the ${kilowatts(target)} aimed at.`,
      todo:
        verdict === 'sound'
          ? 'Nothing; have the fuel system inspected.'
          : verdict === 'marginal'
            ? `Keep more than ${percent(MARGIN - 1)} in hand: raise the voltage at the pump, or fit a larger pump.`
            : `Raise the voltage at the pump (thicker feed and earth, see its load-voltage finding), or fit a pump that gives ${litres(needed * MARGIN)} at ${(across / 1e5).toFixed(2)} bar and ${volts(voltage)}.`,
      working: [
        ...(voltage >= 3 ? workingLines(working(pumpFlow, given)) : [`Below 3 V no pump runs: ${volts(voltage)}.`]),
        ...workingLines(working(pumpDemand, { power: target, specificConsumption: consumption, density })),
        `P = V·ρ/b = ${kilowatts(power)}`,
        `Pressure across the pump: rail ${(fuel.railPressure!.value / 1e5).toFixed(2)} bar${fuel.railReference === 'manifold' ? ` and boost ${(boost! / 1e5).toFixed(2)} bar at a standard atmosphere (ISO 2533)` : ''}; losses in filter and line not counted.`,
        'Margin 10 %: common practice, no published source.',
      ],
    }),
  ]
}

export const injectorFindings = ({ build, figures }: Context): Finding[] => {
  const { fuel, engine } = build.sheets
  if (!fuel?.injectors) return []
  const base = sheetFinding('injector-duty', 'Injector duty at target power')
  const { injectors } = fuel
  const boost = boostOf(build)
  const manifold = fuel.railReference === 'manifold'
  const gaps = present([
    !engine?.targetPower && 'target power',
    !fuel.specificConsumption && 'specific fuel consumption',
    !injectors.flow && 'injector flow',
    !injectors.flowPressure && 'the pressure of that flow',
    !fuel.railPressure && 'rail pressure',
    !fuel.railReference && 'what the rail pressure is referenced to',
    fuel.railReference === 'atmosphere' && boost === undefined && 'pressure ratio at target power',
    fuel.dutyLimit === undefined && 'duty limit',
  ])
  if (gaps.length > 0)
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `Injector duty at target power is not known: ${list(gaps)} ${gaps.length === 1 ? 'is' : 'are'} missing.`,
        todo: `Enter ${list(gaps)}.`,
        missing: list(gaps),
      }),
    ]
  const density = fuel.density?.value ?? 745
  const pressure = manifold ? fuel.railPressure!.value : fuel.railPressure!.value - boost!
  const limit = fuel.dutyLimit!
  const uncertain = (measure: { value: number; plusMinus?: number | undefined }) => ({
    value: measure.value,
    plusMinus: measure.plusMinus ?? 0,
  })
  try {
    const inUse = run(injectorPressure, {
      flow: injectors.flow!.value,
      testPressure: injectors.flowPressure!.value,
      // The same fluid in both: the flow is entered for the fuel in use, so density cancels.
      testDensity: density,
      pressure,
      density,
    }).outputs.flowInUse
    const given = {
      power: engine!.targetPower!.value,
      specificConsumption: fuel.specificConsumption!.value,
      count: injectors.count,
      flow: inUse,
    }
    const { duty } = run(injectorDuty, given).outputs
    figures.injectorDuty = duty
    const grams = (flow: number) => `${(flow * 6e4).toFixed(0)} g/min`
    const needed = run(injectorDemand, { ...pick(given), duty: limit }).outputs.flow
    const verdict = duty > limit ? 'no-go' : duty > 0.95 * limit ? 'marginal' : 'sound'
    const shown: UncertainValues<typeof injectorDuty.inputs> = {
      ...given,
      specificConsumption: uncertain(fuel.specificConsumption!),
      flow: { value: inUse, plusMinus: ((injectors.flow!.plusMinus ?? 0) * inUse) / injectors.flow!.value },
    }
    return [
      finding({
        ...base,
        verdict,
        says: `${injectors.count} injectors of ${grams(inUse)} need ${percent(duty)} duty for ${kilowatts(given.power)}; the limit is ${percent(limit)}.`,
        todo:
          verdict === 'sound'
            ? 'Nothing; have the fuel system inspected.'
            : `Fit injectors of at least ${grams(needed)} at ${(pressure / 1e5).toFixed(1)} bar, or aim at ${kilowatts((given.power * limit) / duty)}.`,
        working: workingLines(working(injectorDuty, shown)),
      }),
    ]
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `Injector duty cannot be worked out: ${error.problems[0]!.says}`,
        todo: error.problems[0]!.todo,
        missing: 'figures of the fuel sheet within their range',
      }),
    ]
  }
}

const pick = ({
  power,
  specificConsumption,
  count,
}: {
  power: number
  specificConsumption: number
  count: number
}) => ({
  power,
  specificConsumption,
  count,
})
