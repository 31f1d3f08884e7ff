/** The calibration ledger at the terminal: keep a controller’s file, list, what differs, save again, the way back. */
import { existsSync, writeFileSync } from 'node:fs'
import { basename } from 'node:path'
import type { Command } from 'commander'
import { belongable, ledgerOf } from '../assess/ledger/ledger.ts'
import { addControllerFile, backToFile, controllerFile, controllerFileDiffers } from '../store/controllerFiles.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

const BUILD = ['-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo'] as const
const WIDTH = 100
interface At {
  readonly build?: string
}

export const addLedger = (program: Command, out: Out): void => {
  const ledger = program
    .command('ledger')
    .description('files of the controller kept by their SHA-256: what changed, by whom, what belongs to it')
  ledger
    .command('show', { isDefault: true })
    .description('the changes, newest first')
    .option(...BUILD)
    .option('--json', 'print JSON')
    .action(async ({ build: folder, json }: At & { readonly json?: boolean }) => {
      const store = await openNamed(folder, true)
      try {
        const entries = ledgerOf(store.read())
        if (json) {
          out.write(`${JSON.stringify(entries, null, 2)}\n`)
          return
        }
        if (entries.length === 0) out.write('No file of the controller is kept yet: swapwright ledger add <file>\n')
        for (const { change, current, differs, belongs, back, lacks } of entries) {
          out.write(
            `${change.id}  ${inert(change.title)}${current ? ', in the controller now' : ''}\n${wrap(
              `${change.when?.slice(0, 10) ?? 'no day'}, ${change.by ?? 'nobody’s name'}. ${differs}`,
              WIDTH,
              '    ',
            )}\n    ${inert(change.file.name)}, SHA-256 ${change.file.sha256}\n`,
          )
          if (belongs.length > 0)
            out.write(`${wrap(`belongs to: ${belongs.map(({ name }) => name).join('; ')}`, WIDTH, '    ')}\n`)
          if (back) out.write(`    way back: ${back.id}, ${inert(back.title)}\n`)
          if (lacks.length > 0) out.write(`${wrap(`Not known: ${lacks.join('; ')}.`, WIDTH, '    ')}\n`)
        }
      } finally {
        store.close()
      }
    })
  ledger
    .command('add <file>')
    .description('keep a file of the controller as the newest')
    .option(...BUILD)
    .option('--says <words>', 'what was changed, and why', '')
    .requiredOption('--by <name>', 'who changed it')
    .option(
      '--belongs <thing>',
      'what belongs to it: sheet/fuel for the injector card, logs/L-1, calibrations/…; may be given often',
      (text: string, before: readonly string[]) => [...before, text],
      [] as readonly string[],
    )
    .action(
      async (
        file: string,
        options: At & { readonly says: string; readonly by: string; readonly belongs: readonly string[] },
      ) => {
        if (!existsSync(file)) throw refuse('no-file', `${file} cannot be read.`, 'Check its name and place.')
        const store = await openNamed(options.build, false)
        try {
          const known = belongable(store.read()).map(({ ref }) => ref)
          const unknown = options.belongs.find((ref) => !known.includes(ref))
          if (unknown !== undefined)
            throw refuse(
              'no-thing',
              `There is no ${unknown} to belong to.`,
              `Name one of ${known.join(', ') || 'none yet'}.`,
            )
          const record = addControllerFile(store, file, {
            name: basename(file),
            says: options.says,
            by: options.by,
            when: new Date().toISOString(),
            belongs: options.belongs,
          })
          out.write(`Kept as ${record.id}, SHA-256 ${record.file!.sha256}\n`)
        } finally {
          store.close()
        }
      },
    )
  ledger
    .command('differs <change>')
    .description('what a change altered: lines, or where other bytes lie')
    .option(...BUILD)
    .action(async (id: string, { build: folder }: At) => {
      const store = await openNamed(folder, true)
      try {
        const { bytes, lines, changes, runs } = controllerFileDiffers(store, id)
        out.write(
          `${bytes} bytes not as before${lines ? `; ${lines.added} lines added, ${lines.taken} taken away` : ''}\n`,
        )
        for (const { sign, line, text } of changes ?? []) out.write(`${sign} ${line}  ${inert(text)}\n`)
        if (!changes)
          for (const { at, length } of runs ?? []) out.write(`${length} bytes from ${at} (0x${at.toString(16)})\n`)
      } finally {
        store.close()
      }
    })
  ledger
    .command('save <change> <file>')
    .description('write a kept file out again, as it was')
    .option(...BUILD)
    .action(async (id: string, file: string, { build: folder }: At) => {
      if (existsSync(file)) throw refuse('file-there', `${file} is there already.`, 'Choose another name.')
      const store = await openNamed(folder, true)
      try {
        writeFileSync(file, controllerFile(store, id).bytes)
        out.write(`${inert(file)} written.\n`)
      } finally {
        store.close()
      }
    })
  ledger
    .command('back <change>')
    .description('say that an older file is in the controller again')
    .option(...BUILD)
    .requiredOption('--by <name>', 'who put it back')
    .action(async (id: string, { build: folder, by }: At & { readonly by: string }) => {
      const store = await openNamed(folder, false)
      try {
        const record = backToFile(store, id, { by, when: new Date().toISOString() })
        out.write(`${record.id}: ${inert(record.title)}\n`)
      } finally {
        store.close()
      }
    })
}
