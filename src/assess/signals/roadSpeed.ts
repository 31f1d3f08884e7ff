/**
 * Rule `road-speed`: whether a speedometer, and the controller, are told the speed that the car has: counts a kilometre by
 * teeth, final drive and tyre against those that the dial was made for or the controller is set to.
 * The margin is that of UN R39, 5.3: never under the true speed; over by at most a tenth and 4 km/h, at 40, 80 and 120 km/h.
 */
import { working, workingLines } from '../../engineering/calculation.ts'
import { speedSensorCount } from '../../engineering/signals/speed/speedSensorCount.ts'
import type { Build } from '../../model/build.ts'
import { combine, type Datum, entered, type Known as Figure, isKnown, known, lacking, step } from '../chain/chain.ts'
import type { Finding } from '../finding.ts'
import { deviceZone, finding, list } from '../make.ts'
import type { Known } from './known.ts'
import { speedTakers } from './speedTakers.ts'

type Counted = NonNullable<Build['collections']['inputs'][string]['counted']>

const KILOMETRE = 1000
/** km/h. UN R39, 5.2.5, of a car that does 150 km/h or more. */
const TESTED = [40, 80, 120]
const R39 =
  'Margin: 0 ≤ shown − true ≤ true / 10 + 4 km/h at 40, 80 and 120 km/h: UN R39, 5.2.5 and 5.3, quoted at taketonews.com [read]. An older car may have another: ask the local inspection.'
/** Share by which a controller's speed may be off before what hangs on it is. Common practice, no published source. */
const NEAR = 0.03

/** Counts a kilometre, and the lines of its working. */
const perKilometre = (build: Build, counted: Counted | undefined, name: string): Datum => {
  if (!counted) return lacking(`teeth or turns that drive ${name}, and the shaft they are counted at`)
  const { vehicle } = build.sheets
  const radius = entered(vehicle?.tyreRadius, 'rolling radius of the tyres')
  const finalDrive: Datum =
    counted.shaft === 'driven wheel'
      ? known(1)
      : vehicle?.finalDrive === undefined
        ? lacking('ratio of the final drive')
        : known(vehicle.finalDrive)
  const wheelTurns = combine([finalDrive], (ratio = 1) => counted.turns / ratio, '')
  const given = { counts: counted.counts, wheelTurns, radius, distance: KILOMETRE, speed: 0 }
  const { total } = step(speedSensorCount, given)
  if (!isKnown(total) || !isKnown(wheelTurns) || !isKnown(radius)) return total
  return known(
    total.value,
    total.plusMinus,
    counted.shaft === 'driven wheel'
      ? 'Counted at the driven wheel.'
      : `Turns of the wheel = ${counted.turns} of the gearbox’s output / ${vehicle!.finalDrive} of the final drive`,
    ...workingLines(working(speedSensorCount, { ...given, wheelTurns: wheelTurns.value, radius: radius.value })),
  )
}

/** Shown over true. */
const ratioOf = (counts: Datum, made: Datum): Datum =>
  combine([counts, made], (n = 0, c = 1) => n / c, 'Shown / true = counts a kilometre / those it is made for')

const TEETH =
  'Push the car a few turns of its wheel on level ground and count what passes; measure the rolling radius over ten turns.'
const margin = ({ value, plusMinus }: Figure): string =>
  `${value.toFixed(3)}${plusMinus > 0 ? ` ± ${plusMinus.toFixed(3)}` : ''}`

