/** The wires as CSV that a spreadsheet opens without running anything. */
import type { Build } from '../../model/build.ts'
import { csvCell } from '../../units/csvCell.ts'
import { formatQuantity } from '../../units/format.ts'

export const wiresAsCsv = (build: Build): string => {
  const rows = Object.values(build.collections.wires).map((wire) => [
    wire.id,
    wire.from,
    wire.to,
    wire.area ? formatQuantity('area', wire.area.value, wire.area.unit ? { unit: wire.area.unit } : {}) : '',
    `${wire.colour ?? ''}${wire.tracer ?? ''}`,
    wire.length ? formatQuantity('length', wire.length.value, wire.length.unit ? { unit: wire.length.unit } : {}) : '',
    wire.circuit ?? '',
    wire.remark ?? '',
  ])
  return [['wire', 'from', 'to', 'size', 'colour', 'length', 'circuit', 'remark'], ...rows]
    .map((row) => row.map(csvCell).join(','))
    .join('\r\n')
    .concat('\r\n')
}
