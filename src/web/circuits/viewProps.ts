/** What every view of a circuit's page is given. */
import type { Assessment } from '../../assess/assess.ts'
import type { Build, Device, Wire } from '../../model/build.ts'
import type { Live } from './drawing/live.ts'

export interface ViewProps {
  readonly build: Build
  readonly assessment: Assessment | undefined
  /** Undefined: what is in no circuit. */
  readonly circuit: string | undefined
  readonly name: string
  readonly devices: readonly Device[]
  readonly wires: readonly Wire[]
  /** The chosen case as it stands now, what was tried included; undefined where the build has no case. */
  readonly live: Live | undefined
  readonly setSwitch: (id: string, position: string) => void
  readonly setOutput: (id: string, duty: number) => void
  /** `collection/id` of the thing that was asked for. */
  readonly chosen: string | undefined
  readonly choose: (subject: string | undefined) => void
  /** The id of the row that the page was opened at. */
  readonly shown: string | undefined
}
