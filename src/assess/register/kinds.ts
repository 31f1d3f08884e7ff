/** What a register entry is a figure of, and the unit in which it is usually said. */
import type { Kind } from '../../units/kinds.ts'

export const KINDS_OF = {
  torque: { kind: 'torque', unit: 'N·m', title: 'Torque' },
  angle: { kind: 'angle', unit: '°', title: 'Angle' },
  clearance: { kind: 'length', unit: 'mm', title: 'Clearance' },
} as const satisfies Readonly<Record<string, { kind: Kind; unit: string; title: string }>>
