import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Network, type NetworkElement, solveNetwork } from './network.ts'
import { ngspiceVoltages } from './ngspice.testing.ts'
import { resistiveNetworks } from './random.testing.ts'

/** Every node within 1e-6 V or 1e-6 of its value (whichever is the wider) of ngspice 45.2. */
const agrees = async (network: Network, guess?: ReadonlyMap<string, number | null>): Promise<void> => {
  const ours = solveNetwork(network)
  expect(ours.converged).toBe(true)
  const theirs = await ngspiceVoltages(network, guess)
  for (const [node, volts] of theirs) {
    const own = ours.voltages.get(node)
    if (own === null || own === undefined) throw new Error(`${node} is floating here`)
    expect(Math.abs(own - volts), `${node}: ${own} here, ${volts} by ngspice`).toBeLessThanOrEqual(
      1e-6 * Math.max(1, Math.abs(volts)),
    )
  }
}

const battery: NetworkElement = { type: 'battery', id: 'bat', a: 'p', b: '0', emf: 12.6, internalResistance: 0.012 }
const alternator = (limit: number): NetworkElement => ({
  type: 'alternator',
  id: 'alt',
  a: 'q',
  b: 'body',
  setpoint: 14.3,
  internalResistance: 0.015,
  limit,
})
const r = (id: string, a: string, b: string, ohm: number): NetworkElement => ({ type: 'resistor', id, a, b, ohm })
const lamp = (id: string, a: string, b: string, ratedPower: number): NetworkElement => ({
  type: 'lamp',
  id,
  a,
  b,
  ratedVoltage: 12,
  ratedPower,
  exponent: 0.55,
  coldResistance: 144 / ratedPower / 12,
})
const car = [battery, r('cable', 'q', 'p', 0.004), r('strap', 'body', '0', 0.002), r('feed', 'q', 'x', 0.03)]

const networks: Record<string, NetworkElement[]> = {
  'bridge of resistors': [
    battery,
    r('1', 'p', 'm', 1),
    r('2', 'p', 'n', 2),
    r('3', 'm', 'n', 5),
    r('4', 'm', '0', 3),
    r('5', 'n', '0', 4),
  ],
  'battery and alternator below its limit': [...car, alternator(90), r('load', 'x', 'body', 0.6)],
  'alternator at its limit': [...car, alternator(40), r('load', 'x', 'body', 0.15)],
  'alternator cut off by a higher battery': [
    ...car.slice(1),
    { ...battery, emf: 15 } as NetworkElement,
    alternator(90),
  ],
  headlamps: [...car, alternator(90), lamp('l', 'x', 'body', 55), lamp('r', 'x', 'body', 55)],
  'cold lamp behind a bad joint': [...car, r('joint', 'x', 'y', 50), lamp('l', 'y', 'body', 55)],
  'lamps in series across a shared bad earth': [
    ...car,
    lamp('l', 'x', 'e', 21),
    lamp('t', 'x', 'e', 5),
    r('earth', 'e', 'body', 8),
    lamp('s', 'e', 'body', 5),
  ],
  'constant current above and below its minimum': [
    ...car,
    { type: 'constantCurrent', id: 'c', a: 'x', b: 'body', current: 15, minimumVoltage: 9 },
    r('bad', 'x', 'y', 5),
    { type: 'constantCurrent', id: 'd', a: 'y', b: 'body', current: 4, minimumVoltage: 9 },
  ],
  'constant power on the upper branch': [
    ...car,
    { type: 'constantPower', id: 'pump', a: 'x', b: 'body', power: 180, minimumVoltage: 6 },
  ],
  'constant power collapsed': [
    ...car,
    r('bad', 'x', 'y', 1.5),
    { type: 'constantPower', id: 'pump', a: 'y', b: 'body', power: 180, minimumVoltage: 6 },
  ],
  'diodes forward and blocking': [
    ...car,
    { type: 'diode', id: 'd1', a: 'x', b: 'y', forwardVoltage: 0.7, onResistance: 0.02 },
    r('load', 'y', 'body', 6),
    { type: 'diode', id: 'd2', a: 'body', b: 'y', forwardVoltage: 0.7, onResistance: 0.02, reverseLeak: 1e-6 },
  ],
  'motor with constant torque, running and stalled': [
    ...car,
    {
      type: 'motor',
      id: 'm',
      a: 'x',
      b: 'body',
      ratedVoltage: 13,
      runningCurrent: 12,
      stallResistance: 0.3,
      loading: 'constant',
    },
    r('bad', 'x', 'y', 2),
    {
      type: 'motor',
      id: 'n',
      a: 'y',
      b: 'body',
      ratedVoltage: 13,
      runningCurrent: 12,
      stallResistance: 0.3,
      loading: 'constant',
    },
  ],
  'fan motors': [
    ...car,
    alternator(60),
    {
      type: 'motor',
      id: 'm',
      a: 'x',
      b: 'body',
      ratedVoltage: 13,
      runningCurrent: 18,
      stallResistance: 0.15,
      loading: 'fan',
    },
    r('slow', 'x', 'y', 0.4),
    {
      type: 'motor',
      id: 'n',
      a: 'y',
      b: 'body',
      ratedVoltage: 13,
      runningCurrent: 18,
      stallResistance: 0.15,
      loading: 'fan',
    },
  ],
  'relay coil, its contact pulled in and feeding a fan; a second coil too weak to pull in': [
    ...car,
    r('coil', 'x', 'body', 85),
    {
      type: 'relayContact',
      id: 'k',
      a: 'q',
      b: 'y',
      operatedBy: 'coil',
      pullIn: 7.5,
      dropOut: 3,
      ohm: 0.004,
      normally: 'open',
    },
    {
      type: 'motor',
      id: 'm',
      a: 'y',
      b: 'body',
      ratedVoltage: 13,
      runningCurrent: 18,
      stallResistance: 0.15,
      loading: 'fan',
    },
    r('bad', 'x', 'z', 120),
    r('weak', 'z', 'body', 85),
    {
      type: 'relayContact',
      id: 'l',
      a: 'q',
      b: 'u',
      operatedBy: 'weak',
      pullIn: 7.5,
      dropOut: 3,
      ohm: 0.004,
      normally: 'open',
    },
    r('heater', 'u', 'body', 0.9),
  ],
  'relay behind a relay': [
    ...car,
    r('coil', 'x', 'body', 85),
    {
      type: 'relayContact',
      id: 'k',
      a: 'q',
      b: 'y',
      operatedBy: 'coil',
      pullIn: 7.5,
      dropOut: 3,
      ohm: 0.004,
      normally: 'open',
    },
    r('second', 'y', 'body', 60),
    {
      type: 'relayContact',
      id: 'l',
      a: 'q',
      b: 'z',
      operatedBy: 'second',
      pullIn: 7.5,
      dropOut: 3,
      ohm: 0.004,
      normally: 'open',
    },
    lamp('horn', 'z', 'body', 60),
  ],
  'diode across a coil and a diode in its feed': [
    ...car,
    { type: 'diode', id: 'feed-diode', a: 'x', b: 'y', forwardVoltage: 0.7, onResistance: 0.05 },
    r('coil', 'y', 'body', 85),
    { type: 'diode', id: 'clamp', a: 'body', b: 'y', forwardVoltage: 0.7, onResistance: 0.05 },
    {
      type: 'relayContact',
      id: 'k',
      a: 'q',
      b: 'z',
      operatedBy: 'coil',
      pullIn: 7.5,
      dropOut: 3,
      ohm: 0.004,
      normally: 'open',
    },
    r('load', 'z', 'body', 2),
  ],
  'battery that accepts a few amperes': [
    { ...battery, acceptance: 4 } as NetworkElement,
    ...car.slice(1),
    alternator(60),
    r('load', 'x', 'body', 0.35),
  ],
}

