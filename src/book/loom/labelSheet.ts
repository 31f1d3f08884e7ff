/** A label for each end of each wire: the wire, what it is made of, where this end goes and where the other one is. */
import type { Build } from '../../model/build.ts'
import { colourText, endName, LIST_NAMES, type List, sizeText } from './list.ts'
import { nothingLeft, wiresToCut } from './toCut.ts'

export const labelSheet = (build: Build): List => {
  const { wires, notes } = wiresToCut(build)
  return {
    id: 'labels',
    title: LIST_NAMES.labels,
    says: 'Two labels a wire, one for each end. Print, cut, wrap round the end under clear heat-shrink.',
    tables: [
      {
        columns: ['Wire', 'What', 'This end', 'Other end'].map((name) => ({ name })),
        rows: wires.flatMap((wire) =>
          (['from', 'to'] as const).map((end) => [
            wire.id,
            [sizeText(wire), colourText(wire)].filter(Boolean).join(' '),
            endName(build, wire[end]),
            endName(build, wire[end === 'from' ? 'to' : 'from']),
          ]),
        ),
      },
    ],
    notes,
    missing: [],
    ...(wires.length === 0 ? { empty: nothingLeft(build, 'label') } : {}),
  }
}
