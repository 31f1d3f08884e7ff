/** Every wire to cut, reel by reel: size, colour, length, both ends, the label of both ends. */
import { cutOf } from '../../assess/loom/cut.ts'
import { loomSettings } from '../../assess/loom/settings.ts'
import type { Build } from '../../model/build.ts'
import { colourText, endName, endText, LIST_NAMES, type List, naturally, once, sizeText } from './list.ts'
import { nothingLeft, wiresToCut } from './toCut.ts'

export const cutList = (build: Build): List => {
  const { wires, notes } = wiresToCut(build)
  const { tail, service } = loomSettings(build)
  const rows = wires
    .map((wire) => ({ wire, cut: cutOf(build, wire) }))
    .sort(
      (a, b) =>
        (b.wire.area?.value ?? 0) - (a.wire.area?.value ?? 0) ||
        naturally(colourText(a.wire) ?? '', colourText(b.wire) ?? '') ||
        naturally(a.wire.id, b.wire.id),
    )
  return {
    id: 'cut',
    title: LIST_NAMES.cut,
    says: 'Each wire as it comes off the reel, thickest first, then by colour; both ends carry the wire’s number.',
    tables: [
      {
        columns: [
          { name: 'Wire' },
          { name: 'Size' },
          { name: 'Colour' },
          { name: 'Class' },
          { name: 'Cut, m', digits: 2 },
          { name: '±, m', digits: 2 },
          { name: 'From' },
          { name: 'End there' },
          { name: 'To' },
          { name: 'End there ' },
          { name: 'With' },
        ],
        rows: rows.map(({ wire, cut }) => [
          wire.id,
          sizeText(wire),
          colourText(wire),
          wire.insulation,
          cut.cut,
          cut.cut === undefined ? undefined : (cut.plusMinus ?? ''),
          endName(build, wire.from),
          endText(wire, 'from'),
          endName(build, wire.to),
          endText(wire, 'to'),
          [
            wire.twistedWith === undefined ? '' : `twisted with ${wire.twistedWith}`,
            wire.screened ? 'screened' : '',
            wire.material === undefined || wire.material === 'copper' ? '' : wire.material,
          ]
            .filter(Boolean)
            .join(', '),
        ]),
      },
    ],
    notes: [
      `A length is the runs of the wire’s path, ${tail.value.toFixed(2)} m of tail at each end (${tail.from}) and ${service.value.toFixed(2)} m more at each end to terminate it once again (${service.from}); an entered length gets the service alone.`,
      'The ± is that of the lengths measured. Lay one wire of each path before the rest is cut.',
      ...notes,
    ],
    missing: once([
      ...rows.flatMap(({ wire, cut }) => (cut.missing === undefined ? [] : [`${cut.missing}, for ${wire.id}`])),
      ...rows.flatMap(({ wire }) => (wire.area === undefined ? [`cross-section of ${wire.id}`] : [])),
      ...rows.flatMap(({ wire }) => (wire.colour === undefined ? [`colour of ${wire.id}`] : [])),
      ...rows.flatMap(({ wire }) =>
        (['from', 'to'] as const).flatMap((end) =>
          wire.ends?.[end] === undefined ? [`how ${wire.id} ends at ${endName(build, wire[end])}`] : [],
        ),
      ),
    ]),
    ...(rows.length === 0 ? { empty: nothingLeft(build, 'cut') } : {}),
  }
}
