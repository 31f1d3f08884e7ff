/**
 * Whole-document checks that a schema of single records cannot make. Reports every problem with the path of the
 * offending item and leaves the document as it is.
 */
import type { Problem } from '../units/problem.ts'
import { type Build, type CollectionName, collections } from './build.ts'
import { called } from './called.ts'
import { checkCases } from './integrityCases.ts'
import { checkCycles } from './integrityCycles.ts'
import { checkPaths } from './integrityPaths.ts'
import { checkPins } from './integrityPins.ts'
import { checkReferences } from './integrityReferences.ts'

export const checkIntegrity = (build: Build): Problem[] => [
  ...checkIds(build),
  ...checkReferences(build),
  ...checkPins(build),
  ...checkCases(build),
  ...checkPaths(build),
  ...checkCycles(build),
]

const checkIds = (build: Build): Problem[] =>
  (Object.keys(collections) as CollectionName[]).flatMap((name) =>
    Object.entries(build.collections[name])
      .filter(([key, record]) => record.id !== key)
      .map(([key, record]) => ({
        code: 'id-mismatch',
        path: `${name}/${key}/id`,
        says: `${called(name, key)} calls itself ${record.id}.`,
        todo: `Give it the id ${key}.`,
      })),
  )
