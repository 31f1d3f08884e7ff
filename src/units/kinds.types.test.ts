/** Proved by the type check: each marked line must not compile. Run: npm run check:types. */
import { expect, it } from 'vitest'
import { gaugeToAbsolute, massFlowFromVolumeFlow, type Of, parseQuantity } from './index.ts'

const needsAbsolute = (pressure: Of<'pressureAbsolute'>): number => pressure
const needsTemperature = (temperature: Of<'temperature'>): number => temperature
const needsMassFlow = (flow: Of<'massFlow'>): number => flow

it('keeps look-alike kinds apart at compile time', () => {
  const gauge = parseQuantity('pressureGauge', '3 bar').value
  const rise = parseQuantity('temperatureDifference', '8 K').value
  const flow = parseQuantity('volumeFlow', '600 cc/min').value
  const values = [
    // @ts-expect-error a gauge pressure is not an absolute one
    needsAbsolute(gauge),
    // @ts-expect-error a difference of temperatures is not a temperature
    needsTemperature(rise),
    // @ts-expect-error a volume flow is not a mass flow
    needsMassFlow(flow),
    // @ts-expect-error ambient pressure is absolute
    gaugeToAbsolute(gauge, gauge),
    // @ts-expect-error density and flow are not to be swapped
    massFlowFromVolumeFlow(750 as Of<'density'>, flow),
    needsAbsolute(gaugeToAbsolute(gauge, 101325)),
    needsMassFlow(massFlowFromVolumeFlow(flow, 750)),
    needsTemperature(294.15),
  ]
  // At run time they are plain numbers: the kinds cost nothing.
  expect(values.every(Number.isFinite)).toBe(true)
})
