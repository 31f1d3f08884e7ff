/**
 * Rules of the driveline, gathered: torque (`torqueRules.ts`), propeller shaft (`shaftRules.ts`), road speed and weights
 * (`carRules.ts`). None says more than that the arithmetic holds.
 */
import type { Build } from '../../model/build.ts'
import { type Judged, withVerdicts } from '../chain/judged.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { carFindings } from './carRules.ts'
import { type DrivelineCase, type DrivelineChain, drivelineChain } from './chain.ts'
import { shaftFindings } from './shaftRules.ts'
import { torqueFindings } from './torqueRules.ts'

/** Nothing is judged where the sheet does not stand. */
const judgeDriveline = (chain: DrivelineChain): Judged[] =>
  Object.keys(chain.facts.sheet).length === 0
    ? []
    : [...torqueFindings(chain), ...shaftFindings(chain), ...carFindings(chain)]

export const drivelineFindings = ({ build }: Context): Finding[] =>
  build.sheets.driveline === undefined ? [] : judgeDriveline(drivelineChain(build)).map(({ finding: found }) => found)

/** For a screen: the chain in a chosen gear and load with the verdict at each station. */
export const judgedDriveline = (
  build: Build,
  chosen?: DrivelineCase,
): { readonly chain: DrivelineChain; readonly judged: readonly Judged[] } => {
  const chain = drivelineChain(build, chosen)
  const judged = judgeDriveline(chain)
  return { chain: withVerdicts(chain, judged), judged }
}
