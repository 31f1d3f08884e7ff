/** Rules `level-sender` and `gauge-reading`: litres and reserve as the sender shows them, and what old gauges make of it. */
import { FILL_CAUTION } from '../../engineering/signals/level/fillTest.ts'
import { formatQuantity } from '../../units/index.ts'
import type { Finding } from '../finding.ts'
import { deviceZone, FUEL_CAUTION, finding, list, percent, restrictedDevice } from '../make.ts'
import { gaugeResistors, gaugeSheet } from './gauges.ts'
import type { Known } from './known.ts'
import { levelSheet } from './levels.ts'
import { revCounterFindings } from './revCounters.ts'
import { roadSpeedFindings } from './roadSpeed.ts'

export const litres = (volume: number): string => formatQuantity('volume', volume, { unit: 'L', digits: 3 })
const ohms = (value: number): string => formatQuantity('resistance', value, { digits: 3 })

const senderFinding = (known: Known, record: Parameters<typeof levelSheet>[1]): Finding => {
  const sheet = levelSheet(known, record)
  const base = {
    rule: 'level-sender',
    system: 'signals',
    subject: `levelSenders/${record.id}`,
    about: record.name,
    zone: deviceZone(known.build, record.device),
    cautions: [FILL_CAUTION],
    working: sheet.readings.map(
      ({ resistance, volume, plusMinus }) =>
        `${ohms(resistance)}: ${formatQuantity('volume', volume, { unit: 'L', plusMinus })}`,
    ),
  } as const
  const { problems, missing, capacity, unseenBelow, reserveResistance } = sheet
  if (problems[0])
    return finding({
      ...base,
      verdict: 'marginal',
      says: `${record.name}: ${problems.map(({ says }) => says).join(' ')}`,
      todo: problems[0].todo,
    })
  if (capacity === undefined || unseenBelow === undefined || !record.reserve)
    return finding({
      ...base,
      verdict: 'unknown',
      says: `What ${record.name} shows in litres, and at the reserve, cannot be told without the ${list(missing)}.`,
      todo: `Enter the ${list(missing)}; a fill test gives both at once.`,
      missing: list(missing),
    })
  if (record.reserve.value < unseenBelow || reserveResistance === undefined)
    return finding({
      ...base,
      verdict: 'marginal',
      says: `${record.name} stands still below ${litres(unseenBelow)}, so a reserve of ${litres(record.reserve.value)} cannot be shown.`,
      todo: 'Take a larger reserve, or bend the float arm so that it follows further down.',
    })
  return finding({
    ...base,
    verdict: 'sound',
    says: `${record.name}: ${litres(capacity)} by ${sheet.from === 'fill test' ? 'its fill test' : 'tank and sender'}; the reserve of ${litres(record.reserve.value)} begins at ${ohms(reserveResistance)}${unseenBelow > 0 ? `; the last ${litres(unseenBelow)} do not show` : ''}.`,
    todo: 'Nothing.',
  })
}

/** Share of the scale from which a needle misleads: half a mark of quarters. Common practice, no published source. */
const MISLEADS = 0.1

const gaugeFinding = (known: Known, record: Parameters<typeof gaugeSheet>[1]): Finding[] => {
  const sheet = gaugeSheet(known, record)
  if (!sheet || (record.device !== undefined && restrictedDevice(known.build, record.device))) return []
  const base = {
    rule: 'gauge-reading',
    system: 'signals',
    subject: `gauges/${record.id}`,
    about: record.name,
    zone: record.device === undefined ? undefined : deviceZone(known.build, record.device),
    cautions: [FUEL_CAUTION],
  } as const
  const { worst, at, missing } = sheet
  if (worst === undefined || at === undefined)
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `What ${record.name} shows cannot be told without the ${list(missing)}.`,
        todo: `Enter the ${list(missing)}.`,
        missing: list(missing),
      }),
    ]
  const shown = `${record.name} shows ${percent(at + worst)} when the tank is ${percent(at)} full`
  if (Math.abs(worst) <= MISLEADS)
    return [finding({ ...base, verdict: 'sound', says: `${shown}; nowhere is it further off.`, todo: 'Nothing.' })]
  const help = gaugeResistors(sheet, 'E12')
  const better = help && !('problems' in help) && help.worst < Math.abs(worst) * 0.8 ? help : undefined
  return [
    finding({
      ...base,
      verdict: 'marginal',
      says: `${shown}, its worst.`,
      todo: better
        ? `Fit ${[better.series > 0 ? `${ohms(better.series)} in series` : '', Number.isFinite(better.across) ? `${ohms(better.across)} across` : ''].filter(Boolean).join(' and ')}${better.series > 0 && Number.isFinite(better.across) ? ` (${better.order})` : ''}: then it is ${percent(better.worst)} of the scale off at most.`
        : help && 'problems' in help
          ? `${help.problems[0]!.says} ${help.problems[0]!.todo}`
          : 'Let the controller read the sender and drive the gauge by a table, or fit the sender that the gauge was made for.',
      working: [
        ...sheet.points
          .filter((_, i) => i % 10 === 0)
          .map(({ level, shows }) => `${percent(level)} full: needle at ${percent(shows)}`),
        'Told from a tenth of the scale on: common practice, no published source.',
      ],
    }),
  ]
}

export const levelFindings = (known: Known): Finding[] => [
  ...Object.values(known.build.collections.levelSenders)
    .filter(({ device }) => !restrictedDevice(known.build, device))
    .map((record) => senderFinding(known, record)),
  ...Object.values(known.build.collections.gauges).flatMap((record) => gaugeFinding(known, record)),
  ...revCounterFindings(known),
  ...roadSpeedFindings(known),
]
