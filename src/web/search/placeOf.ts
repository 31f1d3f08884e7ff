/** The places of things that are linked to from everywhere. */
export const circuitPlace = (circuit: string | undefined): string =>
  circuit === undefined ? '/circuits/unsorted' : `/circuits/${encodeURIComponent(circuit)}`
export const findingPlace = (key: string): string => `/findings/${encodeURIComponent(key)}`
