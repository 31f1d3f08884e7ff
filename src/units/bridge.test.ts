import { expect, it } from 'vitest'
import {
  absoluteToGauge,
  gaugeToAbsolute,
  massFlowFromVolumeFlow,
  parseQuantity,
  toUnit,
  volumeFlowFromMassFlow,
} from './index.ts'

it('bridges mass and volume flow by density, both ways', () => {
  // By hand: 600 cc/min of 0.75 g/cc is 450 g/min, which is 27 kg/h.
  const flow = massFlowFromVolumeFlow(parseQuantity('volumeFlow', '600 cc/min').value, 750)
  expect(toUnit('massFlow', 'kg/h', flow)).toBeCloseTo(27, 10)
  expect(toUnit('volumeFlow', 'cc/min', volumeFlowFromMassFlow(flow, 750))).toBeCloseTo(600, 10)
})

it('bridges gauge and absolute pressure by ambient, both ways', () => {
  expect(gaugeToAbsolute(3e5, 101325)).toBe(401325)
  expect(absoluteToGauge(401325, 101325)).toBe(3e5)
})

it('refuses a density or an ambient pressure that cannot be', () => {
  expect(() => massFlowFromVolumeFlow(1, 0)).toThrow(/Density 0 kg\/m³ is not above zero/)
  expect(() => volumeFlowFromMassFlow(1, Number.NaN)).toThrow(/Density NaN/)
  expect(() => gaugeToAbsolute(1, -1)).toThrow(/Ambient pressure -1 Pa is not above zero/)
  expect(() => absoluteToGauge(1, 0)).toThrow(/Ambient pressure 0 Pa/)
})
