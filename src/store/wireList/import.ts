/**
 * A wire list kept in a spreadsheet becomes an edit. Rows that cannot be taken are told, with their line; the rest
 * is proposed whole, to be confirmed. Devices that the list names and the build lacks are made as connectors, so that
 * the list can be checked at once; the builder says later what they are.
 */
import type { Build, Change, Device, Edit, Wire } from '../../model/build.ts'
import { parseQuantity } from '../../units/parse.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { readColour } from './colours.ts'
import { type ColumnMap, FIELDS, type Field, guessColumns, headerUnit } from './columns.ts'
import type { Row } from './table.ts'

export interface WireListProposal {
  readonly headers: readonly string[]
  readonly columns: ColumnMap
  readonly edit: Edit
  readonly wires: number
  readonly newDevices: readonly string[]
  /** Rows not taken, each with its line. */
  readonly aside: readonly Problem[]
}

const tidy = (text: string): string =>
  text
    .trim()
    .replace(/[^A-Za-z0-9_+]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 48)

interface End {
  readonly device: string
  readonly pin: string
  readonly name: string
}

/** The device of that id or name, capitals and blanks apart: “Battery” in a list is the `battery` of the build. */
const storedDevice = (build: Build, text: string): Device | undefined => {
  const { devices } = build.collections
  if (Object.hasOwn(devices, text)) return devices[text]
  const wanted = tidy(text).toLowerCase()
  return Object.values(devices).find(
    (one) => one.id.toLowerCase() === wanted || tidy(one.name).toLowerCase() === wanted,
  )
}

const FIT = /^[A-Za-z0-9][A-Za-z0-9_+-]{0,47}$/
const PIN = /^[A-Za-z0-9+-]{1,16}$/
const MATERIALS: readonly NonNullable<Wire['material']>[] = [
  'copper',
  'tinned copper',
  'copper-clad aluminium',
  'aluminium',
]

/** `Fan relay pin 30`, `fan-relay.30` or device and pin in two columns. */
const readEnd = (build: Build, text: string, pinText: string | undefined): End | undefined => {
  const written = text.trim()
  if (written === '') return undefined
  const split = pinText ? null : /^(.+?)(?:\.|:|\s+pin\s+)([A-Za-z0-9+−-]{1,16})$/i.exec(written)
  const deviceText = split ? split[1]! : written
  const stored = storedDevice(build, deviceText)
  const pins = stored ? Object.keys(stored.pins) : ['1']
  // A device that the list brings has one joint unless pins are named; a stored one has the pins it has.
  const pin = (pinText ?? split?.[2] ?? (pins.length === 1 ? pins[0]! : '')).replaceAll('−', '-')
  const device = stored?.id ?? tidy(deviceText)
  return !FIT.test(device) || !PIN.test(pin) ? undefined : { device, pin, name: deviceText.slice(0, 120) }
}

