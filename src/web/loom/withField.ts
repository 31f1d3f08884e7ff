/** The record with the field set, or without it where the value is not known. */
export const withField = <T extends object>(record: T, field: string, value: unknown): T => {
  const next = { ...record } as Record<string, unknown>
  if (value === undefined) delete next[field]
  else next[field] = value
  return next as T
}
