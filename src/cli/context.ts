/** Which build a command speaks of: --build, else SWAPWRIGHT_BUILD, else the demo, made when it is not there yet. */
import { resolve } from 'node:path'
import { demoBuild } from '../../demo/index.ts'
import { hasBuild, openBuild, type Store } from '../store/store.ts'

export const DEMO_FOLDER = 'swapwright-build'

export const makeDemo = (folder: string): Store => {
  const demo = demoBuild()
  const store = openBuild(folder, { create: demo.name })
  store.replace(demo, 'The demo build')
  return store
}

export const buildFolder = (option: string | undefined): string =>
  resolve(option ?? process.env.SWAPWRIGHT_BUILD ?? DEMO_FOLDER)

/** Opens the build named; the demo is made first when neither an option nor the environment names one. */
export const openNamed = (option: string | undefined, readOnly: boolean): Store => {
  const folder = buildFolder(option)
  const named = option ?? process.env.SWAPWRIGHT_BUILD
  if (named === undefined && !hasBuild(folder)) makeDemo(folder).close()
  return openBuild(folder, { readOnly })
}
