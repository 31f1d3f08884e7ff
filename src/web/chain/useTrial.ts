/** A chain as stored and as tried: the screens' only door to the build. */
import { useMemo, useState } from 'react'
import type { Build } from '../../model/build.ts'
import { bench } from '../workbench/bench.ts'
import { useBench } from '../workbench/useBench.ts'
import { type Lever, type Trial, type Typed, trialOf } from './levers.ts'

export interface ChainTrial<J> {
  readonly build: Build | undefined
  readonly stored: J | undefined
  /** Undefined while nothing differs. */
  readonly tried: J | undefined
  readonly trial: Trial | undefined
  readonly levers: readonly Lever[]
  readonly typed: Typed
  readonly aside: readonly string[]
  readonly type: (lever: string, text: string) => void
  readonly setAside: (reading: string, aside: boolean) => void
  readonly back: () => void
  readonly store: () => void
}

export const useTrial = <J>(
  judge: (build: Build) => J,
  leversOf: (build: Build) => readonly Lever[],
  label: string,
): ChainTrial<J> => {
  const { build } = useBench()
  const [typed, setTyped] = useState<Typed>({})
  const [aside, setAside] = useState<readonly string[]>([])
  const stored = useMemo(() => (build === undefined ? undefined : judge(build)), [build, judge])
  const levers = useMemo(() => (build === undefined ? [] : leversOf(build)), [build, leversOf])
  const trial = useMemo(
    () => (build === undefined ? undefined : trialOf(build, levers, typed, aside)),
    [build, levers, typed, aside],
  )
  const tried = useMemo(
    () => (trial === undefined || (trial.changes.length === 0 && aside.length === 0) ? undefined : judge(trial.build)),
    [trial, aside, judge],
  )
  const back = (): void => {
    setTyped({})
    setAside([])
  }
  return {
    build,
    stored,
    tried,
    trial,
    levers,
    typed,
    aside,
    type: (lever, text) => setTyped((before) => ({ ...before, [lever]: text })),
    setAside: (reading, on) =>
      setAside((before) => (on ? [...before, reading] : before.filter((id) => id !== reading))),
    back,
    store: () => {
      if (trial && trial.changes.length > 0 && bench.edit({ label, changes: [...trial.changes] })) back()
    },
  }
}
