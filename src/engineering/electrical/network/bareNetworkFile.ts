import { type Problem, Refusal } from '../../../units/problem.ts'
import { type BareElement, bareElementProblems } from './bareElements.ts'
import { idealSourceLoops } from './idealSourceLoops.ts'

/**
 * Reads a bare network file, format `car-dc-network/1`: one direct-current network in JSON with nothing of the car
 * model around it. Units stand in the field names (`_V`, `_A`, `_W`, `_m`, `_mm2`, `_C`, `ohm`), all SI but mm² and °C.
 * Fields that the format does not have are passed over.
 */
export interface BareVariant {
  readonly id: string
  readonly set: Readonly<Record<string, Readonly<Record<string, unknown>>>>
  readonly remove: readonly string[]
}

export interface BareNetwork {
  readonly id: string
  readonly title?: string
  readonly reference: string
  readonly chassis?: string
  readonly nodes: readonly string[]
  readonly elements: readonly BareElement[]
  readonly testPoints: readonly string[]
  readonly derived: readonly { readonly id: string; readonly plus: string; readonly minus: string }[]
  readonly variants: readonly BareVariant[]
}

const BARE_FORMAT = 'car-dc-network/1'

type Json = Record<string, unknown>
const isObject = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value)
const isText = (value: unknown): value is string => typeof value === 'string' && value !== ''

/** Parses the text of a file. Throws `Refusal` with every problem. */
export const readBareNetwork = (text: string): BareNetwork => {
  let data: unknown
  try {
    data = JSON.parse(text)
  } catch (error) {
    throw new Refusal([
      {
        code: 'not-json',
        says: `The network file is not JSON: ${error instanceof Error ? error.message : String(error)}.`,
        todo: 'Mend the file at that place.',
      },
    ])
  }
  return parseBareNetwork(data)
}

/** Checks already parsed JSON. Throws `Refusal` with every problem. */
export const parseBareNetwork = (data: unknown): BareNetwork => {
  const problems: Problem[] = []
  const say = (code: string, path: string, says: string, todo: string): void => {
    problems.push({ code, path, says, todo })
  }
  if (!isObject(data) || data.format !== BARE_FORMAT)
    throw new Refusal([
      {
        code: 'unknown-format',
        path: 'format',
        says: `This is not a network of format ${BARE_FORMAT}.`,
        todo: `Give a JSON object with "format": "${BARE_FORMAT}".`,
      },
    ])
  const list = (key: string, needed: boolean): unknown[] => {
    const value = data[key]
    if (Array.isArray(value)) return value
    if (needed || value !== undefined) say('missing-list', key, `${key} is not a list.`, `Give ${key} as a list.`)
    return []
  }

  if (!isText(data.id)) say('missing-field', 'id', 'The network has no id.', 'Give it an id.')
  const nodes = list('nodes', true).filter((node): node is string => {
    if (!isText(node)) say('bad-node', 'nodes', `${JSON.stringify(node)} is not a node name.`, 'Give names as text.')
    return isText(node)
  })
  const declared = new Set<string>()
  for (const node of nodes) {
    if (declared.has(node)) say('duplicate-id', `nodes/${node}`, `Node ${node} is listed twice.`, 'List it once.')
    declared.add(node)
  }
  const known = (node: unknown, path: string, of: string): void => {
    if (!isText(node)) say('missing-field', path, `${of} names no node.`, 'Name a node of the list.')
    else if (!declared.has(node))
      say(
        'dangling-node',
        path,
        `${of} names node ${node}, which is not in the list of nodes.`,
        'Add it or mend the name.',
      )
  }
  known(data.reference, 'reference', 'The reference')
  if (data.chassis !== undefined && data.chassis !== null) known(data.chassis, 'chassis', 'The chassis')

  const elements: BareElement[] = []
  const ids = new Set<string>()
  const used = new Set<string>()
  list('elements', true).forEach((value, i) => {
    if (!isObject(value) || !isText(value.id) || !isText(value.type)) {
      say('bad-element', `elements/${i}`, `Element ${i + 1} has no id or no type.`, 'Give it both.')
      return
    }
    const path = `elements/${value.id}`
    if (ids.has(value.id)) say('duplicate-id', path, `Two elements are called ${value.id}.`, 'Give each its own id.')
    ids.add(value.id)
    for (const end of ['a', 'b'] as const) {
      known(value[end], `${path}/${end}`, `End ${end} of ${value.id}`)
      if (isText(value[end])) used.add(value[end])
    }
    const element = value as unknown as BareElement
    if (isText(value.a) && isText(value.b)) problems.push(...bareElementProblems(element))
    elements.push(element)
  })
  for (const node of declared)
    if (!used.has(node))
      say('unused-node', `nodes/${node}`, `No element uses node ${node}.`, 'Connect it or remove it.')
  problems.push(
    ...idealSourceLoops(
      elements.filter(
        ({ type, internal_ohm: ohm, a, b }) =>
          (type === 'battery' || type === 'alternator') && ohm === 0 && isText(a) && isText(b),
      ),
    ),
  )
  for (const { id, operated_by: by } of elements)
    if (isObject(by) && isText(by.coil) && !ids.has(by.coil))
      say(
        'missing-coil',
        `elements/${id}/operated_by`,
        `${id} is operated by ${by.coil}, which is not in the network.`,
        'Name the element that is its coil.',
      )

  const testPoints = list('test_points', false)
  for (const point of testPoints) known(point, 'test_points', 'The list of test points')
  const derived = list('derived', false)
  derived.forEach((value, i) => {
    if (!isObject(value) || !isText(value.id)) {
      say('bad-derived', `derived/${i}`, `Derived voltage ${i + 1} has no id.`, 'Give it id, plus and minus.')
      return
    }
    known(value.plus, `derived/${value.id}/plus`, `plus of ${value.id}`)
    known(value.minus, `derived/${value.id}/minus`, `minus of ${value.id}`)
  })
  const variants = parseVariants(list('variants', false), elements, say)
  problems.push(...variants.problems)
  if (problems.length > 0) throw new Refusal(problems)
  return {
    id: data.id as string,
    ...(isText(data.title) ? { title: data.title } : {}),
    reference: data.reference as string,
    ...(isText(data.chassis) ? { chassis: data.chassis } : {}),
    nodes,
    elements,
    testPoints: testPoints as string[],
    derived: derived as BareNetwork['derived'],
    variants: variants.variants,
  }
}

