/** Rules `charge-temperature` and `charge-cooler-effectiveness`, from the air sheet and stored readings, never from logs. */

import { compressionTemperature } from '../engineering/air/compressionTemperature.ts'
import { propagate, working, workingLines } from '../engineering/calculation.ts'
import { Refusal } from '../units/problem.ts'
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import { celsius, finding, HOT_CAUTION, list } from './make.ts'

const ATMOSPHERE = 101325
const BASE = { system: 'air', subject: 'sheet/air', cautions: [HOT_CAUTION] } as const

const withDoubt = (value: number, plusMinus: number | undefined) => (plusMinus ? { value, plusMinus } : value)

/** The latest reading of a subject: by its time, undated ones first. */
const latest = ({ build }: Context, subject: string) =>
  Object.values(build.collections.readings)
    .filter((reading) => reading.subject === subject)
    .sort((a, b) => ((a.when ?? '') < (b.when ?? '') ? -1 : 1))
    .at(-1)

export const airFindings = (context: Context): Finding[] => {
  const { build, figures } = context
  const { air } = build.sheets
  if (!air?.chargeCooler && !air?.chargeTemperatureLimit) return []
  const findings: Finding[] = []
  const measured = latest(context, 'charge-cooler-effectiveness')
  const expected = air.chargeCooler?.expectedEffectiveness
  const plus = measured?.plusMinus ?? 0
  if (measured && expected) {
    const short = measured.value + plus < expected.value - (expected.plusMinus ?? 0)
    findings.push(
      finding({
        ...BASE,
        rule: 'charge-cooler-effectiveness',
        verdict: short ? 'marginal' : 'sound',
        about: 'Effectiveness of the charge cooler',
        says: `Measured ${measured.value.toFixed(plus > 0 && plus < 0.01 ? 3 : 2)} ± ${plus.toPrecision(1)} (reading ${measured.id}) against ${expected.value.toFixed(2)} expected.`,
        todo: short
          ? 'Look at the water pump’s voltage and direction, trapped air, and the air that reaches the front exchanger.'
          : 'Nothing.',
        working: [
          `Reading ${measured.id}: ${measured.provenance?.method ?? 'no method stated'}; ± compared on both sides.`,
        ],
      }),
    )
  }
  const cooler = air.chargeCooler
  const effectiveness = measured?.value ?? expected?.value
  const effectivenessDoubt = (measured ? measured.plusMinus : expected?.plusMinus) ?? 0
  const water = latest(context, 'charge-cooler-water-in')
  const ambient = Object.values(build.collections.cases).find(({ engine }) => engine === 'full load')?.ambient
  const cold = cooler?.coldReference === 'ambient air' ? ambient?.value : water?.value
  const coldDoubt = cooler?.coldReference === 'ambient air' ? ambient?.plusMinus : water?.plusMinus
  const gaps = [
    air.intakeTemperature ? '' : 'intake temperature',
    air.pressureRatio ? '' : 'pressure ratio',
    air.compressorEfficiency ? '' : 'compressor efficiency',
    air.chargeTemperatureLimit ? '' : 'limit of charge temperature',
    !cooler || effectiveness !== undefined ? '' : 'effectiveness of the charge cooler (a reading)',
    !cooler || cold !== undefined
      ? ''
      : cooler.coldReference === 'ambient air'
        ? 'ambient temperature of the full-load case'
        : 'temperature of the water into the cooler (reading charge-cooler-water-in)',
  ].filter((gap) => gap !== '')
  const base = { ...BASE, rule: 'charge-temperature', about: 'Charge temperature at target power' } as const
  const unknown = (says: string, missing: string) =>
    finding({ ...base, verdict: 'unknown', says, todo: `Enter ${missing}.`, missing })
  if (gaps.length > 0)
    return [
      ...findings,
      unknown(
        `Charge temperature at target power is not known: ${list(gaps)} ${gaps.length === 1 ? 'is' : 'are'} missing.`,
        list(gaps),
      ),
    ]
  const given = {
    temperature: withDoubt(air.intakeTemperature!.value, air.intakeTemperature!.plusMinus),
    pressure: ATMOSPHERE,
    outletPressure: withDoubt(
      ATMOSPHERE * air.pressureRatio!.value,
      air.pressureRatio!.plusMinus === undefined ? undefined : ATMOSPHERE * air.pressureRatio!.plusMinus,
    ),
    efficiency: withDoubt(air.compressorEfficiency!.value, air.compressorEfficiency!.plusMinus),
  }
  try {
    const { value: before, plusMinus: beforeDoubt } = propagate(compressionTemperature, given).outputs.outletTemperature
    const after = cooler ? before - effectiveness! * (before - cold!) : before
    // First order: ∂T3/∂T2 = 1 − ε, ∂T3/∂ε = −(T2 − Tc), ∂T3/∂Tc = ε; root sum of squares.
    const doubt = cooler
      ? Math.hypot(
          (1 - effectiveness!) * beforeDoubt,
          (before - cold!) * effectivenessDoubt,
          effectiveness! * (coldDoubt ?? 0),
        )
      : beforeDoubt
    const limit = air.chargeTemperatureLimit!.value
    figures.chargeTemperature = after
    const verdict = after - doubt > limit ? 'no-go' : after + doubt > limit ? 'marginal' : 'sound'
    const kelvin = (value: number) => `${value.toFixed(1)} K`
    findings.push(
      finding({
        ...base,
        verdict,
        says: `The charge reaches ${celsius(after)}${doubt > 0 ? ` ± ${doubt.toPrecision(2)} K` : ''} at target power; the limit is ${celsius(limit)}.`,
        todo:
          verdict === 'sound'
            ? 'Nothing.'
            : `Bring the charge cooler to an effectiveness of ${cooler && before > cold! ? ((before - limit) / (before - cold!)).toFixed(2) : 'more than it has'}, or lower the pressure ratio; keep load off the engine till then.`,
        working: [
          ...workingLines(working(compressionTemperature, given)),
          ...(cooler
            ? [
                'T3 = T2 − ε·(T2 − Tc)',
                `with numbers: T3 = ${kelvin(before)} − ${effectiveness!.toFixed(2)} × (${kelvin(before)} − ${kelvin(cold!)}) = ${kelvin(after)}`,
                measured ? `ε from reading ${measured.id}` : 'ε as expected by the air sheet, not measured',
                'Source: Incropera & DeWitt, chapter 11 [from memory]; intake at a standard atmosphere (ISO 2533).',
              ]
            : []),
        ],
      }),
    )
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    findings.push(
      unknown(
        `Charge temperature cannot be worked out: ${error.problems[0]!.says}`,
        'figures of the air sheet within their range',
      ),
    )
  }
  return findings
}
