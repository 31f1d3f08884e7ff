/** Whether a controller's output can drive an old rev counter, from what both are. */
import { refuse } from '../../../units/problem.ts'

export interface RevCounterDrive {
  /** Pulses a revolution that the controller must give: those the counter was made for. */
  readonly pulses: number
  /** Counter reading over true speed if the controller gave `given` pulses instead. */
  readonly reads: number
  /** Whether the pulse is high enough; `undefined` when the counter's threshold is not known. */
  readonly highEnough: boolean | undefined
  /** What to do. */
  readonly todo: string
}

/**
 * `made`: pulses a revolution the counter was made for (cylinders of its old engine over two). `given`: pulses the
 * controller gives. `pulse`: V it swings. `threshold`: V the counter needs; from its data sheet or a bench test with a signal.
 * A counter that took the coil's flyback wants up to 300 V or more (studylib.net 18766749 [read]); that a relay's coil as
 * pull-up makes such a pulse from a plain output is common practice without a published source.
 */
export function revCounterDrive(
  made: number,
  given: number,
  pulse: number,
  threshold: number | undefined,
): RevCounterDrive {
  if (!(made > 0) || !(given > 0) || !(pulse >= 0))
    throw refuse(
      'out-of-range',
      `A counter for ${made} pulses a revolution cannot be driven by ${given} pulses of ${pulse} V.`,
      'Enter the pulses above 0: cylinders over two for a four-stroke with one coil.',
    )
  const highEnough = threshold === undefined ? undefined : pulse >= threshold
  return {
    pulses: made,
    reads: given / made,
    highEnough,
    todo:
      highEnough === undefined
        ? 'Find on the bench at which voltage the needle begins to follow a signal.'
        : highEnough
          ? given === made
            ? 'Wire it.'
            : `Set the controller to ${made} pulses a revolution, or recalibrate the counter.`
          : 'Give it a higher pulse: a level shifter, or a relay’s coil as pull-up (its flyback must stay within the output’s clamp).',
  }
}
