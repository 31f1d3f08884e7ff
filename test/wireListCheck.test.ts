// A published circuit goes in as a wire list and is checked as any build is.
// FAA AC 43.13-1B table 11-7, page 11-22: 0.00126 Ω/ft · 39 ft · 20 A, printed 0.98 V. 1.26 Ω/1000 ft is AWG 10 of
// table 11-9, at 20 °C. (A further row of the copy read, 19.5 ft printed as 0.366 V, is a misprint: the product is 0.491 V.)
import { expect, test } from 'vitest'
import { assess } from '../src/assess/assess.ts'
import { emptyBuild } from '../src/model/build.ts'
import { applyChanges } from '../src/model/read.ts'
import { proposeWires } from '../src/store/wireList/import.ts'

test('the FAA voltage-drop example comes through the wire list into the check with its printed figure', () => {
  const bare = applyChanges(emptyBuild('The worked circuit'), [
    {
      collection: 'devices',
      id: 'battery',
      value: {
        id: 'battery',
        name: 'Battery',
        pins: { '+': {}, '-': {} },
        spec: {
          kind: 'battery',
          restedVoltage: { value: 14 },
          internalResistance: { value: 1e-4 },
          acceptance: { value: 0 },
        },
      },
    },
    {
      collection: 'devices',
      id: 'load',
      value: {
        id: 'load',
        name: 'Load of 20 A',
        pins: { '+': {}, '-': {} },
        spec: { kind: 'module' },
        loads: [
          {
            id: 'l',
            from: '+',
            to: '-',
            law: { type: 'current', current: { value: 20 }, minimumVoltage: { value: 6 } },
          },
        ],
      },
    },
    {
      collection: 'cases',
      id: 'on',
      value: {
        id: 'on',
        name: 'On',
        engine: 'off',
        alternator: 'off',
        battery: 'connected',
        switches: {},
        outputs: {},
        ambient: { value: 293.15 },
      },
    },
  ])
  const rows = [
    ['wire', 'from', 'to', 'size', 'length', 'material'],
    ['W-1', 'battery.+', 'load.+', 'AWG 10', '39 ft', 'tinned copper'],
    ['W-2', 'load.-', 'battery.-', 'AWG 10', '1 ft', 'tinned copper'],
  ].map((cells, index) => ({ line: index + 1, cells }))
  const { edit, aside } = proposeWires(bare, rows)
  expect(aside).toEqual([])
  const listed = applyChanges(bare, edit.changes)
  // The example knows no joints: those of the list, taken at their usual resistance, are made next to nothing here.
  const end = { method: 'crimped', resistance: { value: 1e-6 } }
  const build = applyChanges(
    listed,
    Object.values(listed.collections.wires).map((wire) => ({
      collection: 'wires' as const,
      id: wire.id,
      value: { ...wire, ends: { from: end, to: end } },
    })),
  )
  const { cases } = assess(build)
  const solved = cases.on!
  const amps = solved.currents['W-1']!
  expect(amps).toBeCloseTo(20, 6)
  const drop = solved.voltages['battery.+']! - solved.voltages['load.+']!
  // Printed 0.98 V, of 0.9828 V by its own arithmetic, at 20 °C; here 20 A have warmed the wire. Its length factor for
  // that is (234.5 + T)/254.5, paragraph 11-66, page 11-22. Temperatures stand still to half a kelvin: 0.2 %.
  const celsius = solved.temperatures['W-1']! - 273.15
  expect(celsius).toBeGreaterThan(25)
  expect(Math.abs((drop * 254.5) / (234.5 + celsius) - 0.9828)).toBeLessThan(0.002)
})
