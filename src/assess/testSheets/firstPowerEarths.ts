/** First power: earths with the battery off, as far as ohms tell; the lamp tells the rest. */
import type { Device } from '../../model/build.ts'
import { DEAD_CIRCUIT, NO_AIRBAG, UNPLUGGED } from '../electricalCautions.ts'
import { pointSays } from '../faults/words.ts'
import { endpointOf } from '../make.ts'
import { controllerPins } from '../pins.ts'
import { NO_PROOF } from './deadSection.ts'
import { type BlindEarth, blindSays, ifEarthOpens, isBlind } from './earthOhms.ts'
import { expectOhms } from './expect.ts'
import type { Context } from './firstPowerContext.ts'
import type { SheetSection, SheetTest } from './types.ts'

export const earthSection = (
  { build, car, parked, battery, negative, positive, notes }: Context,
  studs: readonly Device[],
  controllers: readonly Device[],
): SheetSection => {
  const { elements: live, nodeOf, tolerances, atRest } = car(parked)
  const elements = atRest(live)
  const post = endpointOf(battery.id, negative)
  const reference = nodeOf(post)
  const fuses = new Set(
    Object.values(build.collections.devices)
      .filter(({ spec }) => spec.kind === 'fuse')
      .map(({ id }) => id),
  )
  const network = { reference, elements }
  const nodes = new Set(elements.flatMap(({ a, b }) => [a, b]))
  const lines: SheetTest[] = []
  const blind: BlindEarth[] = []
  const ohms = (
    at: string,
    low: string,
    high: string,
    proof: string | undefined,
    says = pointSays(build, at),
  ): void => {
    const node = nodeOf(at)
    const base = {
      id: `ohms:${at}`,
      kind: 'test' as const,
      quantity: 'ohms' as const,
      at,
      against: post,
      says: `${says}, to the negative cable’s clamp`,
      low,
      high,
    }
    if (node === reference) return
    if (!nodes.has(node)) {
      lines.push({ ...base, missing: `a wire at ${at}` })
      return
    }
    const expect = expectOhms(network, tolerances, node, reference, fuses)
    const ifOpen = ifEarthOpens(build, network, node, reference, fuses)
    if (proof !== undefined && isBlind(expect, ifOpen)) blind.push({ says, most: expect.most, ifOpen, tells: proof })
    else lines.push({ ...base, expect, ...(proof === undefined ? {} : { limit: `${NO_PROOF} ${proof}` }) })
  }
  for (const stud of studs) {
    const pin = Object.keys(stud.pins)[0]
    if (pin !== undefined && stud.spec.kind === 'earth-stud' && stud.spec.on !== 'isolated')
      ohms(
        endpointOf(stud.id, pin),
        'The leads touch, or were not zeroed.',
        'A strap, ring or stud on the way has resistance: bright metal, tighten, measure again. Do not go on.',
        'What tells is the test lamp, once the battery is on through the lamp.',
      )
  }
  for (const controller of controllers)
    for (const pin of controllerPins(controller).earths)
      ohms(
        endpointOf(controller.id, pin),
        'The leads touch, or were not zeroed.',
        'The plug’s earth is open or poor: the controller would find another way to earth, through its sensors.',
        'What tells is the lamp of 5 W in its plug, before it is plugged in.',
      )
  ohms(
    endpointOf(battery.id, positive),
    'A short, or something that is still plugged in: find it before the battery goes on.',
    'Nothing is joined that should not be.',
    undefined,
    'The positive cable, off the battery',
  )
  notes.push(...blindSays(blind))
  return {
    id: 'earths',
    title: 'Earths, with the battery off',
    state: 'battery off, all fuses out, controllers, airbag and anti-lock units unplugged',
    cautions: [DEAD_CIRCUIT, UNPLUGGED, NO_AIRBAG],
    lines,
  }
}
