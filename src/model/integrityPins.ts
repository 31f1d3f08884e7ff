/** Pins: named but absent, claimed twice, left bare although they must be wired; splices that join nothing. */
import type { Problem } from '../units/problem.ts'
import type { Build } from './build.ts'
import { called, named } from './called.ts'

export const checkPins = (build: Build): Problem[] => [
  ...danglingPins(build),
  ...doubledSignals(build),
  ...doubledControllerPins(build),
  ...barePins(build),
  ...looseSplices(build),
]

function* pinUses(build: Build): Generator<{ path: string; from: string; device: string; pin: string }> {
  const { wires, devices, inputs, outputs } = build.collections
  for (const [id, wire] of Object.entries(wires))
    for (const end of ['from', 'to'] as const) {
      const [device = '', pin = ''] = wire[end].split('.')
      yield { path: `wires/${id}/${end}`, from: called('wires', id), device, pin }
    }
  for (const [id, wire] of Object.entries(wires))
    for (const [index, end] of (wire.screenEarths ?? []).entries()) {
      const [device = '', pin = ''] = end.split('.')
      yield { path: `wires/${id}/screenEarths/${index}`, from: `The screen of ${id}`, device, pin }
    }
  for (const [id, device] of Object.entries(devices)) {
    for (const [index, load] of (device.loads ?? []).entries())
      for (const end of ['from', 'to'] as const)
        yield {
          path: `devices/${id}/loads/${index}/${end}`,
          from: `${named(build, 'devices', id)}, load ${load.id},`,
          device: id,
          pin: load[end],
        }
    for (const [index, { pin }] of (device.supplies ?? []).entries())
      yield {
        path: `devices/${id}/supplies/${index}/pin`,
        from: `${named(build, 'devices', id)}, supply,`,
        device: id,
        pin,
      }
    if (device.spec.kind === 'switch')
      for (const [position, pairs] of Object.entries(device.spec.positions))
        for (const pin of pairs.flat())
          yield {
            path: `devices/${id}/spec/positions/${position}`,
            from: `${named(build, 'devices', id)}, position ${position},`,
            device: id,
            pin,
          }
  }
  for (const [id, input] of Object.entries(inputs))
    yield { path: `inputs/${id}/pin`, from: named(build, 'inputs', id), device: input.device, pin: input.pin }
  for (const [id, { device, returnPin }] of Object.entries(build.collections.sensors))
    if (returnPin !== undefined)
      yield { path: `sensors/${id}/returnPin`, from: named(build, 'sensors', id), device, pin: returnPin }
  for (const [id, output] of Object.entries(outputs))
    yield { path: `outputs/${id}/pin`, from: named(build, 'outputs', id), device: output.device, pin: output.pin }
}

const danglingPins = (build: Build): Problem[] =>
  [...pinUses(build)]
    // A device that does not exist is told once, as a dangling reference.
    .filter(({ device, pin }) => {
      const found = own(build.collections.devices, device)
      return found !== undefined && !Object.hasOwn(found.pins, pin)
    })
    .map(({ path, from, device, pin }) => ({
      code: 'dangling-pin',
      path,
      says: `${from} uses ${named(build, 'devices', device)}, pin ${pin}, which does not exist.`,
      todo: 'Choose a pin of that device, or undo the removal.',
    }))

/** Two inputs or outputs that claim one controller pin. */
const doubledSignals = (build: Build): Problem[] => {
  const first = new Map<string, string>()
  const problems: Problem[] = []
  for (const collection of ['inputs', 'outputs'] as const)
    for (const [id, signal] of Object.entries(build.collections[collection])) {
      const pin = `${signal.device}.${signal.pin}`
      const other = first.get(pin)
      if (other === undefined) first.set(pin, named(build, collection, id))
      else
        problems.push({
          code: 'doubled-pin',
          path: `${collection}/${id}/pin`,
          says: `${named(build, collection, id)} and ${other.replace(/^./, (letter) => letter.toLowerCase())} both claim ${named(build, 'devices', signal.device)}, pin ${signal.pin}.`,
          todo: 'Give one of them another pin.',
        })
    }
  return problems
}

/** A controller's plug takes one crimp in each cavity, so a second wire belongs in a splice. */
const doubledControllerPins = (build: Build): Problem[] => {
  const wiresAt = wiresByPin(build)
  return Object.entries(build.collections.devices)
    .filter(([, device]) => device.spec.kind === 'controller')
    .flatMap(([id, device]) =>
      Object.keys(device.pins).flatMap((pin) => {
        const wires = wiresAt.get(`${id}.${pin}`) ?? []
        if (wires.length < 2) return []
        return [
          {
            code: 'doubled-pin',
            path: `devices/${id}/pins/${pin}`,
            says: `${named(build, 'devices', id)}, pin ${pin}, has ${wires.length} wires (${wires.join(', ')}) in a cavity for one.`,
            todo: 'Join them in a splice and bring one wire to the pin.',
          },
        ]
      }),
    )
}

const barePins = (build: Build): Problem[] => {
  const wiresAt = wiresByPin(build)
  return Object.entries(build.collections.devices).flatMap(([id, device]) =>
    Object.entries(device.pins)
      .filter(([pin, { mustBeWired }]) => mustBeWired === true && !wiresAt.has(`${id}.${pin}`))
      .map(([pin]) => ({
        code: 'bare-pin',
        path: `devices/${id}/pins/${pin}`,
        says: `${named(build, 'devices', id)}, pin ${pin}, must be wired and has no wire.`,
        todo: 'Add the wire, or say that the pin may stay free.',
      })),
  )
}

const looseSplices = (build: Build): Problem[] => {
  const wiresAt = wiresByPin(build)
  return Object.entries(build.collections.devices)
    .filter(([, device]) => device.spec.kind === 'splice')
    .map(([id, device]) => ({
      id,
      ends: Object.keys(device.pins).reduce((sum, pin) => sum + (wiresAt.get(`${id}.${pin}`)?.length ?? 0), 0),
    }))
    .filter(({ ends }) => ends < 2)
    .map(({ id, ends }) => ({
      code: 'loose-splice',
      path: `devices/${id}`,
      says: `${named(build, 'devices', id)} joins ${ends === 0 ? 'no wire' : 'only one wire'}.`,
      todo: 'Bring a second wire to it, or remove it.',
    }))
}

const wiresByPin = (build: Build): Map<string, string[]> => {
  const at = new Map<string, string[]>()
  for (const [id, wire] of Object.entries(build.collections.wires))
    for (const end of [wire.from, wire.to]) {
      const list = at.get(end)
      if (list === undefined) at.set(end, [id])
      else list.push(id)
    }
  return at
}

const own = <T>(record: Record<string, T>, key: string): T | undefined =>
  Object.hasOwn(record, key) ? record[key] : undefined
