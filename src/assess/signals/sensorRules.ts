/** Rules `sensor-curve` and `table-error`: whether readings give a curve, and whether the controller's table follows it. */
import { errorWords, limitsOf, readingWords } from '../earths/sensorError.ts'
import type { Finding } from '../finding.ts'
import { deviceZone, finding, list, restrictedDevice } from '../make.ts'
import type { Known } from './known.ts'
import { type SensorSheet, sensorSheet } from './sensors.ts'
import { calibrationOf, tableToday } from './tableToday.ts'

export const BOIL_CAUTION = 'Boiling water and steam scald: hold the sensor by its wires, gloves on.'

const curveFinding = (known: Known, { sensor, problems, curve }: SensorSheet): Finding[] => {
  const base = {
    rule: 'sensor-curve',
    system: 'signals',
    subject: `sensors/${sensor.id}`,
    about: sensor.name,
    zone: deviceZone(known.build, sensor.device),
    cautions: sensor.quantity === 'temperature' ? [BOIL_CAUTION] : [],
  } as const
  const [problem] = problems
  if (problem)
    return [
      finding({
        ...base,
        verdict: 'marginal',
        says: `${sensor.name} has no usable curve: ${problems.map(({ says }) => says).join(' ')}`,
        todo: problem.todo,
      }),
    ]
  if (curve?.from !== 'readings' || !sensor.readings) return []
  const worst = curve.residuals.reduce((most, each) => (Math.abs(each) > Math.abs(most) ? each : most), 0)
  const odd = curve.thermistor?.disagreement
  return [
    finding({
      ...base,
      verdict: odd !== undefined && odd > 2 ? 'marginal' : 'sound',
      says: `${sensor.name}: ${curve.by}${sensor.readings.length > 3 || (sensor.form !== 'resistance' && sensor.readings.length > 2) ? `, farthest reading ${errorWords(sensor, worst)} off` : ''}${odd !== undefined && odd > 2 ? `; the readings disagree ${odd.toFixed(1)} times more than their own ± allow` : ''}.`,
      todo:
        odd !== undefined && odd > 2
          ? 'Measure the odd one again, the water stirred and the sensor left until the meter stands still.'
          : 'Nothing.',
      working: sensor.readings.map(
        ({ value, shows }, i) =>
          `${readingWords(sensor, value)} at ${Number(shows.toPrecision(5))}: curve less reading ${curve.residuals[i] ? errorWords(sensor, curve.residuals[i]!) : 'none'}`,
      ),
    }),
  ]
}

const tableFinding = (known: Known, sheet: SensorSheet): Finding[] => {
  const { sensor, input, curve } = sheet
  const base = {
    rule: 'table-error',
    system: 'signals',
    subject: `sensors/${sensor.id}`,
    about: sensor.name,
    zone: deviceZone(known.build, sensor.device),
  } as const
  // Without curve or input other findings speak.
  // A pedal's or throttle's tracks are learnt by the controller at both ends, not read from a table.
  if (!curve || !input || sensor.twin !== undefined) return []
  const today = tableToday(known, sheet)
  if (!today) {
    const calibration = calibrationOf(known, sheet)
    const lacks = [
      ...(calibration?.table ? [] : [`table that the controller has for ${input.name}`]),
      ...(sensor.form !== 'voltage' && !input.reference ? [`reference voltage of ${input.name}`] : []),
      ...(sensor.form === 'resistance' && !input.pullUp ? [`pull-up of ${input.name}`] : []),
    ]
    const missing = lacks.length > 0 ? lacks : [`curve of ${sensor.name} over all that it must cover`]
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `How far the controller’s table for ${sensor.name} is off cannot be told without the ${list(missing)}.`,
        todo: `Enter the ${list(missing)}.`,
        missing: list(missing),
      }),
    ]
  }
  const { marginal, noGo, from } = limitsOf({
    ...sensor,
    curve: [
      [0, sheet.covers!.low],
      [1, sheet.covers!.high],
    ],
  })
  const size = Math.abs(today.worst)
  const where = readingWords(sensor, today.at)
  const of = curve.from === 'readings' ? 'readings of the sensor' : 'sensor’s sheet'
  return [
    finding({
      ...base,
      verdict: size > noGo ? 'no-go' : size > marginal ? 'marginal' : 'sound',
      says:
        size === 0
          ? `The controller’s table “${today.calibration.name}” follows the ${of} everywhere.`
          : `The controller’s table “${today.calibration.name}” shows ${errorWords(sensor, today.worst)} at ${where} against the ${of}; nowhere more.`,
      todo: size > marginal ? 'Take the table of the Signals bench into the controller.' : 'Nothing.',
      working: [
        'Error = table, straight between its rows in volts, less curve; 61 voltages over all that it must cover.',
        `Curve: ${curve.by}.`,
        `Table: ${today.rows.length} rows, ${today.rows[0]!.x.toFixed(2)} … ${today.rows.at(-1)!.x.toFixed(2)} V.`,
        `Limits: ${from}.`,
      ],
    }),
  ]
}

export const sensorFindings = (known: Known): Finding[] =>
  Object.values(known.build.collections.sensors)
    .filter(({ device }) => !restrictedDevice(known.build, device))
    .flatMap((sensor) => {
      const sheet = sensorSheet(known, sensor)
      return [...curveFinding(known, sheet), ...tableFinding(known, sheet)]
    })
