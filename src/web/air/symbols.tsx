/** The parts of the air's way as line drawings of our own, each within ± 28 of its centre. */

const FINS = [-16, -8, 0, 8, 16]

export function AirSymbol({ id }: { id: string }) {
  switch (id) {
    case 'outside':
      return (
        <g className="pen">
          {[-12, 0, 12].map((y) => (
            <path key={y} d={`M-26 ${y}c6 -7 12 -7 18 0s12 7 18 0 8 -5 12 -3`} />
          ))}
        </g>
      )
    case 'intake':
      return <path className="pen" d="M-24 -24q6 14 20 16h28M-24 24q6 -14 20 -16h28" />
    case 'filter':
      return (
        <g>
          <rect className="body" x="-26" y="-22" width="52" height="44" />
          <path className="pen" d="M-18 -22l6 44 6 -44 6 44 6 -44 6 44 6 -44" />
        </g>
      )
    case 'compressor':
      return (
        <g>
          <path className="body" d="M-4 -24H27V-11H18A24 24 0 1 1 -4 -24z" />
          <path className="pen" d="M-4 0l-9 -13M-4 0l10 -12M-4 0l13 8M-4 0l-2 16M-4 0l-16 4" />
          <circle className="body" cx="-4" cy="0" r="4" />
        </g>
      )
    case 'cooler':
      return (
        <g>
          <rect className="body" x="-26" y="-24" width="52" height="48" />
          {FINS.map((x) => (
            <path key={x} className="fine" d={`M${x} -18v36`} />
          ))}
          <path className="pen" d="M-26 18l52 -36" />
        </g>
      )
    case 'loop':
      return (
        <g>
          <circle className="body" r="17" />
          <path className="pen" d="M-8 -15l25 15 -25 15" />
        </g>
      )
    case 'front':
      return (
        <g>
          <rect className="body" x="-13" y="-26" width="26" height="52" />
          {[-18, -10, -2, 6, 14].map((y) => (
            <path key={y} className="fine" d={`M-13 ${y}l26 6`} />
          ))}
          <path className="fine" d="M-30 -12h12m-4 -4l4 4 -4 4M-30 12h12m-4 -4l4 4 -4 4" />
        </g>
      )
    case 'store':
      return (
        <g>
          <path className="body" d="M-20 -20h40v40h-40z" />
          <path className="fine" d="M-20 -8h40M-14 -2h12M0 6h12M-10 12h10" />
        </g>
      )
    case 'charge-pipe':
      return (
        <path
          className="pen"
          d="M-28 -8h20q12 0 12 12v0q0 4 4 4h20M-28 8h12q4 0 4 4 0 12 14 12h26"
          transform="translate(0 -8)"
        />
      )
    default:
      return (
        <g>
          <path className="body" d="M-22 -26h44v52h-44z" />
          <path className="pen" d="M-22 -2h44v12h-44zM0 10v16" />
          <path className="fine" d="M-22 3h44" />
        </g>
      )
  }
}
