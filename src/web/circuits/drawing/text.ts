/** Breaks a name into lines for a drawing, where text does not wrap by itself; what does not fit ends in an ellipsis. */

/** Mean width of a character of 12 px plain type: a little generous, so that nothing runs out of its room. */
const CHARACTER = 6.6

export const wrap = (text: string, width: number, most: number): readonly string[] => {
  const fits = Math.max(4, Math.floor(width / CHARACTER))
  const lines: string[] = []
  // A figure stays with its unit.
  for (const word of text.replace(/(\d)\s(?=[A-Za-zµΩ°]{1,2}(\W|$))/g, '$1\u00a0').split(/[^\S\u00a0\u202f]+/)) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + 1 + word.length <= fits) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  const whole = lines.slice(0, most)
  const isCut = lines.length > most
  return whole.map((line, index) => {
    const cutHere = isCut && index === most - 1
    if (line.length <= fits && !cutHere) return line
    return `${line.slice(0, Math.min(line.length, fits - 1))}…`
  })
}
