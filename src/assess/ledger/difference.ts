/** What differs between two files of a controller, as it is told. */
export interface LineChange {
  readonly sign: '+' | '-'
  /** Counted from one, in the file that has the line. */
  readonly line: number
  readonly text: string
}
export interface FileDifference {
  /** Places that hold another byte, and those that only the longer file has. */
  readonly bytes: number
  readonly lines?: { readonly added: number; readonly taken: number }
  /** Of text whose edit script is not too long; in the order of the file. */
  readonly changes?: readonly LineChange[]
  /** Of other files: where runs of other bytes lie, the first of them. */
  readonly runs?: readonly { readonly at: number; readonly length: number }[]
}
