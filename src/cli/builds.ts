import { readFileSync } from 'node:fs'
import type { Command } from 'commander'
import { assess } from '../assess/assess.ts'
import { VERDICTS } from '../assess/finding.ts'
import { gather } from '../assess/gather.ts'
import { jobFromFinding } from '../assess/jobs.ts'
import { readBuild, writeBuild } from '../model/read.ts'
import { withClosings } from '../store/settle.ts'
import { openBuild } from '../store/store.ts'
import { refuse } from '../units/problem.ts'
import { makeDemo, openNamed } from './context.ts'
import { findingText, gatheredText, inert, type Out, tally, wrap } from './print.ts'

const BUILD = ['-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo'] as const

const readJson = (file: string): unknown => {
  let text: string
  try {
    text = readFileSync(file, 'utf8')
  } catch {
    throw refuse('no-file', `${file} cannot be read.`, 'Check its name and place.')
  }
  try {
    return JSON.parse(text)
  } catch (error) {
    throw refuse(
      'not-json',
      `${file} is not a whole JSON document (${error instanceof Error ? error.message : 'unknown fault'}).`,
      'Export the build again.',
    )
  }
}

export const addBuilds = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  program
    .command('check')
    .description('check the whole build: findings, worst first, with what to do')
    .option(...BUILD)
    .option('--working', 'show formula, numbers and source under each finding')
    .option('--all', 'show each finding: what is sound too, and every unknown by itself')
    .option('--verdict <verdict>', `only ${VERDICTS.join(', ')}`)
    .option('--system <system>', 'only one system, such as electrical or fuel')
    .option('--json', 'print JSON')
    .action(
      async (options: {
        build?: string
        working?: boolean
        all?: boolean
        verdict?: string
        system?: string
        json?: boolean
      }) => {
        const store = await openNamed(options.build, true)
        try {
          const build = store.read()
          const { findings, figures } = assess(build)
          const shown = findings.filter(
            (finding) =>
              (!options.verdict || finding.verdict === options.verdict) &&
              (!options.system || finding.system === options.system),
          )
          if (options.json) out.write(`${JSON.stringify({ build: build.name, findings: shown, figures }, null, 2)}\n`)
          else {
            out.write(`${inert(build.name)}: ${tally(findings)}\n\n`)
            const each = options.all || options.verdict
            const listed = shown.filter(({ verdict }) => each || (verdict !== 'sound' && verdict !== 'unknown'))
            for (const finding of listed)
              out.write(`${findingText(finding, { working: options.working ?? false, width: 100 })}\n\n`)
            if (!each) out.write(gatheredText(gather(build, shown)))
            const cautions = [...new Set(listed.flatMap((finding) => finding.cautions))]
            if (cautions.length > 0)
              out.write(
                `Before any of this work:\n${cautions.map((caution) => wrap(`· ${caution}`, 95, '  ')).join('\n')}\n`,
              )
            if (findings.length === 0)
              out.write(
                'Nothing to find yet. Add a wire list ("swapwright wires import list.csv"), a log, or a reading.\n',
              )
          }
          setStatus(findings.some((finding) => finding.verdict === 'no-go') ? 1 : 0)
        } finally {
          store.close()
        }
      },
    )

  program
    .command('demo <folder>')
    .description('make the demo build in a new folder')
    .action(async (folder: string) => {
      ;(await makeDemo(folder)).close()
      out.write(`The demo build is in ${folder}. Look at it with "swapwright check --build ${folder}".\n`)
    })

  program
    .command('new <folder>')
    .description('begin an empty build of your own')
    .option('--name <name>', 'what the build is called', 'My build')
    .action((folder: string, options: { name: string }) => {
      openBuild(folder, { create: options.name }).close()
      out.write(`An empty build is in ${folder}.\n`)
    })

  program
    .command('export <folder>')
    .description('write the whole build to standard output as one readable document')
    .action((folder: string) => {
      const store = openBuild(folder, { readOnly: true })
      try {
        out.write(writeBuild(store.read()))
      } finally {
        store.close()
      }
    })

  program
    .command('import <file> <folder>')
    .description('bring an exported build into a new folder, identical')
    .action((file: string, folder: string) => {
      const build = readBuild(readJson(file))
      const store = openBuild(folder, { create: build.name })
      try {
        store.replace(build, 'Imported')
      } finally {
        store.close()
      }
      out.write(`${inert(build.name)} is in ${folder}.\n`)
    })

  for (const way of ['undo', 'redo'] as const) {
    program
      .command(way)
      .description(way === 'undo' ? 'take the newest edit back' : 'make the edit again that was taken back')
      .option(...BUILD)
      .action(async (options: { build?: string }) => {
        const store = await openNamed(options.build, false)
        try {
          const done = store[way]()
          out.write(
            done
              ? `${way === 'undo' ? 'Taken back' : 'Made again'}: ${inert(done.label)}\n`
              : `There is nothing to ${way}.\n`,
          )
        } finally {
          store.close()
        }
      })
  }

  program
    .command('history')
    .description('every edit of the build, oldest first')
    .option(...BUILD)
    .option('--json', 'print JSON')
    .action(async (options: { build?: string; json?: boolean }) => {
      const store = await openNamed(options.build, true)
      try {
        const entries = store.history()
        if (options.json) out.write(`${JSON.stringify(entries, null, 2)}\n`)
        else
          for (const entry of entries)
            out.write(
              `${String(entry.seq).padStart(5)}  ${entry.at}  ${inert(entry.label)}${entry.undone ? '  (taken back)' : ''}\n`,
            )
      } finally {
        store.close()
      }
    })

  program
    .command('job')
    .description('make a finding a job; it closes by itself when the finding goes')
    .argument('<finding>', 'the key of the finding, as "swapwright check --working" prints it')
    .option(...BUILD)
    .action(async (key: string, options: { build?: string }) => {
      const store = await openNamed(options.build, false)
      try {
        const finding = assess(store.read()).findings.find((entry) => entry.key === key)
        if (!finding)
          throw refuse(
            'no-finding',
            `There is no finding “${key}” now.`,
            'See the keys with "swapwright check --working".',
          )
        const job = jobFromFinding(finding)
        const change = { collection: 'jobs', id: job.id, value: job } as const
        store.edit(withClosings(store.read(), { label: `Job: ${job.title}`.slice(0, 160), changes: [change] }))
        out.write(`${job.id}: ${inert(job.title)}\n`)
      } finally {
        store.close()
      }
    })
}
