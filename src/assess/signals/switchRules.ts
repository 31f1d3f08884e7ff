/** Rule `resistance-switch`: whether every button, a short and an open wire are told apart in the worst case. */
import type { Finding } from '../finding.ts'
import { BATTERY_CAUTION, deviceZone, finding, list, restrictedDevice } from '../make.ts'
import type { Known } from './known.ts'
import { type SwitchSheet, switchSheet } from './switches.ts'

export const millivolts = (value: number): string => `${(value * 1000).toFixed(0)} mV`
/** Steps of the converter below which a gap is called narrow: common practice, no published source. */
const NARROW_STEPS = 4

const workingOf = ({ circuit, offset, reading, assumed }: SwitchSheet): string[] => [
  'V = (Vs·R + E·Rp − I·Rp·R) / (Rp + R) at every corner of its tolerances; gap = foot of the band above − top of the band below',
  ...(circuit
    ? [
        `Rp ${circuit.pullUp.low.toFixed(0)} … ${circuit.pullUp.high.toFixed(0)} Ω, Vs ${circuit.supply.low.toFixed(2)} … ${circuit.supply.high.toFixed(2)} V, I ± ${(circuit.leakage.high * 1e6).toFixed(1)} µA, ${circuit.bits} bits ± ${circuit.linearity} steps`,
      ]
    : []),
  offset
    ? `E ${millivolts(offset.interval.low)} … ${millivolts(offset.interval.high)}, solved over all cases, most in “${offset.worstCase}”`
    : 'E taken as 0 V, for it is not known: the bands below are narrower than they may be.',
  ...(reading
    ? reading.bands.map(({ name, voltage }) => `${name}: ${voltage.low.toFixed(3)} … ${voltage.high.toFixed(3)} V`)
    : []),
  ...(reading
    ? reading.pairs
        .filter(({ names, readsAs }) => readsAs.some((state) => !(names as readonly string[]).includes(state)))
        .map(({ names, readsAs }) => `${names[0]} with ${names[1]} reads as ${list(readsAs)}`)
    : []),
  ...assumed,
]

export const switchFinding = (known: Known, sheet: SwitchSheet): Finding => {
  const { build } = known
  const { record, reading, problems, missing, circuit } = sheet
  const base = {
    rule: 'resistance-switch',
    system: 'signals',
    subject: `resistanceSwitches/${record.id}`,
    about: record.name,
    zone: deviceZone(build, record.device),
    working: workingOf(sheet),
    cautions: [BATTERY_CAUTION],
  } as const
  const [problem] = problems
  if (problem)
    return finding({
      ...base,
      verdict: 'marginal',
      says: `${record.name}: ${problems.map(({ says }) => says).join(' ')}`,
      todo: problem.todo,
    })
  if (reading && circuit) {
    const { gap, below, above } = reading.smallest
    const step = circuit.supply.high / 2 ** circuit.bits
    if (gap <= 0) {
      const more = reading.thresholds.filter((each) => each.gap <= 0).length - 1
      return finding({
        ...base,
        verdict: 'marginal',
        says: `${record.name}: ${below} and ${above} read alike in the worst case, their bands overlap by ${millivolts(-gap)}${more > 0 ? `, and so do ${more} more pairs` : ''}${sheet.provisional ? ', even with an earth without offset' : ''}.`,
        todo: `Choose its resistors anew on the Signals bench, or measure ${below} and ${above} again and clean their contacts.`,
      })
    }
    if (missing.length === 0 && gap < NARROW_STEPS * step)
      return finding({
        ...base,
        verdict: 'marginal',
        says: `${record.name}: only ${millivolts(gap)} lie between ${below} and ${above}, less than ${NARROW_STEPS} steps of the converter.`,
        todo: 'Choose its resistors or its pull-up anew on the Signals bench.',
      })
    if (missing.length === 0)
      return finding({
        ...base,
        verdict: 'sound',
        says: `${record.name}: all ${record.buttons.length} buttons, a short and an open wire are told apart; the narrowest gap is ${millivolts(gap)}, between ${below} and ${above}.`,
        todo: 'Type the table of the Signals bench into the controller.',
      })
  }
  return finding({
    ...base,
    verdict: 'unknown',
    says: `Whether the buttons of ${record.name} are told apart in the worst case cannot be said without the ${list(missing)}.`,
    todo: `Enter the ${list(missing)}.`,
    missing: list(missing),
  })
}

export const switchFindings = (known: Known): Finding[] =>
  Object.values(known.build.collections.resistanceSwitches)
    .filter(({ device }) => !restrictedDevice(known.build, device))
    .map((record) => switchFinding(known, switchSheet(known, record)))
