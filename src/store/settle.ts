/**
 * A job made from a finding closes by itself when the finding goes. The closing is part of the edit that made it go,
 * so that one undo takes both back; undo and redo themselves write nothing of their own.
 */
import { assess } from '../assess/assess.ts'
import { closeAnswered } from '../assess/jobs.ts'
import type { Build, Edit } from '../model/build.ts'
import { applyChanges } from '../model/read.ts'

export const withClosings = (build: Build, edit: Edit): Edit => {
  const after = applyChanges(build, edit.changes)
  const closing = closeAnswered(after, assess(after).findings)
  return closing ? { label: edit.label, changes: [...edit.changes, ...closing.changes] } : edit
}
