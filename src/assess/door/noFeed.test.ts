import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { assess } from '../assess.ts'
import { contextOf } from '../context.ts'
import { noFeedFindings } from './noFeed.ts'

const without = (...wires: string[]) => {
  const build = soundBuild()
  for (const id of wires) delete build.collections.wires[id]
  return build
}
const found = (...wires: string[]) => noFeedFindings(contextOf(without(...wires)))

describe('what nothing can feed', () => {
  it('is not there in the demo, the sound and the half-entered build', () => {
    for (const build of [demoBuild(), soundBuild(), halfBuild()]) expect(noFeedFindings(contextOf(build))).toEqual([])
  })
  it.each([
    ['W-15', 'devices/ecu', 'wire that feeds Controller, pin P'],
    ['W-23', 'devices/fuel-pump', 'wire that feeds Fuel pump, pin +'],
    ['W-1', 'devices/starter', 'wire that feeds Starter, pin 30'],
    ['W-10', 'devices/starter', 'wire that feeds Starter, pin 50'],
    ['W-22', 'devices/pump-relay', 'wire that feeds Fuel pump relay, pin 86'],
  ])('without %s asks for the wire', (wire, subject, missing) => {
    expect(found(wire)).toMatchObject([{ subject, verdict: 'unknown', missing }])
  })
  it('names the wires that lead nowhere and where the way ends', () => {
    expect(found('W-26')).toMatchObject([
      {
        subject: 'devices/work-lamp',
        verdict: 'marginal',
        todo: expect.stringMatching(/^Join Work lamp switch, pin 1 to a fuse/),
      },
    ])
  })
  it('reaches what is fed in series with another load', () => {
    expect(found('W-17').map(({ subject }) => subject)).toEqual(['devices/injector-1', 'devices/injector-2'])
    expect(found('W-18').map(({ subject }) => subject)).toEqual(['devices/injector-2'])
  })
  it('a starter that takes no current is not put down to the battery', () => {
    const parked = (build: ReturnType<typeof soundBuild>) =>
      assess(build).findings.find(({ rule }) => rule === 'parked-days')
    expect(parked(soundBuild())?.verdict).not.toBe('unknown')
    for (const wire of ['W-10', 'W-1', 'W-3'])
      expect(parked(without(wire)), wire).toMatchObject({
        verdict: 'unknown',
        missing: expect.stringContaining('starter'),
      })
  })
})
