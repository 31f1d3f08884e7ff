/** What a log is opened for. The pictures then serve the answer. */
import type { Finding } from '../../assess/finding.ts'

export interface Question {
  readonly id: 'cooling' | 'injectors' | 'sensors' | 'look'
  readonly asks: string
  /** Which findings bear on it. */
  readonly bears: (finding: Finding) => boolean
  /** Channels looked at first, in station order: part of a role's or channel's name. */
  readonly channels: readonly RegExp[]
}

export const QUESTIONS: readonly Question[] = [
  {
    id: 'cooling',
    asks: 'Does the charge cooler do its work?',
    bears: (finding) => finding.system === 'air',
    channels: [/ambient/i, /manifoldPressure|boost|map/i, /charge|intake|cooler/i, /water/i, /airFlow|maf/i],
  },
  {
    id: 'injectors',
    asks: 'Is there injector left?',
    bears: (finding) => finding.system === 'fuel',
    channels: [/engineSpeed|rpm/i, /manifoldPressure|map/i, /pulse|duty|inject/i, /battery|volt/i, /lambda/i],
  },
  {
    id: 'sensors',
    asks: 'Which sensor lies?',
    bears: (finding) => finding.system === 'signals',
    channels: [/battery|volt/i, /temp/i, /press/i],
  },
  { id: 'look', asks: 'I only want to look', bears: () => false, channels: [] },
]