export const proposeWires = (build: Build, rows: readonly Row[], chosen?: ColumnMap): WireListProposal => {
  const [header, ...body] = rows
  if (!header)
    throw new Refusal([{ code: 'empty-list', says: 'The wire list has no rows.', todo: 'Save the list again.' }])
  const columns = { ...guessColumns(header.cells), ...chosen }
  const lacking = (Object.keys(FIELDS) as Field[]).filter(
    (field) => FIELDS[field].needed && columns[field] === undefined,
  )
  if (lacking.length > 0) {
    throw new Refusal(
      lacking.map((field) => ({
        code: 'no-column',
        line: header.line,
        says: `No column of the list is named for “${FIELDS[field].title}” (found: ${header.cells.join(', ')}).`,
        todo: `Say which one it is, for example --map "${header.cells[0] ?? 'A'}=${field}".`,
      })),
    )
  }

  const wires = new Map<string, Wire>()
  const devices = new Map<string, Device>()
  const known = (id: string): Device | undefined =>
    devices.get(id) ?? (Object.hasOwn(build.collections.devices, id) ? build.collections.devices[id] : undefined)
  const made = new Set<string>()
  const circuits = new Map<string, Change>()
  const aside: Problem[] = []
  let next = 1

  for (const row of body) {
    const cell = (field: Field): string => {
      const index = columns[field]
      return index === undefined ? '' : (row.cells[index] ?? '').trim()
    }
    const wrong: Problem[] = []
    const fault = (code: string, says: string, todo: string): void => {
      const wire = cell('id') === '' ? '' : ` (wire ${cell('id').slice(0, 48)})`
      wrong.push({ code, line: row.line, says: `Line ${row.line}: ${says.replace(/\.$/, '')}${wire}.`, todo })
    }
    const read = (field: 'area' | 'length'): { value: number; plusMinus?: number; unit?: string } | undefined => {
      const text = cell(field)
      if (text === '') return undefined
      const unit = headerUnit(header.cells[columns[field]!] ?? '')
      try {
        const quantity =
          /^\d+([.,]\d+)?$/.test(text) && unit === 'AWG'
            ? parseQuantity(field, `AWG ${text}`)
            : parseQuantity(field, text, unit ? { unit } : {})
        if (!(quantity.value > 0)) {
          fault('not-positive', `${FIELDS[field].title} “${text}” is not above zero.`, 'Enter what was measured.')
          return undefined
        }
        return quantity
      } catch (error) {
        if (!(error instanceof Refusal)) throw error
        for (const problem of error.problems)
          fault(problem.code, `${FIELDS[field].title} “${text}”: ${problem.says}`, problem.todo)
        return undefined
      }
    }
    const from = readEnd(build, cell('from'), cell('fromPin') || undefined)
    const to = readEnd(build, cell('to'), cell('toPin') || undefined)
    if (!from)
      fault('no-end', `the start “${cell('from')}” names no device and pin.`, 'Write device.pin, such as fan-relay.30.')
    if (!to)
      fault('no-end', `the end “${cell('to')}” names no device and pin.`, 'Write device.pin, such as fan-relay.30.')
    const area = read('area')
    const length = read('length')
    const colourText = cell('colour')
    const colour = colourText === '' ? undefined : readColour(colourText)
    if (colourText !== '' && !colour)
      fault(
        'colour',
        `colour “${colourText}” is neither IEC 60757 letters nor a colour word.`,
        'Write RD, RDWH or red/white.',
      )

    for (const end of [from, to]) {
      const restricted = end && known(end.device)?.restricted
      if (restricted)
        fault(
          'restricted',
          `it ends at ${known(end.device)?.name}, part of the ${restricted} circuit.`,
          'Such circuits are left to somebody licensed for them; nothing is added to them here.',
        )
    }
    const materialText = cell('material').toLowerCase()
    const material = MATERIALS.find((one) => one === materialText)
    if (materialText !== '' && !material)
      fault('material', `material “${cell('material')}” is not known.`, `Write ${MATERIALS.join(', ')}.`)

    let id = tidy(cell('id'))
    if (id === '') {
      while (build.collections.wires[`W-${next}`] || wires.has(`W-${next}`)) next++
      id = `W-${next}`
    } else if (!FIT.test(id))
      fault(
        'unfit-id',
        `wire “${cell('id').slice(0, 48)}” cannot be filed under that name.`,
        'Begin it with a letter or digit.',
      )
    else if (Object.hasOwn(build.collections.wires, id))
      fault(
        'wire-exists',
        `wire ${id} is in the build already; the stored one was left as it is.`,
        'Change it there, or give this one another number.',
      )
    else if (wires.has(id))
      fault('doubled-wire', `wire ${id} stands in the list twice.`, 'Give one of them another number.')
    if (wrong.length > 0 || !from || !to) {
      aside.push(...wrong)
      continue
    }
    for (const end of [from, to]) {
      const device = known(end.device)
      if (!device) {
        made.add(end.device)
        devices.set(end.device, {
          id: end.device,
          name: end.name,
          pins: { [end.pin]: {} },
          spec: { kind: 'connector' },
        })
      } else if (!Object.hasOwn(device.pins, end.pin) && made.has(end.device)) {
        devices.set(end.device, { ...device, pins: { ...device.pins, [end.pin]: {} } })
      }
    }
    const circuit = tidy(cell('circuit'))
    if (FIT.test(circuit) && !Object.hasOwn(build.collections.circuits, circuit)) {
      circuits.set(circuit, {
        collection: 'circuits',
        id: circuit,
        value: { id: circuit, name: cell('circuit').slice(0, 120) },
      })
    }
    wires.set(id, {
      id,
      from: `${from.device}.${from.pin}`,
      to: `${to.device}.${to.pin}`,
      ...(area ? { area } : {}),
      ...(length ? { length } : {}),
      ...(colour ?? {}),
      ...(material ? { material } : {}),
      ...(FIT.test(circuit) ? { circuit } : {}),
      ...(cell('remark') === '' ? {} : { remark: cell('remark').slice(0, 2000) }),
    })
  }
  const changes: Change[] = [
    ...circuits.values(),
    ...[...devices].map(([id, value]): Change => ({ collection: 'devices', id, value })),
    ...[...wires].map(([id, value]): Change => ({ collection: 'wires', id, value })),
  ]
  return {
    headers: header.cells,
    columns,
    edit: { label: `Wire list: ${wires.size} wires`, changes },
    wires: wires.size,
    newDevices: [...made],
    aside,
  }
}
