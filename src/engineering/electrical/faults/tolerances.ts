import type { NetworkElement } from '../network/network.ts'
import type { Tolerance } from './hypothesis.ts'
import type { Part } from './parts.ts'

export type Spread = 'contact' | 'wire' | 'fuse' | 'load' | 'battery'

/**
 * How far a car's parts lie from their model, common practice, no published source: contacts within a factor of two,
 * loads within 10 %, wires within 5 %, fuses within 15 %, a battery's resistance within 10 % and its rest voltage within
 * 20 mV of what the first reading is entered as.
 */
export const usualTolerance = (spread: Spread, element: NetworkElement): Tolerance[] => {
  const { id } = element
  if (spread === 'contact') return [{ element: id, field: 'ohm', factor: 2 }]
  if (spread === 'wire') return [{ element: id, field: 'ohm', relative: 0.05 }]
  if (spread === 'fuse') return [{ element: id, field: 'ohm', relative: 0.15 }]
  switch (element.type) {
    case 'battery':
      return [
        { element: id, field: 'internalResistance', relative: 0.1 },
        { element: id, field: 'emf', absolute: 0.02 },
      ]
    case 'resistor':
      return [{ element: id, field: 'ohm', relative: 0.1 }]
    case 'lamp':
      return [{ element: id, field: 'ratedPower', relative: 0.1 }]
    case 'constantCurrent':
      return [{ element: id, field: 'current', relative: 0.1 }]
    case 'constantPower':
      return [{ element: id, field: 'power', relative: 0.1 }]
    case 'motor':
      return [{ element: id, field: 'runningCurrent', relative: 0.1 }]
    default:
      return []
  }
}

const SPREADS: Partial<Record<Part['kind'], Spread>> = { wire: 'wire', fuse: 'fuse', load: 'load', battery: 'battery' }

/** The usual tolerances of the parts of a car; every kind but these four is a contact. */
export const partTolerances = (parts: readonly Part[], elements: readonly NetworkElement[]): Tolerance[] => {
  const byId = new Map(elements.map((element) => [element.id, element]))
  return parts.flatMap(({ kind, element: id }) => {
    const element = byId.get(id)
    return element ? usualTolerance(SPREADS[kind] ?? 'contact', element) : []
  })
}
