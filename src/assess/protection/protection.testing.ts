/** The small build of the tests, with what the law of protection asks about. Each test changes what it is about. */
import type { Build, Device } from '../../model/build.ts'
import { assess } from '../assess.ts'
import { small } from '../small.testing.ts'

export const named = (build: Build, rule: string) => assess(build).findings.filter((found) => found.rule === rule)

export const fuse = (
  id: string,
  rating: number,
  more: Partial<Extract<Device['spec'], { kind: 'fuse' }>> = {},
): Device => ({
  id,
  name: `Fuse ${id}`,
  zone: 'bay',
  pins: { 1: {}, 2: {} },
  spec: { kind: 'fuse', rating: { value: rating }, pattern: 'blade', ...more },
})

export const rate = (build: Build, rating: number, pattern?: 'blade' | 'high-current blade' | 'bolt-down') => {
  const { spec } = build.collections.devices.fuse!
  if (spec.kind !== 'fuse') throw new Error('the small build has its fuse')
  spec.rating = { value: rating }
  if (pattern) spec.pattern = pattern
  spec.coldResistance = { value: 0.077 / rating }
}

/** The lamp becomes a motor: running and stalled current at 12 V. */
export const motorised = (running: number, stalled: number, change?: (build: Build) => void) =>
  small((build) => {
    const lamp = build.collections.devices.lamp!
    lamp.name = 'Motor'
    lamp.loads![0]!.law = {
      type: 'motor',
      ratedVoltage: { value: 12 },
      runningCurrent: { value: running },
      stallCurrent: { value: stalled },
    }
    change?.(build)
  })
