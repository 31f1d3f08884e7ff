/** The part of the server's report on an imported log that this screen shows. */
export interface Report {
  readonly source: string
  readonly samples: number
  readonly step: number | null
  readonly channels: readonly { readonly name: string; readonly unit: string }[]
  readonly understood: readonly string[]
  readonly guesses: readonly { readonly says: string; readonly override: string }[]
  readonly warnings: readonly { readonly line?: number; readonly text: string }[]
}
