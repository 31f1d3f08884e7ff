/** Wire colours as IEC 60757 letters ("RD/WH", "GNYE") or plain words ("red/white"). Source: IEC 60757 (from memory). */
const LETTERS = ['BK', 'BN', 'RD', 'OG', 'YE', 'GN', 'BU', 'VT', 'GY', 'WH', 'PK', 'GD', 'TQ', 'SR'] as const
export type Colour = (typeof LETTERS)[number] | 'GNYE'

const WORDS: Readonly<Record<string, Colour>> = {
  black: 'BK',
  brown: 'BN',
  red: 'RD',
  orange: 'OG',
  yellow: 'YE',
  green: 'GN',
  blue: 'BU',
  violet: 'VT',
  purple: 'VT',
  grey: 'GY',
  gray: 'GY',
  white: 'WH',
  pink: 'PK',
  gold: 'GD',
  turquoise: 'TQ',
  silver: 'SR',
}

export interface ColourRead {
  readonly colour: Colour
  readonly tracer?: Colour
}

const single = (text: string): Colour | undefined => {
  const upper = text.toUpperCase()
  return LETTERS.find((letters) => letters === upper) ?? (upper === 'GNYE' ? 'GNYE' : WORDS[text.toLowerCase()])
}

/** Undefined for what it does not know: one-letter codes mean different colours to different makers, so they are not guessed. */
export const readColour = (text: string): ColourRead | undefined => {
  const whole = single(text.trim())
  if (whole !== undefined) return { colour: whole }
  const joined = /^([A-Za-z]{2})([A-Za-z]{2})$/.exec(text.trim())
  const parts = joined
    ? [joined[1] as string, joined[2] as string]
    : text
        .trim()
        .split(/\s*(?:[/+,-]|\bwith\b|\band\b|\s)\s*/i)
        .filter((part) => part !== '' && !/^(tracer|stripe)$/i.test(part))
  if (parts.length !== 2) return undefined
  const [colour, tracer] = parts.map(single)
  return colour === undefined || tracer === undefined ? undefined : { colour, tracer }
}
