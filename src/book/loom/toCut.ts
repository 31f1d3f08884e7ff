/** The wires that somebody has still to make, and what was left out of them. */

import { isWire } from '../../assess/loom/loom.ts'
import { restrictedWire } from '../../assess/make.ts'
import type { Build, Wire } from '../../model/build.ts'
import { counted, naturally } from './list.ts'

export interface ToCut {
  readonly wires: readonly Wire[]
  readonly notes: readonly string[]
}

/** Airbag and anti-lock wires are never made here; what is fitted is made already; a strap of bare metal is no wire. */
export const wiresToCut = (build: Build): ToCut => {
  const all = Object.values(build.collections.wires).filter(isWire)
  const restricted = all.filter(({ id }) => restrictedWire(build, id))
  const open = all.filter(({ id }) => !restrictedWire(build, id))
  const fitted = open.filter(({ fitted: isFitted }) => isFitted === true)
  return {
    wires: open.filter(({ fitted: isFitted }) => isFitted !== true).sort((a, b) => naturally(a.id, b.id)),
    notes: [
      ...(fitted.length > 0 ? [`${counted(fitted.length, 'wire is', 'wires are')} fitted already and left out.`] : []),
      ...(restricted.length > 0
        ? [
            `${counted(restricted.length, 'wire', 'wires')} of airbag or anti-lock circuits left out: that is work for those trained in it.`,
          ]
        : []),
    ],
  }
}

export const nothingLeft = (build: Build, what: string): string =>
  Object.keys(build.collections.wires).length === 0 ? 'No wire is entered yet.' : `There is no wire left to ${what}.`
