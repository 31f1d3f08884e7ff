/** A plain number as typed, with a comma or a point; undefined where it is none. */
export const parseNumber = (text: string): number | undefined => {
  const value = Number(text.trim().replace(',', '.').replace('−', '-'))
  return text.trim() === '' || !Number.isFinite(value) ? undefined : value
}
