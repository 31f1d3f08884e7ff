/**
 * Rules of the air: `charge-temperature`, `charge-cooler-effectiveness`, `charge-reading-impossible`, `charge-water-flow`,
 * `intake-heat-soak`, `intake-loss`, `air-supports-power`. From the sheets and stored readings, never from logs.
 */

import type { Build } from '../../model/build.ts'
import type { Datum, Known } from '../chain/chain.ts'
import { entered, isKnown } from '../chain/chain.ts'
import { type Judged, waitsFor, withVerdicts } from '../chain/judged.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { celsius, finding, HOT_CAUTION, kilowatts, list, percent, volts } from '../make.ts'
import { type AirChain, airChain, airChainOf } from './chain.ts'

const BASE = { system: 'air', subject: 'sheet/air', cautions: [HOT_CAUTION] } as const
/** K of warming that is worth a better place for the intake. Common practice, no published source. */
const SOAKED = 10
/** Pa; restriction gauges of air filters trip at 5 to 6 kPa. Common practice, no published source. */
const RESTRICTED = 5e3
/** Share of its rated flow below which the water pump is starved. Common practice, no published source. */
const STARVED = 0.9

const doubt = ({ plusMinus }: Known, unit: string): string =>
  plusMinus > 0 ? ` ± ${plusMinus.toPrecision(2)} ${unit}` : ''
const kilopascal = (pressure: number): string => `${(pressure / 1e3).toFixed(1)} kPa`
const lines = (...data: readonly Datum[]): string[] => data.flatMap((datum) => (isKnown(datum) ? datum.working : []))

const effectivenessFinding = ({ charge, facts }: AirChain): Judged[] => {
  const found = facts.readings['charge-cooler-effectiveness']
  const { expected } = charge
  if (!found || !isKnown(expected)) return []
  const sheet = facts.air.chargeCooler?.expectedEffectiveness
  const against = sheet ? { value: sheet.value, plusMinus: sheet.plusMinus ?? 0 } : expected
  const short = found.value + found.plusMinus < against.value - against.plusMinus
  const impossible = found.value > 1 || found.value < 0
  const digits = found.plusMinus > 0 && found.plusMinus < 0.01 ? 3 : 2
  return [
    {
      station: 'cooler',
      finding: finding({
        ...BASE,
        rule: 'charge-cooler-effectiveness',
        verdict: short || impossible ? 'marginal' : 'sound',
        about: 'Effectiveness of the charge cooler',
        says: `Measured ${found.value.toFixed(digits)} ± ${found.plusMinus.toPrecision(1)} (reading ${found.id}) against ${against.value.toFixed(2)} expected${sheet && charge.expectedBy === 'effectiveness–NTU' ? `, ${expected.value.toFixed(2)} by effectiveness–NTU` : ''}${impossible ? '. No cooler is over 1 or below 0: two sensors are swapped, or soaked with heat' : ''}.`,
        todo: impossible
          ? 'Look whether outlet and cold reference are swapped; measure again once driving.'
          : short
            ? 'Look at the water pump’s voltage and direction, trapped air, and the air that reaches the front exchanger.'
            : 'Nothing.',
        working: [...found.working, '± compared on both sides.', ...lines(expected)],
      }),
    },
  ]
}

