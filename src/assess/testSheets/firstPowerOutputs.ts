/** First power: what the outputs do while the controller starts, before what they drive is plugged in. */
import type { Build } from '../../model/build.ts'
import { MOVING, NO_AIRBAG, NO_SPARKS, PROBING } from '../electricalCautions.ts'
import { list } from '../make.ts'
import { step } from './firstPowerContext.ts'
import type { SheetSection } from './types.ts'

export const outputSection = (build: Build): SheetSection => {
  const outputs = Object.values(build.collections.outputs).filter(({ driver }) => driver !== 'logic')
  const unknown = outputs.filter(({ atBoot }) => atBoot === undefined || atBoot === 'unknown')
  const on = outputs.filter(({ atBoot }) => atBoot === 'on')
  return {
    id: 'outputs',
    title: 'What the outputs do while the controller starts',
    state: 'ignition on, coils and injectors unplugged, pump fuse out',
    cautions: [NO_SPARKS, MOVING, PROBING, NO_AIRBAG],
    lines:
      outputs.length === 0
        ? []
        : [
            ...unknown.map(({ id, name }) =>
              step(
                `boot:${id}`,
                `${name}: a test lamp of 5 W in its place, key on and off three times. Enter what it does while the controller starts.`,
              ),
            ),
            ...(on.length > 0
              ? [
                  step(
                    'boot-on',
                    `On while the controller starts: ${list(on.map(({ name }) => name))}. What they drive must bear it, or stays unplugged.`,
                  ),
                ]
              : []),
            step(
              'plug-last',
              'When none of them moves by itself: coils, injectors and pump fuse, one at a time, the key off each time. With the pump’s fuse in it may run at once and the rail stands under pressure: look for leaks before anything else, key off at the first drop.',
            ),
          ],
  }
}
