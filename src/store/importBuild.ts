/** An exported document into a folder: a new build, or one journal entry that replaces the old one and can be undone. */
import type { Build } from '../model/build.ts'
import { readBuild } from '../model/read.ts'
import { refuse } from '../units/problem.ts'
import { changesBetween } from './changes.ts'
import { hasBuild } from './database.ts'
import { openBuild } from './openBuild.ts'

/** Text to build; every fault of the document is told at once. */
export const readBuildText = (text: string, file: string): Build => {
  let json: unknown
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ''))
  } catch (error) {
    throw refuse(
      'not-json',
      `${file} is not a JSON document (${(error as Error).message}).`,
      'Choose a file that swapwright export wrote.',
      file,
    )
  }
  return readBuild(json)
}

/** Says whether the folder had a build before. Nothing stored changes unless all of it goes in. */
export const importBuild = (folder: string, build: Build, label: string): 'made' | 'replaced' => {
  const had = hasBuild(folder)
  const store = openBuild(folder, { create: build })
  try {
    if (had) store.edit({ label, changes: changesBetween(store.read(), build) })
  } finally {
    store.close()
  }
  return had ? 'replaced' : 'made'
}