const temperatureFinding = (chain: AirChain, figures: Record<string, number>): Judged[] => {
  const { charge, facts } = chain
  const { air, readings } = facts
  const cooler = air.chargeCooler
  if (!cooler && !air.chargeTemperatureLimit) return []
  const base = { ...BASE, rule: 'charge-temperature', about: 'Charge temperature at target power' } as const
  const station = cooler && chain.stations.some(({ id }) => id === 'cooler') ? 'cooler' : 'engine'
  const limit = entered(air.chargeTemperatureLimit, 'limit of charge temperature')
  const { out } = charge
  if (!isKnown(out) || !isKnown(limit)) {
    const { missing, says } = waitsFor(out, limit)
    return [
      {
        station,
        finding: finding({
          ...base,
          verdict: 'unknown',
          says: `Charge temperature at target power is not known${says === '' ? `: ${list(missing)} ${missing.length === 1 ? 'is' : 'are'} missing` : ''}.${says === '' ? '' : ` ${says}`}`,
          todo: `Enter ${list(missing)}.`,
          missing: list(missing),
        }),
      },
    ]
  }
  figures.chargeTemperature = out.value
  const verdict =
    out.value - out.plusMinus > limit.value ? 'no-go' : out.value + out.plusMinus > limit.value ? 'marginal' : 'sound'
  const { hot, cold } = charge
  const wanted =
    cooler && isKnown(hot) && isKnown(cold) && hot.value > cold.value
      ? ((hot.value - limit.value) / (hot.value - cold.value)).toFixed(2)
      : 'more than it has'
  return [
    {
      station,
      finding: finding({
        ...base,
        verdict,
        says: `The charge reaches ${celsius(out.value)}${doubt(out, 'K')} at target power; the limit is ${celsius(limit.value)}.`,
        todo:
          verdict === 'sound'
            ? 'Nothing.'
            : `Bring the charge cooler to an effectiveness of ${wanted}, or lower the pressure ratio; keep load off the engine till then.`,
        working: [
          ...lines(hot),
          ...lines(out),
          ...(cooler
            ? [
                readings['charge-cooler-effectiveness']
                  ? `ε from reading ${readings['charge-cooler-effectiveness'].id}`
                  : `ε by ${charge.expectedBy}, not measured`,
              ]
            : []),
        ],
      }),
    },
  ]
}

const impossibleFinding = ({ charge, facts }: AirChain): Judged[] => {
  const { impliedEfficiency: implied } = charge
  if (implied === undefined || !isKnown(implied) || (implied.value > 0 && implied.value <= 1)) return []
  const reading = facts.readings['charge-temperature-before-cooler']!
  return [
    {
      station: 'compressor',
      finding: finding({
        ...BASE,
        rule: 'charge-reading-impossible',
        verdict: 'marginal',
        about: 'Temperature after the compressor',
        says: `Reading ${reading.id} (${celsius(reading.value)}) would make the compressor’s efficiency ${percent(implied.value)}: no air leaves a compressor cooler than loss-free compression makes it.`,
        todo: 'Look whether the sensors before and after the cooler are swapped, whether the sensor lags a short pull, or the pressure ratio is that of another moment.',
        working: lines(implied),
      }),
    },
  ]
}

const waterFinding = ({ charge, facts }: AirChain): Judged[] => {
  const rated = facts.air.chargeCooler?.loop?.flow
  if (facts.air.chargeCooler?.kind !== 'air to water' || rated === undefined || !isKnown(charge.flow)) return []
  const share = charge.flow.value / rated.value
  const starved = share < STARVED
  const reading = facts.readings['charge-cooler-water-flow']
  const litres = (flow: number): string => `${(flow * 6e4).toFixed(1)} l/min`
  const pump = facts.pump.volts
  return [
    {
      station: 'loop',
      finding: finding({
        ...BASE,
        rule: 'charge-water-flow',
        verdict: starved ? 'marginal' : 'sound',
        about: 'Flow of the charge cooler’s water',
        says: `The loop runs ${litres(charge.flow.value)}${reading ? ` as measured (reading ${reading.id})` : isKnown(pump) ? ` at ${volts(pump.value)}` : ''}, ${percent(share)} of what the pump is rated for in it${reading && isKnown(charge.pumpFlow) ? `; its volts alone would give ${litres(charge.pumpFlow.value)}` : ''}.`,
        todo: !starved
          ? 'Nothing.'
          : reading && isKnown(charge.pumpFlow) && charge.pumpFlow.value > STARVED * rated.value
            ? 'Volts are there, water is not: bleed the loop at its highest point, look for a kinked hose and the pump’s direction.'
            : 'Raise the voltage at the pump: thicker feed and earth, see its load-voltage finding.',
        working: lines(charge.pumpFlow, charge.flow),
      }),
    },
  ]
}