const parseVariants = (
  values: unknown[],
  elements: readonly BareElement[],
  say: (code: string, path: string, says: string, todo: string) => void,
): { variants: BareVariant[]; problems: Problem[] } => {
  const byId = new Map(elements.map((element) => [element.id, element]))
  const variants: BareVariant[] = []
  const problems: Problem[] = []
  const taken = new Set<string>(['base'])
  values.forEach((value, i) => {
    if (!isObject(value) || !isText(value.id)) {
      say('bad-variant', `variants/${i}`, `Variant ${i + 1} has no id.`, 'Give it one.')
      return
    }
    const { id } = value
    const path = `variants/${id}`
    // A file may list `base` itself, as long as it changes nothing.
    const empty =
      Object.keys(isObject(value.set) ? value.set : {}).length === 0 &&
      !(Array.isArray(value.remove) && value.remove.length > 0)
    if (taken.has(id) && !(id === 'base' && empty))
      say('duplicate-id', path, `Variant ${id} is there twice.`, 'Give each its own id.')
    taken.add(id)
    if (value.set !== undefined && !isObject(value.set))
      say('bad-variant', `${path}/set`, `set of variant ${id} is not an object.`, 'Give { element: { field: value } }.')
    if (value.remove !== undefined && !Array.isArray(value.remove))
      say('bad-variant', `${path}/remove`, `remove of variant ${id} is not a list.`, 'Give a list of element ids.')
    const set: Record<string, Json> = {}
    for (const [name, fields] of Object.entries(isObject(value.set) ? value.set : {})) {
      const element = byId.get(name)
      if (!element || !isObject(fields)) {
        say(
          'missing-element',
          `${path}/set/${name}`,
          `Variant ${id} changes ${name}, which is not an element or is given no fields.`,
          'Name an element and its fields.',
        )
        continue
      }
      set[name] = fields
      if ('id' in fields || 'a' in fields || 'b' in fields || 'type' in fields)
        say(
          'fixed-field',
          `${path}/set/${name}`,
          `Variant ${id} changes the id, type or nodes of ${name}.`,
          'Remove the element and add another in a file of its own.',
        )
      else if (isText(element.a) && isText(element.b))
        for (const problem of bareElementProblems({ ...element, ...fields } as BareElement))
          problems.push({ ...problem, path: `${path}/set/${name}`, says: `In variant ${id}: ${problem.says}` })
    }
    const remove = (Array.isArray(value.remove) ? value.remove : []).filter((name): name is string => {
      const found = isText(name) && byId.has(name)
      if (!found)
        say(
          'missing-element',
          `${path}/remove`,
          `Variant ${id} removes ${String(name)}, which is not in the network.`,
          'Name an element of the list.',
        )
      return found
    })
    if (id !== 'base') variants.push({ id, set, remove })
  })
  return { variants, problems }
}
