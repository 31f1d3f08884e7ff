import type { Command } from 'commander'
import { inspectLog } from '../logs/inspect.ts'
import { ROLES, type Role } from '../logs/roles.ts'
import { addLog, coolingFromLog, logOf } from '../store/logs.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { addLogQuestions } from './logQuestions.ts'
import { inert, type Out, wrap } from './print.ts'

const BUILD = ['-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo'] as const

export const addLogs = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  const log = program.command('log').description('logs: add, look at, ask')
  log
    .command('add <file>')
    .description("read a logger's file into the build and say what was understood")
    .option(...BUILD)
    .option('--json', 'print JSON')
    .action(async (file: string, options: { build?: string; json?: boolean }) => {
      const store = await openNamed(options.build, false)
      try {
        const { id, report, roles } = await addLog(
          store,
          file,
          process.stderr.isTTY ? { onProgress: (share) => out.error(`\r${Math.round(share * 100)} %`) } : {},
        )
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
    .option('--json', 'print JSON')
    .action(async (file: string, options: { json?: boolean }) => {
      const inspection = await inspectLog(file)
      if (options.json) out.write(`${JSON.stringify(inspection, null, 2)}\n`)
      else if (inspection.ok) {
        out.write(`${inspection.samples} samples, ${inspection.first ?? '?'} … ${inspection.last ?? '?'} s\n`)
        for (const channel of inspection.channels)
          out.write(
            `  ${inert(channel.name).padEnd(28)} ${inert(channel.unit).padEnd(8)} ${channel.min ?? '–'} … ${channel.max ?? '–'}  (${channel.missing} missing)\n`,
          )
        for (const warning of inspection.warnings) out.write(`${wrap(warning.text, 96, '  ')}\n`)
      } else out.error(`${inert(inspection.error ?? 'The file was refused.')}\n`)
      if (!inspection.ok) setStatus(4)
    })
  log
    .command('roles [log]')
    .description('say what a channel means; it is remembered for this logger')
    .option(...BUILD)
    .option('--bind <channel=role...>', `roles: ${Object.keys(ROLES).join(', ')}`)
    .action(async (id: string | undefined, options: { build?: string; bind?: string[] }) => {
      const store = await openNamed(options.build, options.bind === undefined)
      try {
        const record = logOf(store, id)
        const channels = record.channels.map((channel) => ({ ...channel }))
        for (const entry of options.bind ?? []) {
          const at = entry.lastIndexOf('=')
          const role = entry.slice(at + 1).trim()
          const channel = channels.find((candidate) => candidate.name === entry.slice(0, at).trim())
          if (at < 1 || !channel)
            throw refuse(
              'no-channel',
              `The log has no channel “${entry.slice(0, Math.max(at, 0))}”.`,
              `It has: ${channels.map((candidate) => candidate.name).join(', ')}.`,
            )
          if (!Object.hasOwn(ROLES, role))
            throw refuse('no-role', `“${role}” is no role.`, `Choose from: ${Object.keys(ROLES).join(', ')}.`)
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
