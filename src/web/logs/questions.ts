/** What a log is opened for. The pictures then serve the answer. */
import type { Finding } from '../../assess/finding.ts'

export interface Question {
  readonly id: 'cooling' | 'compare' | 'compressor' | 'headroom' | 'injectors' | 'sensors' | 'look'
  readonly asks: string
  /** Which findings bear on it. */
  readonly bears: (finding: Finding) => boolean
  /** Channels looked at first: part of a role's or channel's name. */
  readonly channels: readonly RegExp[]
}

const COOLING = [/ambient/i, /manifoldPressure|boost|map/i, /charge|intake|cooler/i, /water/i, /airFlow|maf/i]
const FUEL = [/engineSpeed|rpm/i, /manifoldPressure|map/i, /pulse|duty|inject/i, /lambda/i, /battery|volt/i]

export const QUESTIONS: readonly Question[] = [
  {
    id: 'cooling',
    asks: 'Does the charge cooler do its work?',
    bears: ({ system }) => system === 'air',
    channels: COOLING,
  },
  { id: 'compare', asks: 'Did the charge cooler improve?', bears: ({ system }) => system === 'air', channels: COOLING },
  {
    id: 'compressor',
    asks: 'How good is the compressor?',
    bears: ({ system }) => system === 'air',
    channels: [/ambient/i, /baro/i, /compressor|boost/i, /chargeTemperatureBefore/i, /manifoldPressure|map/i],
  },
  { id: 'headroom', asks: 'Is there injector left?', bears: ({ system }) => system === 'fuel', channels: FUEL },
  { id: 'injectors', asks: 'What is this injector?', bears: ({ system }) => system === 'fuel', channels: FUEL },
  {
    id: 'sensors',
    asks: 'Which sensor lies?',
    bears: ({ system }) => system === 'signals',
    channels: [/battery|volt/i, /temp/i, /press/i, /fan/i],
  },
  { id: 'look', asks: 'I only want to look', bears: () => false, channels: [] },
]
