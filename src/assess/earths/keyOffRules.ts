/**
 * Rule `key-off`: with the key off, is the controller's switched supply, its main relay or the pump fed by a path that
 * goes round the switch? Asked of the running cases (key turned off, alternator still turning: a warning lamp on D+, a
 * fan's run-on, an output that feeds back) and of the cases that have the key off.
 */
import type { NetworkElement, NetworkSolution } from '../../engineering/electrical/network/network.ts'
import type { Build, Device } from '../../model/build.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { BATTERY_CAUTION, deviceName, deviceZone, endpointOf, finding, list, own, volts } from '../make.ts'
import { controllerPins } from '../pins.ts'
import { hiddenDraws, type Solved } from '../solveCases.ts'
import { ignitionOn, ignitionSwitches } from './ignition.ts'
import { controllerAwake, leastSupply, pathTo, turnKeyOff } from './keyTurnedOff.ts'
import { flywheels, solveAgain } from './resolve.ts'

/** A pump turns from about a quarter of its rated volts on. Common practice, no published source. */
export const TURNS = 3

/** `Alternator, W-88, Charge warning lamp, W-87`: what a current passes, a thing named once. */
export const pathWords = (build: Build, path: readonly string[]): string => {
  const names: string[] = []
  for (const id of path) {
    const [kind, rest] = id.split(':') as [string, string | undefined]
    const name =
      kind === 'wire' && rest !== undefined
        ? rest
        : (kind === 'output' || kind === 'output-diode') && rest !== undefined
          ? deviceName(build, own(build.collections.outputs, rest)?.device ?? rest)
          : deviceName(build, id.split('#')[0]!)
    if (names.at(-1) !== name) names.push(name)
  }
  return names.join(' → ')
}

interface Fed {
  readonly device: Device
  readonly node: string
  readonly what: string
  readonly volts: number
  readonly least: number
}

/** Controllers awake and pumps turning in a solution. */
const fed = (build: Build, solved: Solved, solution: Pick<NetworkSolution, 'voltages'>): Fed[] => {
  const { bound } = solved
  const at = (endpoint: string) => solution.voltages.get(bound.nodeOf(endpoint))
  const found: Fed[] = []
  for (const device of Object.values(build.collections.devices)) {
    if (device.restricted) continue
    const { spec, id } = device
    if (spec.kind === 'controller') {
      const { supply } = controllerPins(device)
      if (supply === undefined || !controllerAwake(device, at)) continue
      found.push({
        device,
        node: bound.nodeOf(endpointOf(id, supply)),
        what: `the switched supply of ${device.name}`,
        volts: at(endpointOf(id, supply)) ?? 0,
        least: leastSupply(device, supply),
      })
    }
    if (id !== build.sheets.fuel?.pump?.device) continue
    for (const load of device.loads ?? []) {
      const [a, b] = [at(endpointOf(id, load.from)), at(endpointOf(id, load.to))]
      if (a == null || b == null || a - b < TURNS) continue
      found.push({
        device,
        node: bound.nodeOf(endpointOf(id, load.from)),
        what: device.name,
        volts: a - b,
        least: TURNS,
      })
    }
  }
  return found
}

