/** How this loom is laid and cut: what the loom sheet says, else common practice, and where each figure is from. */
import { HAND_LAID, HAND_LAID_SOURCE } from '../../engineering/electrical/loom/bundle.ts'
import type { Build } from '../../model/build.ts'
import { TAILS } from '../wireData.ts'

export interface Setting {
  /** SI. */
  readonly value: number
  readonly from: string
}
export interface LoomSettings {
  readonly wall: 'thin' | 'thick'
  readonly wallFrom: string
  readonly handLaid: Setting
  readonly tape: Setting
  readonly tail: Setting
  readonly service: Setting
  readonly waste: Setting
}

const PRACTICE = 'common practice, no published source; set it on the loom sheet'
const SHEET = 'the loom sheet'
/** m: cloth tape of looms. */
const TAPE = 0.3e-3
/** m at each end: enough to cut a terminal off and crimp another. */
const SERVICE = 0.05
const WASTE = 0.1

export const loomSettings = (build: Build): LoomSettings => {
  const sheet = build.sheets.loom ?? {}
  const of = (entered: { value: number } | undefined, usual: number, from = PRACTICE): Setting =>
    entered === undefined ? { value: usual, from } : { value: entered.value, from: SHEET }
  return {
    wall: sheet.wall ?? 'thin',
    wallFrom: sheet.wall === undefined ? 'not said, taken; set it on the loom sheet' : SHEET,
    handLaid: of(sheet.handLaid, HAND_LAID, `${HAND_LAID_SOURCE.title}; set it on the loom sheet`),
    tape: of(sheet.tape, TAPE),
    tail: of(sheet.tail, TAILS / 2),
    service: of(sheet.service, SERVICE),
    waste: of(sheet.waste, WASTE),
  }
}
