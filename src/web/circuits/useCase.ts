/** The operating case that a view of the whole car looks at: full load unless another is chosen. */
import { useState } from 'react'
import type { Build, OperatingCase } from '../../model/build.ts'

interface ChosenCase {
  readonly kase: OperatingCase | undefined
  readonly cases: readonly OperatingCase[]
  readonly choose: (id: string) => void
}
export const useCase = (build: Build | undefined, isOffered: (kase: OperatingCase) => boolean): ChosenCase => {
  const [id, choose] = useState<string>()
  const cases = Object.values(build?.collections.cases ?? {}).filter(isOffered)
  const kase = cases.find((one) => one.id === id) ?? cases.find(({ engine }) => engine === 'full load') ?? cases[0]
  return { kase, cases, choose }
}
