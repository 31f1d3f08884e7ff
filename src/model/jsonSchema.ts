/** The published JSON Schema of the build file, made from the schema the code itself reads with. */
import { z } from 'zod'
import { buildSchema, FORMAT } from './build.ts'

export const buildJsonSchema = (): Record<string, unknown> => ({
  title: `Swapwright build, format ${FORMAT}`,
  ...(z.toJSONSchema(buildSchema, { target: 'draft-2020-12', reused: 'ref', io: 'input' }) as Record<string, unknown>),
})
