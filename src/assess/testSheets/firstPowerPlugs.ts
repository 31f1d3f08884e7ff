/** First power: supply and earth proved at each controller's plug before it goes on. */
import type { Build, Device, OperatingCase } from '../../model/build.ts'
import { MOVING, NO_AIRBAG, NO_NEW_FUSE, PROBING } from '../electricalCautions.ts'
import { pointSays } from '../faults/words.ts'
import { endpointOf, list } from '../make.ts'
import { controllerPins } from '../pins.ts'
import { expecter } from './expect.ts'
import { type Context, step } from './firstPowerContext.ts'
import type { SheetSection, SheetStep, SheetTest } from './types.ts'

const ignitionOn = (build: Build): OperatingCase | undefined =>
  Object.values(build.collections.cases).find(
    ({ id, name, engine, battery }) =>
      engine === 'off' && battery === 'connected' && /ignition[ -]on/i.test(`${id} ${name}`),
  )

export const plugSection = (
  { build, car, battery, negative, parked }: Context,
  controllers: readonly Device[],
): SheetSection => {
  const kase = ignitionOn(build) ?? parked
  const { elements, nodeOf, tolerances, solved } = car(kase)
  const lines: (SheetTest | SheetStep)[] = []
  const reference = nodeOf(endpointOf(battery.id, negative))
  const nodes = new Set(elements.flatMap(({ a, b }) => [a, b]))
  const expect = solved ? expecter({ reference, elements }, tolerances) : undefined
  for (const controller of controllers) {
    const { supply, earths } = controllerPins(controller)
    const supplies = new Set([
      ...(supply === undefined ? [] : [supply]),
      ...(controller.loads ?? []).map(({ from }) => from),
    ])
    const volts = (pin: string, low: string, high: string): void => {
      const at = endpointOf(controller.id, pin)
      const node = nodeOf(at)
      const base = {
        id: `volts:plug:${at}`,
        kind: 'test' as const,
        quantity: 'volts' as const,
        at,
        says: `${pointSays(build, at)}, at the unplugged plug, to battery negative`,
        low,
        high,
      }
      if (!expect || !nodes.has(node))
        lines.push({ ...base, missing: expect ? `a wire at ${at}` : 'a battery with its figures' })
      else lines.push({ ...base, expect: expect.volts(node, reference) })
    }
    for (const pin of supplies)
      volts(
        pin,
        'The supply does not reach the plug. A supply that the controller switches itself through its main relay stays dead until it is plugged in.',
        'Live before its time: see what feeds it.',
      )
    for (const pin of earths)
      volts(pin, 'The leads are the wrong way round.', 'This earth is no earth: the controller stays unplugged.')
    if (supplies.size > 0 && earths.length > 0)
      lines.push(
        step(
          `load:${controller.id}`,
          `A lamp of 5 W between supply ${list([...supplies])} and earth ${list(earths)} in the plug of ${controller.name}: bright where the sheet expects volts. A meter alone proves no contact.`,
        ),
      )
    lines.push(
      step(
        `plug:${controller.id}`,
        `Only now, key off: plug in ${controller.name}. Airbag and anti-lock units are not part of this.`,
      ),
    )
  }
  return {
    id: 'plugs',
    title: 'Controllers: supply and earth at the plug first',
    state: `${kase.name}; lamp out, fuses in but those that stay out`,
    cautions: [PROBING, MOVING, NO_NEW_FUSE, NO_AIRBAG],
    lines,
  }
}
