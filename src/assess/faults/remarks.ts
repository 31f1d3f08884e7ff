/**
 * Remarks as evidence. What the model can answer by itself (does that lamp burn under this fault, has that coil enough
 * volts) is asked of the model, with how often such a remark is right. The rest are likelihood ratios by kind of part:
 * how many times likelier the remark is with that part at fault than with another. All are common practice, no published
 * source; the reasons stand beside them. A builder's priors can outweigh them.
 */
import type { JointKind } from './jointKind.ts'

export type PartKind =
  | JointKind
  | 'stud'
  | 'wire'
  | 'fuse'
  | 'switch'
  | 'relay contact'
  | 'output'
  | 'load'
  | 'battery'
  | 'coil'

/** What the model is asked: of the device that the remark is about. */
export type Asked = 'works' | 'does not work' | 'weak' | 'pulls in' | 'does not pull in' | 'blown' | 'whole'

export interface Remark {
  readonly key: string
  /** As a person would say it. `…` stands for what it is about. */
  readonly says: string
  readonly about?: 'device with a load' | 'relay' | 'fuse' | 'wire or device'
  readonly asks?: Asked
  /** How often such a remark is right. */
  readonly right?: number
  /** Times likelier by kind of part, or by mode of fault; 1 where nothing is said. */
  readonly ratios?: Partial<Record<PartKind, number>>
  readonly comesAndGoes?: number
  /** Times likelier for parts that touch what the remark is about, and for the wire itself. */
  readonly near?: number
  readonly itself?: number
  readonly why: string
}

export const REMARKS: readonly Remark[] = [
  {
    key: 'moves-with-wire',
    says: 'it comes and goes when the wire … is moved',
    about: 'wire or device',
    ratios: { bulb_holder: 3, exposed: 2, connector: 1.5, fuse: 0.1, load: 0.3, battery: 0.1, coil: 0.1 },
    comesAndGoes: 6,
    near: 4,
    itself: 1,
    why: 'Moving a wire moves the contact at its end. A rear lamp circuit that comes and goes when its wire is moved is usually corrosion at the lamp holder, not the supply wire: copper strands break last.',
  },
  {
    key: 'bumps',
    says: 'it comes and goes on rough roads',
    ratios: { bulb_holder: 2, exposed: 1.5, connector: 1.5, fuse: 0.3, load: 0.7 },
    comesAndGoes: 6,
    why: 'Vibration opens what is loose.',
  },
  {
    key: 'damp',
    says: 'it is worse in the wet or after washing',
    ratios: { bulb_holder: 2.5, exposed: 3, connector: 1.3, stud: 2, fuse: 0.5, load: 0.4 },
    why: 'Water gets into contacts, not into conductors.',
  },
  {
    key: 'warm',
    says: 'it fails once it is warm',
    ratios: { load: 2, switch: 1.5, 'relay contact': 1.5, output: 1.5, wire: 0.5 },
    why: 'Windings and electronics open when hot, and contacts under load heat up; wire does not care.',
  },
  {
    key: 'hot-joint',
    says: '… is hot or discoloured',
    about: 'wire or device',
    near: 8,
    itself: 8,
    why: 'A joint with resistance turns the current into heat in its own place.',
  },
  {
    key: 'after-work',
    says: 'it began after work at …',
    about: 'wire or device',
    near: 5,
    itself: 3,
    why: 'What was last touched is the first to be doubted.',
  },
  {
    key: 'works',
    says: '… works as it should, in the same state of the car',
    about: 'device with a load',
    asks: 'works',
    right: 0.95,
    why: 'The other side is bright: what both share is sound. The model says what both share.',
  },
  {
    key: 'dead-too',
    says: '… is dead too',
    about: 'device with a load',
    asks: 'does not work',
    right: 0.95,
    why: 'The fault lies in what both share, if it is one fault.',
  },
  {
    key: 'weak-too',
    says: '… is weak too, or dims when this is switched on',
    about: 'device with a load',
    asks: 'weak',
    right: 0.85,
    why: 'A joint that both share drops volts for both.',
  },
  {
    key: 'relay-clicks',
    says: 'the relay … clicks',
    about: 'relay',
    asks: 'pulls in',
    right: 0.93,
    why: 'A click needs the coil’s whole circuit; it says nothing of the contact. A neighbour may click instead.',
  },
  {
    key: 'relay-silent',
    says: 'the relay … does not click',
    about: 'relay',
    asks: 'does not pull in',
    right: 0.85,
    why: 'Silence is easily missed beside a running engine.',
  },
  {
    key: 'fuse-blown',
    says: 'the fuse … is blown',
    about: 'fuse',
    asks: 'blown',
    right: 0.99,
    why: 'Seen or measured. A fuse seldom blows by itself: the model says what blows it.',
  },
  {
    key: 'fuse-whole',
    says: 'the fuse … is whole',
    about: 'fuse',
    asks: 'whole',
    right: 0.97,
    why: 'A look through the window misses a cracked element three times in a hundred.',
  },
]
