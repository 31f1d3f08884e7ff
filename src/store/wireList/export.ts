/** The wires as CSV that a spreadsheet opens without running anything: a leading = + - @ is quoted away. */
import type { Build } from '../../model/build.ts'
import { formatQuantity } from '../../units/format.ts'

const inert = (text: string): string => {
  const guarded = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text
  return /[",\n\r]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded
}

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
    .map((row) => row.map(inert).join(','))
    .join('\r\n')
    .concat('\r\n')
}
