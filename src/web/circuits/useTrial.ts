/** The case that is looked at and what was tried on top of it; solved here at once, stored nowhere. */
import { useMemo, useState } from 'react'
import type { Build, OperatingCase } from '../../model/build.ts'
import { type Live, laidOver, liveOf, NOTHING_TRIED, type WhatIf } from './drawing/live.ts'

interface Trial {
  readonly kase: OperatingCase | undefined
  readonly live: Live | undefined
  readonly tried: WhatIf
  readonly chooseCase: (id: string) => void
  readonly back: () => void
  readonly setSwitch: (id: string, position: string) => void
  readonly setOutput: (id: string, duty: number) => void
}

/** Without what agrees with the stored case: turning a switch back leaves nothing tried. */
const differing = <T>(tried: Readonly<Record<string, T>>, stored: (id: string) => T): Record<string, T> =>
  Object.fromEntries(Object.entries(tried).filter(([id, value]) => value !== stored(id)))

export const useTrial = (build: Build | undefined): Trial => {
  const [caseId, setCase] = useState<string>()
  const [tried, setTried] = useState<WhatIf>(NOTHING_TRIED)
  const cases = Object.values(build?.collections.cases ?? {})
  // Full load is where wires are tried hardest.
  const kase = cases.find(({ id }) => id === caseId) ?? cases.find(({ engine }) => engine === 'full load') ?? cases[0]
  const live = useMemo(
    () => (build === undefined || kase === undefined ? undefined : liveOf(build, laidOver(kase, tried))),
    [build, kase, tried],
  )
  const restOf = (id: string): string => {
    const spec = build?.collections.devices[id]?.spec
    return spec?.kind === 'switch' ? spec.rest : ''
  }
  return {
    kase,
    live,
    tried,
    chooseCase: (id) => {
      setCase(id)
      setTried(NOTHING_TRIED)
    },
    back: () => setTried(NOTHING_TRIED),
    setSwitch: (id, position) =>
      setTried((before) => ({
        ...before,
        switches: differing({ ...before.switches, [id]: position }, (one) => kase?.switches[one] ?? restOf(one)),
      })),
    setOutput: (id, duty) =>
      setTried((before) => ({
        ...before,
        outputs: differing({ ...before.outputs, [id]: duty }, (one) => kase?.outputs[one] ?? 0),
      })),
  }
}
