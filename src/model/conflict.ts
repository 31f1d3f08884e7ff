/** An edit made on an older copy of the build met a change made elsewhere to the same thing. */
export interface Conflict {
  /** `collection/id`, `sheet/name` or `name`. */
  readonly subject: string
  /** Fields that both changed; empty where one of them took the record away. */
  readonly fields: readonly string[]
  readonly mine: unknown
  readonly stored: unknown
}
