/** The calibration ledger read: which file is in the controller, what each change was for, what belongs to it, the way back. */
import type { Build, Entity } from '../../model/build.ts'
import { own } from '../make.ts'

type Change = Entity<'records'> & { readonly file: NonNullable<Entity<'records'>['file']> }

export interface LedgerEntry {
  readonly change: Change
  /** In the controller now, as far as the ledger knows. */
  readonly current: boolean
  /** `12 bytes; 3 lines added, 2 taken away`. */
  readonly differs: string
  readonly belongs: readonly { readonly ref: string; readonly name: string; readonly gone: boolean }[]
  /** The change to load again where this one turns out wrong. */
  readonly back: Change | undefined
  readonly lacks: readonly string[]
}

const numberOf = (id: string): number => Number(/\d+$/.exec(id)?.[0] ?? 0)
/** Oldest first; of one moment the one that was entered first. */
const changesOf = (build: Build): Change[] =>
  Object.values(build.collections.records)
    .flatMap((record) =>
      record.kind === 'calibration change' && record.file ? [{ ...record, file: record.file }] : [],
    )
    .sort((a, b) => (a.when ?? '').localeCompare(b.when ?? '') || numberOf(a.id) - numberOf(b.id))

export const currentChange = (build: Build): Change | undefined => changesOf(build).at(-1)

const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`
const differsText = ({ differs, before }: Change['file']): string => {
  if (before === undefined) return 'The first file.'
  if (!differs) return 'What differs is not known.'
  const lines = differs.lines
    ? `; ${counted(differs.lines.added, 'line')} added, ${counted(differs.lines.taken, 'line')} taken away`
    : ''
  return `${counted(differs.bytes, 'byte')} not as before${lines}.`
}

/** What a change may belong to, by the name a person knows it by. */
export const belongable = (build: Build): readonly { readonly ref: string; readonly name: string }[] => {
  const { calibrations, logs, sensors, resistanceSwitches } = build.collections
  const card = build.sheets.fuel?.injectors?.card
  return [
    ...(card ? [{ ref: 'sheet/fuel', name: `Injector card: ${card.name}` }] : []),
    ...Object.values(calibrations).map(({ id, name }) => ({ ref: `calibrations/${id}`, name: `Table: ${name}` })),
    ...Object.values(sensors).map(({ id, name }) => ({ ref: `sensors/${id}`, name: `Sensor: ${name}` })),
    ...Object.values(resistanceSwitches).map(({ id, name }) => ({
      ref: `resistanceSwitches/${id}`,
      name: `Switch: ${name}`,
    })),
    ...Object.values(logs).map(({ id, name }) => ({ ref: `logs/${id}`, name: `Log: ${name}` })),
  ]
}

/** Newest first. */
export const ledgerOf = (build: Build): readonly LedgerEntry[] => {
  const changes = changesOf(build)
  const known = new Map(belongable(build).map(({ ref, name }) => [ref, name]))
  const byId = Object.fromEntries(changes.map((change) => [change.id, change]))
  const card = build.sheets.fuel?.injectors?.card
  return changes
    .map((change, i): LedgerEntry => {
      const current = i === changes.length - 1
      const belongs = (change.file.belongs ?? []).map((ref) => ({
        ref,
        name: known.get(ref) ?? ref.split('/').at(-1)!,
        gone: !known.has(ref),
      }))
      const back = change.file.before === undefined ? undefined : own(byId, change.file.before)
      return {
        change,
        current,
        differs: differsText(change.file),
        belongs,
        back,
        lacks: [
          ...(change.by === undefined ? ['who changed it'] : []),
          ...(change.when === undefined ? ['when'] : []),
          ...(belongs.length === 0 ? ['the injector card, table or log that it belongs to'] : []),
          ...(current && card && belongs.length > 0 && !belongs.some(({ ref }) => ref === 'sheet/fuel')
            ? [`whether it holds the injector card in use, ${card.name}`]
            : []),
          ...belongs.filter(({ gone }) => gone).map(({ name }) => `${name}, which is no longer in the build`),
        ],
      }
    })
    .reverse()
}
