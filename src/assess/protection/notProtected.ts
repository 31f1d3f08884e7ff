/** Says once a build what no fuse does: a fault that draws less than 135 % of its rating is not protected. */
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { finding } from '../make.ts'
import { fuseOf } from './facts.ts'
import { reachOf } from './reach.ts'

export const notProtectedFindings = (context: Context): Finding[] => {
  const [first] = reachOf(context)
    .map(({ fuse }) => fuse)
    .sort()
  const fuse = first === undefined ? undefined : fuseOf(context.build, first)
  if (!fuse) return []
  return [
    finding({
      rule: 'below-fuse-gates',
      verdict: 'sound',
      system: 'electrical',
      subject: `devices/${fuse.id}`,
      about: 'All fuses',
      says: 'An arcing short, or one through a resistance, that draws less than 135 % of a fuse’s rating is not protected by any fuse: no standard makes it open there. Wires that suit their fuse stand it; what they touch may not.',
      todo: 'Sleeve and clip the loom, keep it off edges and hot parts, and look for chafing at every service.',
      working: ['Gates of ISO 8820-3 and -5 begin at 135 % [from memory].'],
    }),
  ]
}
