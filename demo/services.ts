/** What keeps the engine fed and cool: fuel pump, fan, charge cooler pump. W-300 … W-349. */
import type { Draft } from './draft.ts'
import { fuse, motor, relay } from './parts.ts'
import { m } from './quantities.ts'

export const services = (pen: Draft): void => {
  const { put, device, wires } = pen
  put(
    'circuits',
    { id: 'fuel-pump', name: 'Fuel pump' },
    { id: 'fan', name: 'Radiator fan' },
    { id: 'charge-pump', name: 'Charge cooler pump' },
  )
  const machine = (
    id: string,
    name: string,
    at: string,
    kind: 'pump' | 'motor',
    running: number,
    stall: number,
    needs: number,
  ) => device(id, name, at, { kind }, { '+': '', '-': '' }, { loads: [motor('+', '-', running, stall, needs)] })
  machine('fuel-pump', 'Fuel pump', 'tank-point', 'pump', 11.5, 26, 8)
  machine('fan', 'Radiator fan', 'nose-mid', 'motor', 19, 65, 10.5)
  machine('charge-pump', 'Charge cooler water pump', 'nose-right', 'pump', 3.2, 9, 10)
  relay(pen, 'pump-relay', 'Fuel pump relay', 'controller-point')
  relay(pen, 'fan-relay', 'Fan relay', 'battery-point')
  relay(pen, 'charge-pump-relay', 'Charge cooler pump relay', 'controller-point')
  fuse(pen, 'fuse-pump', 'Fuel pump', 'controller-point', 15)
  fuse(pen, 'fuse-charge-pump', 'Charge cooler pump', 'controller-point', 7.5)
  device('tank-connector', 'Plug at the tank', 'tank-point', { kind: 'connector', sealed: true }, { 1: '', 2: '' })
  device(
    'nose-connector',
    'Plug at the nose',
    'nose-right',
    { kind: 'connector', sealed: false },
    { 1: '', 2: '', 3: '' },
  )

  wires('fuel-pump', [
    ['W-300', 'bus-engine.7', 'fuse-pump.1', 16, 'RD/YE'],
    ['W-301', 'fuse-pump.2', 'pump-relay.30', 2.5, 'RD/BN'],
    [
      'W-302',
      'pump-relay.87',
      'tank-connector.1',
      0.75,
      'GN/RD',
      { remark: 'The 1972 feed of the level sender, reused.' },
    ],
    ['W-303', 'tank-connector.1', 'fuel-pump.+', 2.5, 'GN/RD'],
    ['W-304', 'fuel-pump.-', 'tank-connector.2', 2.5, 'BN'],
    ['W-305', 'tank-connector.2', 'stud-rear.S', 0.75, 'BN'],
    ['W-306', 'fuse-ecu.2', 'pump-relay.86', 1.5, 'RD/GN'],
    ['W-307', 'pump-relay.85', 'ecu.A11', 0.75, 'BN/GN'],
  ])
  wires('fan', [
    ['W-310', 'battery.+', 'fan-relay.30', 6, 'RD', { length: m(0.6) }],
    ['W-311', 'fan-relay.87', 'fan.+', 6, 'RD/BU'],
    ['W-312', 'fan.-', 'stud-nose.S', 6, 'BN'],
    ['W-313', 'fuse-solenoids.2', 'fan-relay.86', 1, 'RD/PK'],
    ['W-314', 'fan-relay.85', 'ecu.A12', 0.75, 'BN/BU'],
  ])
  wires('charge-pump', [
    ['W-320', 'bus-engine.8', 'fuse-charge-pump.1', 16, 'RD/YE'],
    ['W-321', 'fuse-charge-pump.2', 'charge-pump-relay.30', 1.5, 'RD/GD'],
    ['W-322', 'charge-pump-relay.87', 'nose-connector.1', 1.5, 'GN/GY'],
    ['W-323', 'nose-connector.1', 'charge-pump.+', 1.5, 'GN/GY'],
    ['W-324', 'charge-pump.-', 'nose-connector.2', 1.5, 'BN'],
    ['W-325', 'nose-connector.2', 'stud-nose.S', 1.5, 'BN'],
    ['W-326', 'fuse-charge-pump.2', 'charge-pump-relay.86', 1.5, 'RD/GD'],
    ['W-327', 'charge-pump-relay.85', 'ecu.A17', 0.75, 'BN/GY'],
  ])
}