const intakeFindings = ({ intake, facts }: AirChain): Judged[] => {
  const found: Judged[] = []
  const { rise, lost, temperature, loss } = intake
  if (isKnown(rise) && isKnown(lost) && isKnown(temperature)) {
    const soaked = rise.value > SOAKED
    const cold = rise.value + rise.plusMinus < 0
    found.push({
      station: 'intake',
      finding: finding({
        ...BASE,
        rule: 'intake-heat-soak',
        verdict: soaked || cold ? 'marginal' : 'sound',
        about: 'Where the engine draws its air',
        says: cold
          ? `The intake air would be ${Math.abs(rise.value).toFixed(0)} K colder than the air outside, which nothing there can make it.`
          : `The engine draws air ${rise.value.toFixed(0)} K${doubt(rise, 'K')} above outside; that costs ${percent(lost.value)} of the air.`,
        todo: cold
          ? 'Look at the intake sensor, or at the ambient temperature of the full-load case.'
          : soaked
            ? 'Draw from before the radiator through a sealed pipe, shielded from the exhaust; measure again driving, not standing.'
            : 'Nothing.',
        working: lines(temperature, rise, lost),
      }),
    })
  }
  if (isKnown(loss) && (facts.air.filter || facts.readings['intake-pressure-loss'])) {
    const much = loss.value > RESTRICTED
    const reading = facts.readings['intake-pressure-loss']
    found.push({
      station: 'filter',
      finding: finding({
        ...BASE,
        rule: 'intake-loss',
        verdict: much ? 'marginal' : 'sound',
        about: 'Filter and intake pipe',
        says: `Filter and pipe lose ${kilopascal(loss.value)}${reading ? ` as measured (reading ${reading.id})` : ''} at target power.`,
        todo: much ? 'Fit a clean or larger filter, a wider or straighter pipe, and measure again.' : 'Nothing.',
        working: lines(intake.filterLoss, intake.pipesLoss, loss),
      }),
    })
  }
  return found
}

const powerFinding = ({ power, facts }: AirChain, figures: Record<string, number>): Judged[] => {
  const base = { ...BASE, rule: 'air-supports-power', about: 'Air for the target power' } as const
  if (!isKnown(power) || !isKnown(facts.target)) {
    const { missing, says } = waitsFor(power, facts.target)
    return [
      {
        station: 'engine',
        finding: finding({
          ...base,
          verdict: 'unknown',
          says: `Whether the engine gets the air for its target power is not known${says === '' ? '' : `. ${says}`}${says === '' ? `: ${list(missing)} ${missing.length === 1 ? 'is' : 'are'} missing.` : ''}`,
          todo: `Enter ${list(missing)}.`,
          missing: list(missing),
        }),
      },
    ]
  }
  figures.powerSupportedByAir = power.value
  const target = facts.target.value
  const verdict = power.value < target ? 'marginal' : 'sound'
  return [
    {
      station: 'engine',
      finding: finding({
        ...base,
        verdict,
        says: `The air that reaches the cylinders supports ${kilowatts(power.value)}${doubt({ ...power, plusMinus: power.plusMinus / 1e3 }, 'kW')} of the ${kilowatts(target)} aimed at.`,
        todo:
          verdict === 'sound'
            ? 'Nothing.'
            : 'Cool the charge, lose less pressure on the way, or raise the pressure ratio within what fuel and knock allow.',
        working: lines(power),
      }),
    },
  ]
}

/** Nothing is judged where no air sheet stands. */
export const judgeAir = (chain: AirChain, figures: Record<string, number> = {}): Judged[] =>
  Object.keys(chain.facts.air).length === 0
    ? []
    : [
        ...effectivenessFinding(chain),
        ...temperatureFinding(chain, figures),
        ...impossibleFinding(chain),
        ...waterFinding(chain),
        ...intakeFindings(chain),
        ...powerFinding(chain, figures),
      ]

export const airFindings = (context: Context): Finding[] => {
  if (context.build.sheets.air === undefined) return []
  const full = context.cases.find(({ kase }) => kase.engine === 'full load')
  return judgeAir(airChain(context.build, full), context.figures).map(({ finding: found }) => found)
}

/** For a screen: the chain with the verdict at each station. */
export const judgedAir = (build: Build): { readonly chain: AirChain; readonly judged: readonly Judged[] } => {
  const chain = airChainOf(build)
  const judged = judgeAir(chain)
  return { chain: withVerdicts(chain, judged), judged }
}
