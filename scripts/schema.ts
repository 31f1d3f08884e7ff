/** Writes the published JSON Schema of a build document from the code's own schema. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { injectorCardJsonSchema } from '../src/model/injectorCard.ts'
import { buildJsonSchema } from '../src/model/jsonSchema.ts'

writeFileSync(
  join(import.meta.dirname, '../schema/build-1.schema.json'),
  `${JSON.stringify(buildJsonSchema(), null, 2)}\n`,
)
writeFileSync(
  join(import.meta.dirname, '../schema/injector-card-1.schema.json'),
  `${JSON.stringify(injectorCardJsonSchema(), null, 2)}\n`,
)
