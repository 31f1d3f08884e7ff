/** Which build a command speaks of: --build, else SWAPWRIGHT_BUILD, else the demo, made when it is not there yet. */
import { writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { CONTROLLER_FILES } from '../../demo/controllerFiles.ts'
import { demoBuild, demoLogCsv } from '../../demo/index.ts'
import { importLog } from '../logs/import.ts'
import { keepBytes } from '../store/controllerFiles.ts'
import { hasBuild, openBuild, type Store } from '../store/store.ts'

export const DEMO_FOLDER = 'swapwright-build'

/** The demo with its log: the file is written as its logger would have, and read in as any other. */
export const makeDemo = async (folder: string): Promise<Store> => {
  const demo = demoBuild()
  const store = openBuild(folder, { create: demo.name })
  try {
    for (const log of Object.values(demo.collections.logs)) {
      writeFileSync(join(folder, 'logs', log.file), demoLogCsv())
      await importLog(join(folder, 'logs', log.file), join(folder, 'logs', log.table))
    }
    for (const { text } of CONTROLLER_FILES) keepBytes(store, Buffer.from(text))
    store.replace(demo, 'The demo build')
    return store
  } catch (error) {
    store.close()
    throw error
  }
}

export const buildFolder = (option: string | undefined): string =>
  resolve(option ?? process.env.SWAPWRIGHT_BUILD ?? DEMO_FOLDER)

/** Opens the build named; the demo is made first when neither an option nor the environment names one. */
export const openNamed = async (option: string | undefined, readOnly: boolean): Promise<Store> => {
  const folder = buildFolder(option)
  const named = option ?? process.env.SWAPWRIGHT_BUILD
  if (named === undefined && !hasBuild(folder)) (await makeDemo(folder)).close()
  return openBuild(folder, { readOnly })
}