describe('node voltages as ngspice 45.2 finds them', () => {
  test.each(Object.entries(networks))('%s', async (_, elements) => {
    const network: Network = { reference: '0', elements }
    // ngspice needs a start near the answer for the kinked laws; it still has to balance the currents itself.
    const rough = new Map([...solveNetwork(network).voltages].map(([n, v]) => [n, v === null ? 0 : v * 1.02 + 0.01]))
    await agrees(network, rough)
  })

  test('random networks of resistors, lamps and diodes', async () => {
    await fc.assert(
      fc.asyncProperty(resistiveNetworks({ largest: 25 }), async (network) => {
        const rough = new Map([...solveNetwork(network).voltages].map(([n, v]) => [n, v === null ? 0 : v * 1.001]))
        await agrees(network, rough)
      }),
      { numRuns: 40 },
    )
  }, 50_000)

  // ngspice is told our voltages 0.1 % off; it has to balance the currents of every law itself.
  test('random networks with every law: motors, constant currents and powers, alternators, accepting batteries', async () => {
    await fc.assert(
      fc.asyncProperty(resistiveNetworks({ largest: 12, allLaws: true }), async (network) => {
        const rough = new Map([...solveNetwork(network).voltages].map(([n, v]) => [n, v === null ? 0 : v * 1.001]))
        await agrees(network, rough)
      }),
      { numRuns: 40 },
    )
  }, 50_000)

  // The silicon diode of ngspice (is 1e-14 A, n 1, rs 0.05 Ω) against the two straight lines: at 1…5 A its junction
  // takes n·kT/q·ln(I/is) = 0.83…0.87 V at 27 °C, so 0.85 V and 0.05 Ω stay within 0.05 V of it.
  test.each([12, 4, 2.4])('a junction diode feeding %d Ω differs by less than 50 mV', async (ohm) => {
    const { Simulation } = await import('eecircuit-engine')
    const simulation = new Simulation()
    await simulation.start()
    simulation.setNetList(`diode\nv1 p 0 12.6\nd1 p y dm\nr1 y 0 ${ohm}\n.model dm d(is=1e-14 n=1 rs=0.05)\n.op\n.end`)
    const { data } = await simulation.runSim()
    const theirs = data.find(({ name }) => name.toLowerCase() === 'v(y)')!.values[0] as number
    const ours = solveNetwork({
      reference: '0',
      elements: [
        { ...battery, emf: 12.6, internalResistance: 1e-6 } as NetworkElement,
        { type: 'diode', id: 'd', a: 'p', b: 'y', forwardVoltage: 0.85, onResistance: 0.05 },
        r('load', 'y', '0', ohm),
      ],
    }).voltages.get('y')!
    expect(Math.abs(ours - theirs)).toBeLessThan(0.05)
  })
})
