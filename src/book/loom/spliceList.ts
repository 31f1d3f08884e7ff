/** Where wires are joined in the loom: which, how much metal, where on the board, and how. */

import { isWire } from '../../assess/loom/loom.ts'
import { deviceIdOf, deviceZone, own, squareMillimetres } from '../../assess/make.ts'
import type { Build } from '../../model/build.ts'
import { colourText, endText, LIST_NAMES, type List, naturally, once, sizeText } from './list.ts'

export const spliceList = (build: Build): List => {
  const missing: string[] = []
  const wires = Object.values(build.collections.wires).filter(isWire)
  const rows = Object.values(build.collections.devices)
    .filter(({ spec }) => spec.kind === 'splice')
    .sort((a, b) => naturally(a.name, b.name))
    .map((splice) => {
      const ends = wires
        .flatMap((wire) =>
          (['from', 'to'] as const).flatMap((end) => (deviceIdOf(wire[end]) === splice.id ? [{ wire, end }] : [])),
        )
        .sort((a, b) => naturally(a.wire.id, b.wire.id))
      const bare = ends.filter(({ wire }) => wire.area === undefined).map(({ wire }) => wire.id)
      missing.push(...bare.map((id) => `cross-section of ${id}`))
      const metal = bare.length > 0 ? undefined : ends.reduce((sum, { wire }) => sum + wire.area!.value, 0)
      const methods = once(ends.map(({ wire, end }) => endText(wire, end) ?? 'not said'))
      missing.push(
        ...ends
          .filter(({ wire, end }) => endText(wire, end) === undefined)
          .map(({ wire }) => `how ${wire.id} ends in ${splice.name}`),
      )
      const at = splice.at === undefined ? undefined : own(build.collections.branchPoints, splice.at)?.name
      if (at === undefined) missing.push(`branch point of ${splice.name}`)
      return [
        splice.name,
        at,
        own(build.collections.zones, deviceZone(build, splice.id) ?? '')?.name,
        ends.map(({ wire }) => `${wire.id} ${sizeText(wire) ?? ''} ${colourText(wire) ?? ''}`.trim()).join('; '),
        metal === undefined ? undefined : squareMillimetres(metal),
        methods.join(' and '),
      ] as const
    })
  return {
    id: 'splices',
    title: LIST_NAMES.splices,
    says: 'Every joint of wires in the loom, with the metal that its sleeve or ferrule must take.',
    tables: [
      { columns: ['Splice', 'At', 'Zone', 'Wires', 'Metal together', 'Made by'].map((name) => ({ name })), rows },
    ],
    notes: [
      'Splices of one branch are staggered, so that the bundle does not swell in one place. Common practice, no published source.',
    ],
    missing: once(missing),
    ...(rows.length === 0 ? { empty: 'The loom has no splice.' } : {}),
  }
}
