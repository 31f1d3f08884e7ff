/** The fuel chain as stored and as tried: the screen's only door to the build. */
import { useMemo, useState } from 'react'
import { type FuelChain, fuelChainOf } from '../../assess/fuel/chain.ts'
import type { Build } from '../../model/build.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { type Lever, leversOf, type Trial, type Tried, trialOf } from './levers.ts'

interface Fuel {
  readonly build: Build | undefined
  readonly stored: FuelChain | undefined
  readonly tried: FuelChain | undefined
  readonly trial: Trial | undefined
  readonly levers: readonly Lever[]
  readonly typed: Tried
  readonly type: (lever: string, text: string) => void
  readonly back: () => void
  readonly save: () => void
}

export const useFuel = (): Fuel => {
  const { build } = useBench()
  const [typed, setTyped] = useState<Tried>({})
  const stored = useMemo(() => (build === undefined ? undefined : fuelChainOf(build)), [build])
  const levers = useMemo(() => (build && stored ? leversOf(build, stored) : []), [build, stored])
  const trial = useMemo(() => (build ? trialOf(build, levers, typed) : undefined), [build, levers, typed])
  const tried = useMemo(
    () => (trial === undefined || trial.changes.length === 0 ? undefined : fuelChainOf(trial.build)),
    [trial],
  )
  return {
    build,
    stored,
    tried,
    trial,
    levers,
    typed,
    type: (lever, text) => setTyped((before) => ({ ...before, [lever]: text })),
    back: () => setTyped({}),
    save: () => {
      if (trial && bench.edit({ label: 'Fuel set-up as tried', changes: [...trial.changes] })) setTyped({})
    },
  }
}
