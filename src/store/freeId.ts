/** A readable id that no record has yet: `Run 3 (wet).csv` → `run-3-wet`, then `run-3-wet-2`. */
export const freeId = (wanted: string, taken: Readonly<Record<string, unknown>> | ReadonlySet<string>): string => {
  const has = (id: string): boolean => (taken instanceof Set ? taken.has(id) : Object.hasOwn(taken, id))
  const base = slug(wanted)
  if (!has(base)) return base
  for (let number = 2; ; number++) {
    const id = `${base.slice(0, 44 - String(number).length)}-${number}`
    if (!has(id)) return id
  }
}

/** Lower-case letters, digits and hyphens, 1 … 44 characters. */
export const slug = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 44)
    .replace(/-+$/, '') || 'item'
