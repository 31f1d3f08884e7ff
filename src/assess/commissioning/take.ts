/** Edits at a gate: a word of somebody who looked, a figure, a reading referred to, and the closing of the gate. */
import type { Build, Change, Edit } from '../../model/build.ts'
import { freeId, nextId } from '../../model/newId.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { fieldName, filedUnder } from './evidence.ts'
import { canClose } from './judge.ts'
import type { Ask, EvidenceEntry, FigureField, GateStanding, Reading } from './types.ts'

/** Who says it, and when. A word without a name is no evidence: refused. */
export interface Said {
  readonly by: string
  readonly when: string
}
type Shows = EvidenceEntry['shows']

const named = ({ by }: Said): void => {
  if (by.trim() === '')
    throw refuse('no-name', 'Nobody’s name is on it.', 'Type your name once; it is kept on this device for the next.')
}
const inTurn = ({ stand, behind, gate }: GateStanding): void => {
  if (stand === 'locked')
    throw refuse('gate-locked', `“${gate.title}” is locked by a no-go of “${behind!.title}”.`, 'Put that right first.')
  if (stand === 'waits')
    throw refuse('gate-waits', `“${behind!.title}” comes before “${gate.title}”.`, 'Close that gate first.')
}

/** The entry itself, of any list: what was seen, in whose words. */
export const evidenceEdit = (
  build: Build,
  of: string,
  title: string,
  shows: Shows,
  said: Said,
  more: { readonly says?: string; readonly reading?: string } = {},
): Edit => {
  named(said)
  const says = more.says?.trim()
  if ((shows === 'does not apply' || shows === 'not as it should' || shows === 'a remark') && !says)
    throw refuse('no-reason', `“${shows}” needs a word of why.`, 'Write what you saw in a few words.')
  const id = nextId(build.collections.evidence, 'E')
  const value: EvidenceEntry = {
    id,
    of,
    shows,
    ...(more.reading === undefined ? {} : { reading: more.reading }),
    ...(says ? { says } : {}),
    when: said.when,
    by: said.by.trim(),
  }
  return { label: `${shows}: ${title}`.slice(0, 160), changes: [{ collection: 'evidence', id, value }] }
}

/** A word on one thing asked. A remark may be made at any gate; what is judged only at one that is in turn. */
export const sayOf = (build: Build, gate: GateStanding, ask: Ask, shows: Shows, said: Said, says?: string): Edit => {
  if (shows !== 'a remark') inTurn(gate)
  if (shows === 'does not apply' && (ask.kind === 'hand' ? ask.always === true : ask.kind !== 'figures'))
    throw refuse('always', 'This applies to every car.', 'Say whether it is as it should be.')
  if (shows === 'as it should' && ask.kind === 'findings' && !says?.trim())
    throw refuse('no-reason', 'Going on with what is not known needs a reason.', 'Write why it does not matter here.')
  return evidenceEdit(build, filedUnder(ask.id), ask.says, shows, said, says === undefined ? {} : { says })
}

/** A figure taken at this gate. `value`, `plusMinus`: SI. */
export const takeFigure = (
  build: Build,
  gate: GateStanding,
  ask: Ask,
  field: FigureField,
  value: number,
  plusMinus: number | undefined,
  said: Said & { readonly instrument?: string },
): Edit => {
  inTurn(gate)
  named(said)
  const id = nextId(build.collections.readings, 'M')
  const reading: Reading = {
    id,
    subject: field.says,
    quantity: field.kind,
    value,
    ...(plusMinus === undefined ? {} : { plusMinus }),
    when: said.when,
    by: said.by.trim(),
    ...(said.instrument ? { instrument: said.instrument } : {}),
    test: fieldName(ask.id, field.id),
  }
  return { label: `Reading: ${field.says}`.slice(0, 160), changes: [{ collection: 'readings', id, value: reading }] }
}

/** A reading that is in the build already, taken as this figure. */
export const referTo = (
  build: Build,
  gate: GateStanding,
  ask: Ask,
  field: FigureField,
  reading: string,
  said: Said,
): Edit => {
  inTurn(gate)
  return evidenceEdit(build, fieldName(ask.id, field.id), field.says, 'as it should', said, { reading })
}

/** Takes back an entry that was a slip; the journal keeps that it was there. */
export const takeBack = (entry: EvidenceEntry): Edit => ({
  label: `Taken back: ${entry.shows}${entry.says ? `, ${entry.says}` : ''}`.slice(0, 160),
  changes: [{ collection: 'evidence', id: entry.id, value: null }],
})

const recordChange = (build: Build, { gate }: GateStanding, done: boolean, said: Said, evidence: string): Change => {
  const id = freeId(`gate-${gate.id}`, build.collections.records)
  return {
    collection: 'records',
    id,
    value: {
      id,
      kind: 'commissioning gate',
      title: gate.title,
      gate: gate.id,
      done,
      when: said.when,
      by: said.by.trim(),
      evidence: evidence.slice(0, 3900),
    },
  }
}

/** Closes a gate whose evidence is whole. Throws `Refusal` with all that is missing or speaks against it. */
export const closeGate = (build: Build, standing: GateStanding, said: Said): Edit => {
  inTurn(standing)
  named(said)
  const { gate, asks, verdict } = standing
  if (!canClose(verdict))
    throw new Refusal(
      asks
        .filter((ask) => !canClose(ask.verdict))
        .map(
          ({ ask, verdict: word, says, missing, next }): Problem => ({
            code: 'gate-open',
            says: `${word === 'no-go' ? 'Against it' : 'Missing'}: ${missing ?? says}`,
            todo: next?.says ?? ask.says,
          }),
        ),
    )
  const summary = asks.map(({ ask, verdict: word, says }) => `${ask.says} ${word}: ${says}`).join('\n')
  return {
    label: `Gate closed: ${gate.title}`.slice(0, 160),
    changes: [recordChange(build, standing, true, said, summary)],
  }
}

/** Opens a closed gate again: something was altered since. */
export const openAgain = (build: Build, standing: GateStanding, said: Said, why: string): Edit => {
  named(said)
  if (why.trim() === '') throw refuse('no-reason', 'Opening a gate again needs a reason.', 'Write what was altered.')
  return {
    label: `Gate opened again: ${standing.gate.title}`.slice(0, 160),
    changes: [recordChange(build, standing, false, said, why.trim())],
  }
}
