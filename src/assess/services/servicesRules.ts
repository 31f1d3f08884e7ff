/** Rules of oil, exhaust and cabin services, gathered. A sheet that does not stand is not judged. */
import type { Build } from '../../model/build.ts'
import { type Judged, withVerdicts } from '../chain/judged.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { cabinFindings } from './cabinRules.ts'
import { type ServicesChain, servicesChain } from './chain.ts'
import { exhaustFindings } from './exhaustRules.ts'
import { oilFindings } from './oilRules.ts'

const stands = (sheet: object | undefined): boolean => sheet !== undefined && Object.keys(sheet).length > 0

const judgeServices = (chain: ServicesChain): Judged[] => {
  const { oil, exhaust, cabin } = chain.facts.build.sheets
  return [
    ...(stands(oil) ? oilFindings(chain) : []),
    ...(stands(exhaust) ? exhaustFindings(chain) : []),
    ...(stands(cabin) ? cabinFindings(chain) : []),
  ]
}

export const serviceFindings = ({ build }: Context): Finding[] => {
  const { oil, exhaust, cabin } = build.sheets
  return stands(oil) || stands(exhaust) || stands(cabin)
    ? judgeServices(servicesChain(build)).map(({ finding }) => finding)
    : []
}

/** For a screen: the chain with the verdict at each station. */
export const judgedServices = (build: Build): { readonly chain: ServicesChain; readonly judged: readonly Judged[] } => {
  const chain = servicesChain(build)
  const judged = judgeServices(chain)
  return { chain: withVerdicts(chain, judged), judged }
}
