/** Readable ids for what a person adds. */
type Taken = Readonly<Record<string, unknown>>

/** Small letters, digits and strokes of a name: `Earth strap, left` is earth-strap-left. */
export const slug = (name: string, otherwise = 'thing', most = 40): string =>
  name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, most) || otherwise

/** The id itself, or the first of `id-2`, `id-3` … that is not taken. */
export const freeId = (id: string, taken: Taken): string => {
  let free = id
  for (let number = 2; Object.hasOwn(taken, free); number++) free = `${id}-${number}`
  return free
}

/** earth-strap, earth-strap-2. */
export const idFrom = (name: string, taken: Taken, otherwise?: string): string => freeId(slug(name, otherwise), taken)

/** The next of a numbered kind: J-89 after J-88. */
export const nextId = (taken: Taken, prefix: string): string => {
  const numbers = Object.keys(taken).flatMap((id) => {
    const match = new RegExp(`^${prefix}-(\\d+)$`).exec(id)
    return match ? [Number(match[1])] : []
  })
  return `${prefix}-${Math.max(0, ...numbers) + 1}`
}
