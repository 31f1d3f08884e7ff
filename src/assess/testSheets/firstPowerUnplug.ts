/** First power, before anything else: what comes off, out and apart. */
import type { Device } from '../../model/build.ts'
import { LIVE_BATTERY, NO_AIRBAG, UNPLUGGED } from '../electricalCautions.ts'
import { named, step } from './firstPowerContext.ts'
import type { SheetSection } from './types.ts'

export const unplugSection = (
  controllers: readonly Device[],
  wetParts: readonly Device[],
  pumps: readonly Device[],
  fuses: readonly Device[],
): SheetSection => ({
  id: 'unplug',
  title: 'Before anything else',
  state: 'battery negative off and insulated; key out',
  cautions: [LIVE_BATTERY, UNPLUGGED, NO_AIRBAG],
  lines: [
    step('battery-off', 'Battery negative off, its clamp insulated and tied away from the post.'),
    ...(controllers.length > 0
      ? [
          step(
            'controllers',
            `Unplug ${named(controllers)}; the plugs stay off until their supply and earth are proved.`,
          ),
        ]
      : []),
    step(
      'airbag',
      'See that airbag and anti-lock units are unplugged by somebody qualified for them, before any resistance is measured.',
    ),
    ...(wetParts.length > 0
      ? [
          step(
            'coils-injectors',
            `Unplug ${named(wetParts)}, until it is known what the controller’s outputs do while it starts.`,
          ),
        ]
      : []),
    ...(pumps.length > 0 ? [step('pump-fuse', `Leave the fuses of ${named(pumps)} out for the same reason.`)] : []),
    ...(fuses.length > 0 ? [step('fuses', 'Take every fuse out and lay it beside its place.')] : []),
  ],
})
