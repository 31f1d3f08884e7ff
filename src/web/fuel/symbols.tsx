/** Line drawings of the stations, after ISO 1219-1 where it has a sign; drawn here, 64 by 64. */
const PATHS: Readonly<Record<string, { readonly line: string; readonly thin?: string; readonly solid?: string }>> = {
  // A tank with its filler, the fuel's surface, and the vent rising from its top.
  tank: {
    line: 'M8 20H56V52Q56 56 52 56H12Q8 56 8 52ZM14 20V12H22V20M46 20V8H56',
    thin: 'M8 34H56M14 39H24M32 39H44M20 44H30M40 44H50M12 49H22',
  },
  // Strainer: a diamond with its mesh.
  suction: { line: 'M32 4V14M32 50V60M32 14L50 32L32 50L14 32Z', thin: 'M22 24L42 44M27 19L47 39M17 29L37 49' },
  // Pump, one direction: circle, solid triangle at the outlet; motor beside it.
  pump: { line: 'M32 4V14M32 50V60M50 32A18 18 0 1 1 14 32A18 18 0 1 1 50 32', solid: 'M24 36L40 36L32 49Z' },
  // Filter: a diamond with a dashed line across.
  filter: { line: 'M32 4V14M32 50V60M32 14L50 32L32 50L14 32Z', thin: 'M14 32H18M22 32H26M30 32H34M38 32H42M46 32H50' },
  feed: { line: 'M26 4V18Q26 26 22 32Q18 38 18 46V60M38 4V18Q38 26 34 32Q30 38 30 46V60', thin: 'M24 10H40M20 54H32' },
  // Rail with its regulator: square, arrow, and the pilot line to the manifold.
  rail: {
    line: 'M32 4V12M10 12H58V20H10ZM16 30H36V50H16ZM16 40H4M26 20V30',
    thin: 'M26 33V46M23 42L26 46L29 42M36 36H42V46H50',
  },
  injectors: {
    line: 'M10 8H54M18 8V18M32 8V18M46 8V18M14 18H22V36L18 44L14 36ZM28 18H36V36L32 44L28 36ZM42 18H50V36L46 44L42 36Z',
    thin: 'M18 46L12 58M18 46L24 58M32 46L26 58M32 46L38 58M46 46L40 58M46 46L52 58',
  },
  // Piston, rod and crank in a cylinder.
  engine: {
    line: 'M14 6V36M50 6V36M14 18H50V30H14ZM32 30L40 46M46 48A10 10 0 1 1 26 48A10 10 0 1 1 46 48',
    thin: 'M14 12H50M36 48L40 46',
  },
}

export function StationSymbol({ id }: { id: string }) {
  const { line, thin, solid } = PATHS[id] ?? { line: '' }
  return (
    <svg width="64" height="64" viewBox="0 0 64 64" aria-hidden="true">
      <path d={line} fill="none" stroke="currentColor" strokeWidth="1.8" strokeLinejoin="round" />
      {thin && <path d={thin} fill="none" stroke="currentColor" strokeWidth="1" />}
      {solid && <path d={solid} fill="currentColor" />}
    </svg>
  )
}
