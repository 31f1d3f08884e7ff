import { describe, expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
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
})
