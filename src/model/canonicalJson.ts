/**
 * JSON with fields in the order of the schema, records in natural order of their ids, two spaces, quantities and lists
 * of plain values on one line. Written by hand because an object cannot hold its keys in any other order than numbers
 * first, and because a wire should take few lines in a difference.
 */
import { z } from 'zod'
import { naturalOrder } from './naturalOrder.ts'

type Schema = z.core.$ZodType | undefined

export const canonicalJson = (value: unknown, schema: Schema, indent = ''): string => {
  const shape = resolve(schema, value)
  const inner = `${indent}  `
  if (Array.isArray(value)) {
    const items = value.map((item, index) => canonicalJson(item, itemSchema(shape, index), inner))
    if (items.every((item) => !item.includes('\n')) && items.join(', ').length <= 100) return `[${items.join(', ')}]`
    return `[\n${items.map((item) => inner + item).join(',\n')}\n${indent}]`
  }
  if (typeof value === 'object' && value !== null) {
    const record = value as Record<string, unknown>
    const fields = keysOf(record, shape)
      .filter((key) => record[key] !== undefined)
      .map((key) => `${JSON.stringify(key)}: ${canonicalJson(record[key], fieldSchema(shape, key), inner)}`)
    if (fields.length === 0) return '{}'
    if (isQuantity(shape)) return `{ ${fields.join(', ')} }`
    return `{\n${fields.map((field) => inner + field).join(',\n')}\n${indent}}`
  }
  return JSON.stringify(value)
}

const isQuantity = (schema: Schema): boolean => schema instanceof z.ZodType && schema.meta()?.quantity !== undefined

const resolve = (schema: Schema, value: unknown): Schema => {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodNullable || schema instanceof z.ZodPrefault)
    return resolve(schema.def.innerType, value)
  if (schema instanceof z.ZodDiscriminatedUnion) {
    const key = schema.def.discriminator
    const tag = (value as Record<string, unknown>)[key]
    return schema.def.options.find((option) => {
      const at = option instanceof z.ZodObject ? (option.shape[key] as Schema) : undefined
      return at instanceof z.ZodType && at.safeParse(tag).success
    })
  }
  return schema
}

const keysOf = (record: Record<string, unknown>, schema: Schema): string[] => {
  const sorted = Object.keys(record).sort(naturalOrder)
  if (!(schema instanceof z.ZodObject)) return sorted
  const known = Object.keys(schema.shape).filter((key) => Object.hasOwn(record, key))
  const listed = new Set(known)
  // A field that the schema does not know is still written: losing it silently would be worse than an odd order.
  return [...known, ...sorted.filter((key) => !listed.has(key))]
}

const fieldSchema = (schema: Schema, key: string): Schema => {
  if (schema instanceof z.ZodObject) return schema.shape[key] as Schema
  if (schema instanceof z.ZodRecord) return schema.def.valueType
  return undefined
}

const itemSchema = (schema: Schema, index: number): Schema => {
  if (schema instanceof z.ZodArray) return schema.def.element
  if (schema instanceof z.ZodTuple) return schema.def.items[index]
  return undefined
}