export const keyOffFindings = (context: Context): Finding[] => {
  const { build, cases } = context
  if (ignitionSwitches(build).length === 0) return []
  const findings: Finding[] = []
  const told = new Set<string>()
  const stood: { solved: Solved; solution: Pick<NetworkSolution, 'voltages'> }[] = []
  let tried = 0
  const say = (
    solved: Solved,
    { device, node, what, volts: has, least }: Fed,
    elements: readonly NetworkElement[],
    solution: Pick<NetworkSolution, 'voltages' | 'currents'>,
    turned: boolean,
  ) => {
    if (told.has(device.id)) return
    told.add(device.id)
    const path = pathTo(elements, solution, node)
    const through = path.find((id) => solved.bound.loads.has(id) || id.startsWith('output'))
    const name = through === undefined ? undefined : pathWords(build, [through])
    const gap = hiddenDraws({ missing: solved.missing, nodes: solution.voltages })
    const way = pathWords(build, path)
    const base = {
      rule: 'key-off',
      system: 'electrical',
      subject: `devices/${device.id}`,
      about: device.name,
      zone: deviceZone(build, device.id),
      cautions: [BATTERY_CAUTION],
    } as const
    const where = turned ? `With the key turned off in “${solved.kase.name}”` : `In “${solved.kase.name}”, key off,`
    if (gap.length > 0) {
      const missing = list(
        [
          ...new Set(
            gap.map(
              ({ subject, datum }) => `${datum} of ${deviceName(build, subject.slice(subject.indexOf('/') + 1))}`,
            ),
          ),
        ].slice(0, 4),
      )
      findings.push(
        finding({
          ...base,
          verdict: 'unknown',
          says: `${where} ${what} may still get up to ${volts(has)} by ${way}; it cannot be told without the ${missing}, which takes volts from it.`,
          todo: `Enter the ${missing}.`,
          missing,
        }),
      )
      return
    }
    findings.push(
      finding({
        ...base,
        verdict: turned || device.spec.kind !== 'controller' ? 'no-go' : 'marginal',
        says: `${where} ${what} still gets ${volts(has)} and works from ${volts(least)} on, by ${way}${turned ? ': the engine may not stop' : ''}.`,
        todo:
          name === undefined
            ? `Feed ${what} from a point that the ignition switch cuts off, or let the controller’s key input release its main relay.`
            : `Put a diode in line with ${name}, so that it can only carry current towards where it returns, or feed ${device.name} by a relay of its own.`,
        working: [
          turned
            ? `“${solved.kase.name}” solved; the switch’s contacts opened; relays hold down to their drop-out, the controller drives its outputs while it is fed, the alternator still delivers; solved until nothing changes.`
            : `“${solved.kase.name}” as entered: ignition switch off, no output driven.`,
          `Way of the greatest current: ${way}`,
          'Relay and diode practice against run-on through the charge lamp: common practice, no published source.',
        ],
      }),
    )
  }
  const running = cases.filter(
    ({ solved, kase }) =>
      solved && kase.engine !== 'off' && kase.engine !== 'cranking' && kase.battery === 'connected' && !kase.supply,
  )
  for (const solved of running) {
    if (ignitionOn(build, solved.kase) !== true) continue
    const after = turnKeyOff(build, solved)
    if (!after) continue
    tried += 1
    stood.push({ solved, solution: after.solution })
    for (const each of fed(build, solved, after.solution)) say(solved, each, after.elements, after.solution, true)
  }
  for (const solved of cases) {
    const { kase } = solved
    if (!solved.solved || kase.engine !== 'off' || kase.battery !== 'connected' || ignitionOn(build, kase) !== false)
      continue
    // A case that drives an output says that the controller is meant to be awake: its after-run.
    if (Object.values(kase.outputs).some((duty) => duty > 0)) continue
    const solution = solveAgain(build, solved, {})
    if (!solution) continue
    stood.push({ solved, solution })
    for (const each of fed(build, solved, solution))
      say(solved, each, [...solved.bound.network.elements, ...flywheels(build, solved)], solution, false)
  }
  const controllers = Object.values(build.collections.devices).filter(
    ({ spec, restricted }) => spec.kind === 'controller' && !restricted,
  )
  if (findings.length > 0 || stood.length === 0 || controllers.length === 0) return findings
  const [key] = ignitionSwitches(build)
  const base = {
    rule: 'key-off',
    system: 'electrical',
    subject: `devices/${key!.id}`,
    about: key!.name,
    zone: deviceZone(build, key!.id),
  } as const
  const gaps = [...new Set([...outputGaps(build, stood), ...pathGaps(build, stood)])]
  if (gaps.length > 0)
    return [
      finding({
        ...base,
        verdict: 'unknown',
        says: `Whether anything goes round ${key!.name} with the key off cannot be told: ${list(gaps.slice(0, 4))}${gaps.length > 4 ? ` and ${gaps.length - 4} more` : ''} ${gaps.length === 1 ? 'is' : 'are'} not entered.`,
        todo: `Enter ${list(gaps.slice(0, 4))}.`,
        missing: list(gaps),
      }),
    ]
  return [
    finding({
      ...base,
      verdict: 'sound',
      says: `With the key off nothing goes round ${key!.name}: turned off in ${tried} running ${tried === 1 ? 'case' : 'cases'} and looked at in ${stood.length - tried} with the engine stopped, no controller or pump stays fed.`,
      todo: 'Nothing.',
    }),
  ]
}

/** Volts on a sleeping controller's output from which a diode behind it would matter: a supply's worth and the diode. */
const STANDS = 6

/** Outputs that stand at battery volts while their controller sleeps, where it is not entered whether they feed back. */
const outputGaps = (build: Build, stood: readonly { solved: Solved; solution: Pick<NetworkSolution, 'voltages'> }[]) =>
  Object.values(build.collections.outputs).flatMap((output): string[] => {
    const controller = own(build.collections.devices, output.device)
    if (!controller || controller.restricted || !output.configured || output.driver === 'logic') return []
    if (output.feedsBack !== undefined) return []
    const { supply } = controllerPins(controller)
    const stands = stood.some(({ solved, solution }) => {
      const at = (pin: string) => solution.voltages.get(solved.bound.nodeOf(endpointOf(controller.id, pin))) ?? 0
      return at(output.pin) >= STANDS && (supply === undefined || at(supply) < at(output.pin) - 1)
    })
    return stands ? [`whether output ${output.name} feeds back into ${controller.name}`] : []
  })

/** What makes or breaks a path, so that without its figures none of it is seen. */
const PATHS: ReadonlySet<string> = new Set(['relay', 'controller', 'alternator', 'battery', 'diode', 'resistor'])

/** Data of such things, and of loads that hang with one end live, that are not entered. */
const pathGaps = (build: Build, stood: readonly { solved: Solved; solution: Pick<NetworkSolution, 'voltages'> }[]) =>
  stood.flatMap(({ solved, solution }) =>
    solved.missing.flatMap(({ subject, datum, across }) => {
      const device = own(build.collections.devices, subject.slice('devices/'.length))
      if (!subject.startsWith('devices/') || !device) return []
      const [a, b] = (across ?? []).map((node) => solution.voltages.get(node))
      // One end live and the other dangling: a load without figures would carry the volts across.
      const open = (a != null && a > STANDS && b == null) || (b != null && b > STANDS && a == null)
      return open || PATHS.has(device.spec.kind) ? [`${datum} of ${device.name}`] : []
    }),
  )
