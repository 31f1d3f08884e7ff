import { expect, test } from 'vitest'
import { type MomentReading, onChains, valueText } from './momentPlaces.ts'

const reading = (
  role: string | undefined,
  value: MomentReading['value'],
  unit: string,
  si?: number,
): MomentReading => ({
  channel: role ?? 'spare',
  unit,
  value,
  t: 3,
  ...(role === undefined ? {} : { role }),
  ...(si === undefined ? {} : { si }),
})

test('readings stand at the stations where they are measured, those of a curve with their SI value', () => {
  const placed = onChains([
    reading('chargeTemperatureBefore', 118, '°C', 391.15),
    reading('compressorPressure', 181.234567, 'kPa', 181_234.567),
    reading('manifoldPressure', 170, 'kPa', 170_000),
    reading('throttle', 62, '%', 0.62),
    reading('injectorPulseWidth', 7.4, 'ms', 0.0074),
    reading('coolantTemperature', 92, '°C', 365.15),
  ])
  expect(placed.get('air')!.get('compressor')).toEqual([
    { says: 'logged 118 °C', curve: 'temperature', si: 391.15 },
    { says: 'logged 181.23 kPa', curve: 'pressureAbsolute', si: 181_234.567 },
  ])
  expect(placed.get('air')!.get('engine')).toEqual([
    { says: 'logged 170 kPa', curve: 'pressureAbsolute', si: 170_000 },
    { says: 'throttle 62 %' },
  ])
  expect(placed.get('fuel')!.get('injectors')).toEqual([{ says: 'pulse 7.4 ms' }])
  expect(placed.get('cooling')!.get('engine')).toEqual([{ says: 'coolant 92 °C' }])
})

test('what has no meaning, no station or no value yet is left off the drawings', () => {
  const placed = onChains([
    reading(undefined, 5, 'V'),
    reading('oilPressure', 380, 'kPa', 380_000),
    reading('lambda', null, ''),
    reading('chargeTemperatureAfter', 41, 'what?'),
  ])
  // Of a unit that is not known it is said as logged, and stands on no curve.
  expect([...placed.keys()]).toEqual(['air'])
  expect(placed.get('air')!.get('cooler')).toEqual([{ says: 'logged 41 what?' }])
  expect(valueText(reading('fanState', 'on', ''))).toBe('on')
})
