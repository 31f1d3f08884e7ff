import type { Command } from 'commander'
import { inspectLog } from '../logs/inspect.ts'
import { overridesFromText } from '../logs/readOverrides.ts'
import { bindRole, noUnit, ROLES, type Role, readBinding } from '../logs/roles.ts'
import { addLog, coolingFromLog, logOf, readLogAgain } from '../store/logs.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { addLogQuestions } from './logQuestions.ts'
import { inert, type Out, wrap } from './print.ts'

const READ = [
  '--read <how...>',
  'reverse a guess: its name and what is true, such as decimal=, timeForm=milliseconds rate=50 sentinels=no',
] as const
const BUILD = ['-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo'] as const

interface AddFlags {
  readonly build?: string
  readonly json?: boolean
  readonly read?: string[]
  readonly again?: string
}

export const addLogs = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  const log = program.command('log').description('logs: add, look at, ask')
  log
    .command('add [file]')
    .description("read a logger's file into the build and say what was understood")
    .option(...BUILD)
    .option(...READ)
    .option('--again <log>', 'read a log of the build again, from the raw file kept of it, as --read says')
    .option('--json', 'print JSON')
    .action(async (file: string | undefined, options: AddFlags) => {
      const store = await openNamed(options.build, false)
      try {
        const how = {
          overrides: overridesFromText(options.read ?? []),
          ...(process.stderr.isTTY
            ? { onProgress: (share: number) => out.error(`\r${Math.round(share * 100)} %`) }
            : {}),
        }
        if ((file === undefined) === (options.again === undefined))
          throw refuse(
            'missing-option',
            'Either a file or --again with a log of the build is needed.',
            'Give one of the two.',
          )
        const { id, report, roles } =
          file === undefined ? await readLogAgain(store, options.again!, how) : await addLog(store, file, how)
        if (options.json) {
          out.write(`${JSON.stringify({ id, report, roles }, null, 2)}\n`)
          return
        }
        out.write(
          `${inert(id)}: ${report.samples} samples, ${report.channels.length} channels, ${report.sessions.length} session(s)\n`,
        )
        for (const line of report.understood) out.write(`${wrap(line, 96, '  ')}\n`)
        for (const guess of report.guesses) out.write(`${wrap(`Guessed: ${guess.says}`, 96, '  ')}\n`)
        for (const warning of report.warnings)
          out.write(
            `${wrap(`${warning.line === undefined ? '' : `Line ${warning.line}: `}${warning.text}`, 96, '  ')}\n`,
          )
        for (const role of roles)
          out.write(
            `  ${inert(role.channel)} is taken as ${ROLES[role.role].title} (${Math.round(role.confidence * 100)} % sure: ${inert(role.reason)})\n`,
          )
      } finally {
        store.close()
      }
    })
  log
    .command('inspect <file>')
    .description('say what a file holds, without storing anything')
    .option(...READ)
    .option('--json', 'print JSON')
    .action(async (file: string, options: { json?: boolean; read?: string[] }) => {
      const inspection = await inspectLog(file, overridesFromText(options.read ?? []))
      if (options.json) out.write(`${JSON.stringify(inspection, null, 2)}\n`)
      else if (inspection.ok) {
        out.write(`${inspection.samples} samples, ${inspection.first ?? '?'} … ${inspection.last ?? '?'} s\n`)
        for (const channel of inspection.channels)
          out.write(
            `  ${inert(channel.name).padEnd(28)} ${inert(channel.unit).padEnd(8)} ${channel.min ?? '–'} … ${channel.max ?? '–'}  (${channel.missing} missing)\n`,
          )
        for (const { line, text } of inspection.warnings)
          out.write(`${wrap(`${line === undefined ? '' : `Line ${line}: `}${text}`, 96, '  ')}\n`)
      } else out.error(`${inert(inspection.error ?? 'The file was refused.')}\n`)
      if (!inspection.ok) setStatus(4)
    })
  log
    .command('roles [log]')
    .description('say what a channel means; it is remembered for this logger')
    .option(...BUILD)
    .option(
      '--bind <channel=role...>',
      `“channel [unit]=role”, the unit only where it is not known; roles: ${Object.keys(ROLES).join(', ')}`,
    )
    .action(async (id: string | undefined, options: { build?: string; bind?: string[] }) => {
      const store = await openNamed(options.build, options.bind === undefined)
      try {
        const record = logOf(store, id)
        const channels = record.channels.map((channel) => ({ ...channel }))
        for (const entry of options.bind ?? []) {
          const bound = readBinding(entry, channels)
          const channel = channels.find(({ name }) => name === bound?.channel)
          if (!bound || !channel)
            throw refuse(
              'no-channel',
              `The log has no channel “${entry.slice(0, entry.lastIndexOf('='))}”.`,
              `It has: ${channels.map((candidate) => candidate.name).join(', ')}.`,
            )
          const { role, unit } = bound
          if (!bindRole(role, { name: channel.name, unit: channel.unit ?? '' }, true, unit))
            throw noUnit(role, channel.name, unit)
          if (unit !== undefined) channel.unit = unit
          for (const other of channels) if (other.role === role) delete other.role
          channel.role = role
          channel.confirmed = true
        }
        if (options.bind)
          store.edit({
            label: `Roles of ${record.name}`.slice(0, 160),
            changes: [{ collection: 'logs', id: record.id, value: { ...record, channels } }],
          })
        for (const channel of channels)
          out.write(
            `${inert(channel.name).padEnd(28)} ${channel.role ? ROLES[channel.role as Role].title : '–'}${channel.confirmed ? '' : channel.role ? ' (guessed)' : ''}\n`,
          )
      } finally {
        store.close()
      }
    })
  log
    .command('cooling [log]')
    .description('charge-cooler effectiveness from a log, with its interval; stored as a reading')
    .option(...BUILD)
    .option('--json', 'print JSON')
    .action(async (id: string | undefined, options: { build?: string; json?: boolean }) => {
      const store = await openNamed(options.build, false)
      try {
        const { result, reading, log: used } = await coolingFromLog(store, id)
        if (options.json) {
          out.write(`${JSON.stringify({ log: used.id, reading: reading ?? null, ...result }, null, 2)}\n`)
          return
        }
        out.write(`${wrap(result.sentence, 96)}\n`)
        if (result.answer === 'told') {
          for (const bin of result.againstAirFlow)
            out.write(
              `  at ${bin.airFlow.toFixed(3)} kg/s: ${bin.value.toFixed(3)} (${bin.low.toFixed(3)} … ${bin.high.toFixed(3)})\n`,
            )
          for (const caution of result.cautions) out.write(`${wrap(caution, 96, '  ')}\n`)
        } else out.write(`${wrap(result.next, 96, '  ')}\n`)
      } finally {
        store.close()
      }
    })
  addLogQuestions(log, out, setStatus)
}
