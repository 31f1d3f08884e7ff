import { describe, expect, test } from 'vitest'
import { type NetworkElement, prepare, solveNetwork } from './network.ts'

const r = (id: string, a: string, b: string, ohm: number): NetworkElement => ({ type: 'resistor', id, a, b, ohm })
const battery = (emf: number): NetworkElement => ({
  type: 'battery',
  id: 'bat',
  a: 'p',
  b: '0',
  emf,
  internalResistance: 0.01,
})
const contact = (
  id: string,
  operatedBy: string,
  a: string,
  b: string,
  normally: 'open' | 'closed' = 'open',
): NetworkElement => ({
  type: 'relayContact',
  id,
  a,
  b,
  operatedBy,
  pullIn: 7.5,
  dropOut: 3,
  ohm: 0.005,
  normally,
})
const solve = (...elements: NetworkElement[]) => solveNetwork({ reference: '0', elements })

describe('relay contacts', () => {
  const circuit = [r('coil', 'p', '0', 85), contact('fan-relay', 'coil', 'p', 'x'), r('fan', 'x', '0', 0.7)]

  test.each([
    [12.6, 'closed'],
    [7.6, 'closed'],
    [7.4, 'open'],
    [-12.6, 'closed'],
  ])('at %d V the contact ends %s', (emf, state) => {
    const { relays, voltages } = solve(battery(emf), ...circuit)
    expect(relays).toEqual([{ element: 'fan-relay', state }])
    expect(Math.abs(voltages.get('x') ?? 0) > 1).toBe(state === 'closed')
  })

  test('hysteresis: pulled in at 12 V, it stays in when its own load takes the coil down to between 3 and 7.5 V', () => {
    const sagging = (ohm: number) =>
      solve(
        battery(12),
        r('thin', 'p', 'q', 1),
        r('coil', 'q', '0', 85),
        contact('k', 'coil', 'q', 'x'),
        r('load', 'x', '0', ohm),
      )
    const held = sagging(0.8)
    expect(held.relays[0]!.state).toBe('closed')
    expect(held.oscillating).toEqual([])
    expect(held.voltages.get('q')).toBeGreaterThan(3)
    expect(held.voltages.get('q')).toBeLessThan(7.5)
    // Down to below 3 V it lets go, the voltage comes back, and so on: it chatters.
    expect(sagging(0.2).oscillating).toEqual(['k'])
  })

  test('a buzzer (a coil fed through its own normally closed contact) is reported, not guessed', () => {
    const { oscillating, notes, converged } = solve(
      battery(12),
      contact('k', 'coil', 'p', 'x', 'closed'),
      r('coil', 'x', '0', 85),
    )
    expect(converged).toBe(true)
    expect(oscillating).toEqual(['k'])
    expect(notes[0]!.says).toBe(
      'Relay contact k never comes to rest: each time it changes over, its coil asks for the other state.',
    )
  })

  test('two relays that break each other: which is quicker is not known, so both are reported', () => {
    const { oscillating } = solve(
      battery(12),
      contact('k1', 'c2', 'p', 'x', 'closed'),
      r('c1', 'x', '0', 85),
      contact('k2', 'c1', 'p', 'y', 'closed'),
      r('c2', 'y', '0', 85),
    )
    expect(oscillating).toEqual(['k1', 'k2'])
  })

  test('a chain of five relays settles one after the other; cutting the first coil leaves all open', () => {
    const elements: NetworkElement[] = [battery(12), r('coil0', 'p', '0', 85)]
    for (let i = 0; i < 5; i++)
      elements.push(contact(`k${i}`, `coil${i}`, 'p', `x${i}`), r(`coil${i + 1}`, `x${i}`, '0', 85))
    const prepared = prepare({ reference: '0', elements })
    expect(prepared.solve().relays.every(({ state }) => state === 'closed')).toBe(true)
    expect(prepared.solve({ remove: ['coil0'] }).relays.every(({ state }) => state === 'open')).toBe(true)
    expect(prepared.solve().relays.every(({ state }) => state === 'closed')).toBe(true)
  })

  test('what lies behind an open contact floats', () => {
    expect(solve(battery(6), ...circuit.slice(0, 2), r('wire', 'x', 'y', 1)).islands).toEqual([['x', 'y']])
  })
})