const speedometerFindings = ({ build }: Known): Finding[] =>
  speedTakers(build).flatMap(({ kind, entity: gauge }): Finding[] => {
    if (kind !== 'gauges') return []
    const { name, device } = gauge
    const base = {
      rule: 'road-speed',
      system: 'signals',
      subject: `gauges/${gauge.id}`,
      about: name,
      zone: device === undefined ? undefined : deviceZone(build, device),
    } as const
    const counts = perKilometre(build, gauge.counted, name)
    const made: Datum =
      gauge.constant === undefined
        ? lacking(`turns or counts a kilometre on the dial of ${name}`)
        : known(gauge.constant)
    const reads = ratioOf(counts, made)
    if (!isKnown(reads)) return [unknown(base, name, reads)]
    const { value, plusMinus } = reads
    const at = (kmh: number, ratio = value): string => `${(kmh * ratio).toFixed(0)} km/h at ${kmh}`
    const tooHigh = TESTED.filter((kmh) => (value - 1) * kmh > kmh / 10 + 4)
    const low = value < 1
    const perhaps = !low && value - plusMinus < 1
    const lines = [...(isKnown(counts) ? counts.working : []), ...reads.working, R39]
    return [
      finding({
        ...base,
        verdict: low || perhaps || tooHigh.length > 0 ? 'marginal' : 'sound',
        says: low
          ? `${name} reads low: ${margin(reads)} of the true speed, ${at(80)}. It may never show less than the car does.`
          : tooHigh.length > 0
            ? `${name} reads ${margin(reads)} of the true speed, ${at(tooHigh[0]!)}: more than a tenth and 4 km/h over.`
            : perhaps
              ? `${name} reads ${margin(reads)} of the true speed: with the ± it may show less than the car does, ${at(80, value - plusMinus)}.`
              : `${name} reads ${margin(reads)} of the true speed, ${at(80)}.`,
        todo:
          low || tooHigh.length > 0
            ? `Change the driving or driven gear, fit a ratio box, or have the dial recalibrated for ${((counts as Figure).value / 1.02).toFixed(0)} a kilometre, which reads 2 % high.`
            : perhaps
              ? `Measure the rolling radius over ten turns on the ground, the car laden, to narrow the ±.`
              : 'Hold it against a measured kilometre once the car drives.',
        working: lines,
      }),
    ]
  })

const controllerFindings = ({ build }: Known): Finding[] =>
  speedTakers(build).flatMap(({ kind, entity: input }): Finding[] => {
    if (kind !== 'inputs') return []
    const { name, device, source } = input
    const base = {
      rule: 'road-speed',
      system: 'signals',
      subject: `inputs/${input.id}`,
      about: name,
      zone: deviceZone(build, source ?? device),
    } as const
    const counts = perKilometre(build, input.counted, name)
    const set: Datum =
      input.pulses === undefined
        ? lacking(`pulses a kilometre that the controller has for ${name}`)
        : known(input.pulses)
    const reads = ratioOf(counts, set)
    if (!isKnown(reads)) return [unknown(base, name, reads)]
    const off = Math.abs(reads.value - 1) > Math.max(NEAR, reads.plusMinus)
    return [
      finding({
        ...base,
        verdict: off ? 'marginal' : 'sound',
        says: `The controller takes ${name.toLowerCase()} for ${margin(reads)} of the true one: ${(counts as Figure).value.toFixed(0)} pulses a kilometre come, ${input.pulses} are set.`,
        todo: off ? `Set ${(counts as Figure).value.toFixed(0)} pulses a kilometre.` : 'Nothing.',
        working: [
          ...(isKnown(counts) ? counts.working : []),
          ...reads.working,
          `More than ${NEAR * 100} % is told: common practice, no published source.`,
        ],
      }),
    ]
  })

type Base = Pick<Finding, 'rule' | 'system' | 'subject' | 'about'> & { readonly zone?: string | undefined }
const unknown = (base: Base, name: string, lack: Exclude<Datum, Figure>): Finding => {
  const causes = lack.problems.map(({ says, todo }) => `${says} ${todo}`)
  const missing = lack.missing.length > 0 ? list(lack.missing) : 'figures that can be'
  return finding({
    ...base,
    verdict: 'unknown',
    says: `Whether ${name} shows the true speed cannot be told${causes.length > 0 ? `. ${causes.join(' ')}` : ` without the ${missing}.`}`,
    todo: `Enter the ${missing}. ${TEETH}`,
    missing,
  })
}

export const roadSpeedFindings = (known: Known): Finding[] => [
  ...speedometerFindings(known),
  ...controllerFindings(known),
]
