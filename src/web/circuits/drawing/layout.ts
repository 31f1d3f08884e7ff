/**
 * Where everything of a diagram goes: the layered method with fixed ports, in a worker that is fetched when the first
 * drawing is asked for. The same diagram gives the same places; figures never move anything.
 */
import type { ElkExtendedEdge, ElkNode, ElkPort } from 'elkjs/lib/elk-api.js'
import type { Diagram, Part } from './diagram.ts'
import { COLUMN, columnX, LABEL, sizeOf } from './measures.ts'

export interface Spot {
  readonly x: number
  readonly y: number
}
export interface PlacedPart extends Spot {
  readonly part: Part
  readonly width: number
  readonly height: number
  /** By port id, from the part's own corner. */
  readonly ports: ReadonlyMap<string, Spot>
}
export interface PlacedLine {
  readonly id: string
  /** Ports. */
  readonly from: string
  readonly to: string
  readonly points: readonly Spot[]
  readonly label: Spot
  /** Where wires that share a pin part: drawn as dots. */
  readonly junctions: readonly Spot[]
}
export interface Placed {
  readonly width: number
  readonly height: number
  readonly parts: readonly PlacedPart[]
  readonly lines: readonly PlacedLine[]
}

const OPTIONS = {
  'elk.algorithm': 'layered',
  'elk.direction': 'DOWN',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.layered.nodePlacement.strategy': 'BRANDES_KOEPF',
  'elk.layered.nodePlacement.favorStraightEdges': 'true',
  'elk.layered.considerModelOrder.strategy': 'PREFER_NODES',
  'elk.layered.spacing.nodeNodeBetweenLayers': '18',
  'elk.layered.spacing.edgeNodeBetweenLayers': '12',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '10',
  'elk.spacing.nodeNode': '20',
  'elk.spacing.edgeNode': '14',
  'elk.spacing.edgeEdge': '14',
  'elk.spacing.edgeLabel': '4',
  'elk.spacing.portPort': String(COLUMN),
  'elk.layered.edgeLabels.sideSelection': 'ALWAYS_UP',
  'elk.spacing.componentComponent': '36',
  'elk.padding': '[top=12,left=12,bottom=12,right=22]',
}
const LAYER = { first: 'FIRST', last: 'LAST', between: 'NONE' } as const

/** Prefixes keep a wire and a device of one name apart. */
const nodeId = (part: string): string => `part ${part}`

export const graphOf = ({ parts, lines }: Diagram): ElkNode => ({
  id: 'circuit',
  layoutOptions: OPTIONS,
  children: parts.map((part): ElkNode => {
    const { width, height } = sizeOf(part)
    const isFixed = part.ports.some(({ column }) => column !== undefined)
    return {
      id: nodeId(part.id),
      width,
      height,
      layoutOptions: {
        'elk.portConstraints': isFixed ? 'FIXED_POS' : 'FIXED_SIDE',
        'elk.portAlignment.default': 'CENTER',
        'elk.spacing.portPort': String(COLUMN),
        'elk.layered.layering.layerConstraint': LAYER[part.place],
      },
      ports: part.ports.map(
        (port): ElkPort => ({
          id: port.id,
          width: 0,
          height: 0,
          ...(port.column === undefined ? {} : { x: columnX(port.column), y: port.side === 'top' ? 0 : height }),
          layoutOptions: { 'elk.port.side': port.side === 'top' ? 'NORTH' : 'SOUTH' },
        }),
      ),
    }
  }),
  edges: lines.map(
    ({ id, from, to }): ElkExtendedEdge => ({
      id: `wire ${id}`,
      sources: [from],
      targets: [to],
      labels: [{ id: `label ${id}`, text: id, ...LABEL }],
    }),
  ),
})

export const placedOf = (diagram: Diagram, laid: ElkNode): Placed => {
  const nodes = new Map((laid.children ?? []).map((node) => [node.id, node]))
  const edges = new Map((laid.edges ?? []).map((edge) => [edge.id, edge]))
  return {
    width: laid.width ?? 0,
    height: laid.height ?? 0,
    parts: diagram.parts.map((part) => {
      const node = nodes.get(nodeId(part.id))!
      return {
        part,
        x: node.x ?? 0,
        y: node.y ?? 0,
        width: node.width ?? 0,
        height: node.height ?? 0,
        ports: new Map((node.ports ?? []).map(({ id, x = 0, y = 0 }) => [id, { x, y }])),
      }
    }),
    lines: diagram.lines.map(({ id, from, to }) => {
      const edge = edges.get(`wire ${id}`)!
      const points = (edge.sections ?? []).flatMap((section) => [
        section.startPoint,
        ...(section.bendPoints ?? []),
        section.endPoint,
      ])
      const { x = 0, y = 0 } = edge.labels?.[0] ?? {}
      return { id, from, to, points, label: { x, y }, junctions: edge.junctionPoints ?? [] }
    }),
  }
}

type Layout = (graph: ElkNode) => Promise<ElkNode>
let started: Promise<Layout> | undefined
/** The worker stays for the next drawing; both it and its speaker come only with the first. */
const start = (): Promise<Layout> => {
  started ??= Promise.all([import('elkjs/lib/elk-api.js'), import('elkjs/lib/elk-worker.min.js?url')]).then(
    ([{ default: Elk }, { default: url }]) => {
      const elk = new Elk({ workerUrl: url, workerFactory: (address) => new Worker(address ?? url) })
      return (graph) => elk.layout(graph) as Promise<ElkNode>
    },
  )
  return started
}

const KEPT = 24
const known = new Map<string, Promise<Placed>>()

/** The same structure is laid out once. */
export const layOut = (diagram: Diagram): Promise<Placed> => {
  const graph = graphOf(diagram)
  const key = layoutKey(diagram)
  const before = known.get(key)
  if (before) return before
  const placed = start().then(async (layout) => placedOf(diagram, await layout(graph)))
  // One that failed is tried again when it is asked for again.
  placed.catch(() => {
    known.delete(key)
    started = undefined
  })
  known.set(key, placed)
  const oldest = known.keys().next().value
  if (known.size > KEPT && oldest !== undefined) known.delete(oldest)
  return placed
}

/** Names and terminals are drawn from the placed parts, so they count; figures are not in a diagram at all. */
export const layoutKey = (diagram: Diagram): string => JSON.stringify(diagram)
