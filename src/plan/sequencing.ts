/** What the engine of sequence.ts is asked: tasks, what comes before what, and what it costs to change over. */
import type { Bits } from './bits.ts'

export interface Sequencing {
  readonly size: number
  /** For each task the tasks that come before it. Without circles. */
  readonly before: readonly (readonly number[])[]
  readonly start: Bits
  /** What it costs to come to a task from a configuration. */
  readonly cost: (config: Bits, task: number) => number
  /** The configuration that a task leaves. */
  readonly move: (config: Bits, task: number) => Bits
  /** Lower bound of the cost of all that is not done; `ready` are the undone tasks that wait for no other. */
  readonly atLeast: (config: Bits, ready: readonly number[], done: Bits) => number
  /** From the same done-set, the first configuration never costs more than the second. */
  readonly covers: (first: Bits, second: Bits) => boolean
  /** Whether a task costs nothing and changes nothing, so that doing it now loses no order. */
  readonly free?: (config: Bits, task: number) => boolean
  /** A lower bound of the whole that takes longer to prove; asked when the search has not proved the order. */
  readonly prove?: (seconds: number, signal: AbortSignal | undefined) => Promise<number>
  /** Tasks with the same group number make the same step from any configuration. */
  readonly group?: readonly number[]
  /**
   * Work clock: a task with a release waits until the tasks done add up to that much duration. While one task can be
   * done nobody waits; when none can, the next to be released is.
   */
  readonly release?: readonly number[]
  readonly duration?: readonly number[]
}
