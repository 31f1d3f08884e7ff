import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { emptyBuild } from '../model/build.ts'
import { applyChanges } from '../model/read.ts'
import { proposeJobs } from './proposedJobs.ts'

const taken = (circuit: string) => {
  const build = demoBuild()
  const proposal = proposeJobs(build).find((entry) => entry.circuit === circuit)!
  const next = applyChanges(
    build,
    proposal.jobs.map((job) => ({ collection: 'jobs' as const, id: job.id, value: job })),
  )
  return { build, proposal, next }
}

describe('jobs that the loom proposes', () => {
  it('are four for a circuit, each after the one before, with a step for every wire and every end', () => {
    const { build, proposal } = taken('horn')
    const wires = Object.values(build.collections.wires).filter(({ circuit }) => circuit === 'horn')
    expect(proposal.wires).toEqual(wires.map(({ id }) => id))
    expect(proposal.jobs.map(({ needs }) => needs?.jobs)).toEqual([
      undefined,
      ...proposal.jobs.slice(0, 3).map(({ id }) => [id]),
    ])
    expect(proposal.jobs[0]!.steps).toHaveLength(wires.length)
    expect(proposal.jobs[1]!.steps).toHaveLength(2 * wires.length)
    for (const { time } of proposal.jobs) {
      expect(time!.least.value).toBeLessThan(time!.likely.value)
      expect(time!.likely.value).toBeLessThan(time!.most.value)
    }
  })

  it('can all be taken into the build, which then proposes them no more', () => {
    for (const { circuit } of proposeJobs(demoBuild())) {
      const { next } = taken(circuit)
      expect(proposeJobs(next).map((entry) => entry.circuit)).not.toContain(circuit)
    }
  })

  it('are none for wires that are fitted, and none that touch an airbag or anti-lock unit', () => {
    const build = structuredClone(demoBuild())
    for (const wire of Object.values(build.collections.wires)) if (wire.circuit === 'horn') wire.fitted = true
    expect(proposeJobs(build).map(({ circuit }) => circuit)).not.toContain('horn')
    const other = structuredClone(demoBuild())
    const [first] = Object.values(other.collections.wires).filter(({ circuit }) => circuit === 'horn')
    first!.restricted = 'airbag'
    expect(proposeJobs(other).find(({ circuit }) => circuit === 'horn')!.wires).not.toContain(first!.id)
  })

  it('name what is not known, and an empty build has none', () => {
    expect(proposeJobs(emptyBuild('Mine'))).toEqual([])
    expect(() => proposeJobs(halfBuild())).not.toThrow()
    const build = structuredClone(demoBuild())
    for (const wire of Object.values(build.collections.wires))
      if (wire.circuit === 'horn') {
        delete wire.length
        delete wire.path
        delete wire.area
      }
    const horn = proposeJobs(build).find(({ circuit }) => circuit === 'horn')!
    for (const step of horn.jobs[0]!.steps!) expect(step).toMatch(/size not chosen.*length unknown: measure it/)
    expect(horn.jobs[2]!.steps![1]).toContain('no path is entered')
  })
})
