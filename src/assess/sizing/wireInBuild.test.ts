import { describe, expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { motorised, named, rate } from '../protection/protection.testing.ts'
import { sizeWire, sizeWiresOf } from './wireInBuild.ts'

describe('a wire of the build, sized', () => {
  const build = demoBuild()
  it('takes the load that is given in place of the solved one, for the fuse above as well', () => {
    const [as, more] = [sizeWire(build, 'W-302'), sizeWire(build, 'W-302', { current: 20 })]
    expect(as.because).toMatch(/solved in “/)
    expect(more.because).toBe('as you say')
    expect(more.current).toBe(20)
    // The fuse carries this wire's current and no other: its load grows by as much.
    expect(more.fuse!.load - as.fuse!.load).toBeCloseTo(20 - as.current, 6)
    expect(more.fuse!.smallest!.rating!).toBeGreaterThan(as.fuse!.smallest!.rating!)
  })
  it('takes a larger fuse no thinner a wire, and gives a reason for each thinner one', () => {
    const [as, behind30] = [sizeWire(build, 'W-302'), sizeWire(build, 'W-302', { rating: 30 })]
    expect(as.fuse).toMatchObject({ device: 'fuse-pump', fitted: 15, rating: 15 })
    expect(behind30.fuse).toMatchObject({ fitted: 15, rating: 30 })
    expect(behind30.choice.chosen!.candidate.area).toBeGreaterThanOrEqual(as.choice.chosen!.candidate.area)
    expect(behind30.choice.rejected.some(({ because }) => /30 A fuse/.test(because))).toBe(true)
  })
  it('asks no drop unless one is given; a tighter one wants a thicker wire', () => {
    const [free, tight] = [sizeWire(build, 'W-302'), sizeWire(build, 'W-302', { dropLimit: 0.3 })]
    expect(tight.choice.chosen!.drop).toBeLessThanOrEqual(0.3)
    expect(tight.choice.chosen!.candidate.area).toBeGreaterThan(free.choice.chosen!.candidate.area)
    expect(sizeWiresOf(build, 'fuel-pump').map(({ wire: { id } }) => id)).toEqual(['W-303', 'W-304'])
  })
  it('stands a motor held fast, as the check asks of it', () => {
    // 26 A held on a 20 A fuse, 130 %: nothing opens, so the wire carries it for good.
    const held = (stalled: number) =>
      motorised(8, stalled, (b) => {
        rate(b, 20)
        for (const id of ['W-2', 'W-4']) b.collections.wires[id]!.area = { value: 6e-6 }
      })
    const [easy, hard] = [sizeWire(held(9), 'W-3'), sizeWire(held(26.5), 'W-3')]
    expect(hard.choice.chosen!.candidate.area).toBeGreaterThan(easy.choice.chosen!.candidate.area)
    expect(hard.choice.rejected.at(-1)!.because).toContain('Motor held fast')
    const fitted = held(26.5)
    fitted.collections.wires['W-3']!.area = { value: hard.choice.chosen!.candidate.area }
    const check = named(fitted, 'fuse-against-conductor').find(({ subject }) => subject === 'wires/W-3')
    expect(check).toMatchObject({ verdict: 'sound' })
  })
})
